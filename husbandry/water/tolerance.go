package water

import "freshet.example/husbandry/quantity"

// A Span is a range in which an organism does well. A bound that the source
// leaves open is not a number.
type Span struct{ Low, High float64 }

// An Organism is a column of the FAO table.
type Organism string

// A Parameter is a row of the FAO table.
type Parameter string

// The organisms and parameters that FAO TP 589 tables. The table does not say
// how it counts ammonia, nitrite and nitrate; they are totals in mg/L.
const (
	WarmWaterFish      Organism = "warm-water fish"
	ColdWaterFish      Organism = "cold-water fish"
	Plants             Organism = "plants"
	NitrifyingBacteria Organism = "nitrifying bacteria"
	Compromise         Organism = "aquaponics compromise"

	TemperatureCelsius Parameter = "temp_C"
	PHValue            Parameter = "pH"
	AmmoniaMgPerL      Parameter = "ammonia_mg_L"
	NitriteMgPerL      Parameter = "nitrite_mg_L"
	NitrateMgPerL      Parameter = "nitrate_mg_L"
	OxygenMgPerL       Parameter = "DO_mg_L"
)

// Organisms and Parameters in the order of the table.
var (
	Organisms  = []Organism{WarmWaterFish, ColdWaterFish, Plants, NitrifyingBacteria, Compromise}
	Parameters = []Parameter{TemperatureCelsius, PHValue, AmmoniaMgPerL, NitriteMgPerL, NitrateMgPerL, OxygenMgPerL}
)

// Unit is the unit of the parameter; empty for pH.
func (p Parameter) Unit() string {
	switch p {
	case TemperatureCelsius:
		return "degC"
	case PHValue:
		return ""
	default:
		return "mg/L"
	}
}

var blank = Span{nan, nan}

func below(v float64) Span { return Span{nan, v} }
func above(v float64) Span { return Span{v, nan} }

// FAO Fisheries and Aquaculture Technical Paper 589 (2014), tables 3.1 and 3.2,
// as seen in a copy. Rows as Organisms, columns as Parameters.
var tolerances = [][]Span{
	{{22, 32}, {6, 8.5}, below(3), below(1), below(400), {4, 6}},
	{{10, 18}, {6, 8.5}, below(1), below(0.1), below(400), {6, 8}},
	{{16, 30}, {5.5, 7.5}, below(30), below(1), blank, above(3)},
	{{14, 34}, {6, 8.5}, below(3), below(1), blank, {4, 8}},
	{{18, 30}, {6, 7}, below(1), below(1), {5, 150}, above(5)},
}

// Tolerance is the range of a parameter in which an organism does well, as FAO
// TP 589 prints it. A cell that the table leaves blank, and names it does not
// have, are a NameError.
func Tolerance(o Organism, p Parameter) (Span, error) {
	row, err := place("organism", o, Organisms)
	if err != nil {
		return blank, err
	}
	column, err := place("parameter", p, Parameters)
	if err != nil {
		return blank, err
	}
	s := tolerances[row][column]
	if s.Low != s.Low && s.High != s.High {
		return blank, &NameError{Name: string(p), Of: "range for " + string(o) + " of", Known: nil}
	}
	return s, nil
}

func place[T ~string](what string, name T, list []T) (at int, err error) {
	known := make([]string, len(list))
	for i, item := range list {
		if item == name {
			return i, nil
		}
		known[i] = string(item)
	}
	return at, &NameError{Name: string(name), Of: what, Known: known}
}

// Text writes the range as the table prints it: "6-8.5", "<3", ">5".
func (s Span) Text() string {
	switch {
	case s.Low != s.Low:
		return "<" + shortest(s.High)
	case s.High != s.High:
		return ">" + shortest(s.Low)
	default:
		return shortest(s.Low) + "-" + shortest(s.High)
	}
}

// shortest writes a number with no more figures than it has.
func shortest(v float64) string {
	for figures := 1; ; figures++ {
		if rounded, err := RoundFigures(v, figures); err != nil || rounded == v {
			return quantity.Show(v, figures)
		}
	}
}
