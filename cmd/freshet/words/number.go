package words

import (
	"math"
	"strconv"
	"strings"

	"google.golang.org/protobuf/reflect/protoreflect"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/quantity"
)

// A suffix of a field's name tells its unit.
type suffix struct {
	end   string
	unit  quantity.Unit // NoUnit: no unit that converts
	spelt string        // how a unit that does not convert may be written behind a number, by blanks
}

// Longer ones first, where one ends another.
var suffixes = []suffix{
	{"_m2_per_m3", quantity.NoUnit, "m2/m3"},
	{"_kg_per_m2", quantity.UnitKgPerM2, ""},
	{"_kg_per_week", quantity.NoUnit, "kg/week kg"},
	{"_minor_per_kg", quantity.NoUnit, ""},
	{"_l_per_h", quantity.UnitLPerH, ""},
	{"_mg_per_l", quantity.UnitMgPerL, ""},
	{"_umol_per_s", quantity.NoUnit, "umol/s µmol/s"},
	{"_percent", quantity.NoUnit, "% percent"},
	{"_celsius", quantity.UnitCelsius, ""},
	{"_degrees", quantity.NoUnit, "° deg"},
	{"_people", quantity.NoUnit, "people"},
	{"_count", quantity.NoUnit, ""},
	{"_minor", quantity.NoUnit, ""},
	{"_days", quantity.NoUnit, "days d day"},
	{"_kwh", quantity.NoUnit, "kWh kwh"},
	{"_ml", quantity.UnitMillilitre, ""},
	{"_m2", quantity.UnitSquareMetre, ""},
	{"_kg", quantity.UnitKilogram, ""},
	{"_g", quantity.UnitGram, ""},
	{"_l", quantity.UnitLitre, ""},
	{"_m", quantity.UnitMetre, ""},
	{"_w", quantity.NoUnit, "W w"},
}

func suffixOf(name string) (suffix, bool) {
	for _, s := range suffixes {
		if strings.HasSuffix(name, s.end) {
			return s, true
		}
	}
	return suffix{}, false
}

// fieldQuantity are fields whose unit takes a quantity's own conversions.
func fieldQuantity(name string) quantity.Quantity {
	switch {
	case strings.Contains(name, "alkalinity"):
		return quantity.Alkalinity
	case strings.Contains(name, "hardness"):
		return quantity.Hardness
	case strings.Contains(name, "nitrate"):
		return quantity.Nitrate
	case strings.Contains(name, "unionized_ammonia"):
		return quantity.TotalAmmonia
	case strings.Contains(name, "oxygen"):
		return quantity.DissolvedOxygen
	}
	return quantity.UnknownQuantity
}

// decimal reads a field that is a number with or without a unit, into the
// field's own unit, and checks it against the contract's limits.
func decimal(field protoreflect.FieldDescriptor, text string, whole bool) (float64, error) {
	v, err := converted(string(field.Name()), strings.TrimSpace(text), whole)
	if err != nil {
		return 0, err
	}
	return v, inLimits(limitsOf(field), v)
}

func converted(name, text string, whole bool) (float64, error) {
	s, hasUnit := suffixOf(name)
	if name == "minutes" {
		return minutes(text)
	}
	if !hasUnit || s.unit == quantity.NoUnit {
		return plainNumber(text, strings.Fields(s.spelt))
	}
	m, err := quantity.ParseMeasure(text)
	if err != nil {
		return 0, typing(err)
	}
	if m.Unit == quantity.NoUnit {
		if !whole {
			return 0, problem("", unitMismatch, "needs its unit", "write it behind the number: "+text+s.unit.String())
		}
		return m.Value(), nil
	}
	if q := fieldQuantity(name); q != quantity.UnknownQuantity {
		v, err := m.Canonical(q)
		if err != nil {
			return 0, typing(err)
		}
		return v, nil
	}
	v, err := quantity.Convert(m.Value(), m.Unit, s.unit)
	if err != nil {
		return 0, typing(err)
	}
	return v, nil
}

// plainNumber reads a number that may carry one of the spellings of its unit.
func plainNumber(text string, spelt []string) (float64, error) {
	for _, unit := range spelt {
		if before, found := strings.CutSuffix(text, unit); found {
			text = strings.TrimSpace(before)
			break
		}
	}
	m, err := quantity.ParseMeasure(text)
	if err != nil {
		return 0, typing(err)
	}
	if m.Unit != quantity.NoUnit || m.Censored != quantity.Exact {
		return 0, problem("", unitMismatch, "\""+text+"\" is not a number of its kind", "write the number alone")
	}
	return m.Value(), nil
}

// minutes reads "90", "90min", "1.5h", "1h30".
func minutes(text string) (float64, error) {
	hours, rest, found := strings.Cut(text, "h")
	total := 0.0
	if found {
		h, err := plainNumber(strings.TrimSpace(hours), nil)
		if err != nil {
			return 0, err
		}
		total, text = h*60, strings.TrimSpace(rest)
		if text == "" || text == "ours" || text == "our" {
			return total, nil
		}
	}
	m, err := plainNumber(text, []string{"minutes", "min", "m"})
	return total + m, err
}

// inLimits checks a number against the contract's limits, which are read only
// where one of them is set.
func inLimits(l *freshetv1.Limits, v float64) error {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return problem("", outOfRange, "is not a number", "write it like 7.5")
	}
	if (l.GetLow() != 0 || l.GetHigh() != 0) && (v < l.GetLow() || v > l.GetHigh()) {
		return problem("", outOfRange, plain(v)+" lies outside "+plain(l.GetLow())+" to "+plain(l.GetHigh()), "check the number and its unit")
	}
	return nil
}

func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// wholeNumber reads a count, or money in hundredths.
func wholeNumber(field protoreflect.FieldDescriptor, text string) (protoreflect.Value, error) {
	text = strings.TrimSpace(text)
	var v int64
	var err error
	if strings.Contains(string(field.Name()), "_minor") {
		v, err = money(text)
	} else if v, err = strconv.ParseInt(text, 10, 64); err != nil {
		err = problem("", malformed, "\""+text+"\" is not a whole number", "write it like 12")
	}
	if err == nil {
		err = inLimits(limitsOf(field), float64(v))
	}
	if err != nil {
		return protoreflect.Value{}, err
	}
	switch field.Kind() {
	case protoreflect.Uint32Kind:
		return protoreflect.ValueOfUint32(uint32(max(v, 0))), negative(v)
	case protoreflect.Uint64Kind:
		return protoreflect.ValueOfUint64(uint64(max(v, 0))), negative(v)
	case protoreflect.Int32Kind, protoreflect.Sint32Kind:
		return protoreflect.ValueOfInt32(int32(v)), nil
	}
	return protoreflect.ValueOfInt64(v), nil
}

func negative(v int64) error {
	if v < 0 {
		return problem("", outOfRange, plain(float64(v))+" is below nought", "write a count")
	}
	return nil
}

// money reads "12.50" into hundredths. The currency is a field of its own.
func money(text string) (int64, error) {
	m, err := quantity.ParseMeasure(text)
	if err != nil {
		return 0, typing(err)
	}
	if m.Decimals > 2 || m.Unit != quantity.NoUnit {
		return 0, problem("", malformed, "\""+text+"\" is no sum of money", "write it like 12.50, and the currency as currency=EUR")
	}
	for ; m.Decimals < 2; m.Decimals++ {
		m.Digits *= 10
	}
	return m.Digits, nil
}
