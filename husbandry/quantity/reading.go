package quantity

import "strings"

// A Quantity is something that a grower measures or sees. Its String is its
// stable name: "water_temperature".
type Quantity uint8

// The quantities of a reading. UnknownQuantity is never valid. A meter that
// shows oxygen in percent gives OxygenSaturation; turning that into mg/L takes
// temperature, salinity and pressure (package water), so it is not done here.
const (
	UnknownQuantity Quantity = iota
	WaterTemperature
	AirTemperature
	Acidity
	TotalAmmonia
	Nitrite
	Nitrate
	DissolvedOxygen
	OxygenSaturation
	Alkalinity
	Hardness
	Conductivity
	SaltContent
	CarbonDioxide
	Iron
	Phosphate
	Potassium
	Calcium
	Magnesium
	Chlorine
	Chloride
	Flow
	Level
	Light
	Humidity
	AirPressure
	Appetite
	Clarity

	quantityCount
)

// String gives the stable name, lower_snake.
func (q Quantity) String() string { return q.row().name }

// Title gives the name as one says it.
func (q Quantity) Title() string { return q.row().title }

// Quantities lists every quantity.
func Quantities() []Quantity {
	all := make([]Quantity, 0, quantityCount)
	for q := UnknownQuantity + 1; q < quantityCount; q++ {
		all = append(all, q)
	}
	return all
}

// ParseQuantity finds a quantity by its stable name. Any other text is a
// QuantityError.
func ParseQuantity(name string) (Quantity, error) {
	for _, q := range Quantities() {
		if q.row().name == name {
			return q, nil
		}
	}
	return UnknownQuantity, &QuantityError{Name: name}
}

// Unit is the unit of the canonical value.
func (q Quantity) Unit() Unit { return q.row().unit }

// Basis is the basis of the canonical value.
func (q Quantity) Basis() Basis { return q.row().basis }

// Plausible gives the bounds, inclusive and in the canonical unit, outside
// which a reading is refused as a slip of the hand.
func (q Quantity) Plausible() (low, high float64) { return q.row().low, q.row().high }

// Usual gives the range, inclusive and in the canonical unit, outside which a
// client asks whether the reading is right before it keeps it.
func (q Quantity) Usual() (low, high float64) { return q.row().usualLow, q.row().usualHigh }

// Unusual tells whether a canonical value lies outside the usual range. A value
// that is not a number is unusual.
func (q Quantity) Unusual(canonical float64) bool {
	return !(canonical >= q.row().usualLow && canonical <= q.row().usualHigh)
}

// Words lists, worst first, the words in which the quantity is judged by eye;
// nil when it is a number. The canonical value is the place in the list,
// counted from nought.
func (q Quantity) Words() []string { return append([]string(nil), q.row().words...) }

// Rank finds a word in Words. An unknown word is a QuantityError.
func (q Quantity) Rank(word string) (float64, error) {
	for i, w := range q.row().words {
		if strings.EqualFold(w, strings.TrimSpace(word)) {
			return float64(i), nil
		}
	}
	return nan, &QuantityError{Name: word, For: q.row().title, Allowed: q.Words()}
}

// A QuantityError says that a quantity, or a word for one, is not known.
type QuantityError struct {
	Name    string   // as given
	For     string   // the quantity, when a word of it is meant
	Allowed []string // words that would do
}

// Error reads as one sentence.
func (e *QuantityError) Error() string {
	if e.For == "" {
		return "quantity \"" + e.Name + "\" is not known"
	}
	return "\"" + e.Name + "\" is no word for " + e.For + "; use " + strings.Join(e.Allowed, ", ")
}

func (q Quantity) row() *quantityRow {
	if q >= quantityCount {
		q = UnknownQuantity
	}
	return &quantities[q]
}
