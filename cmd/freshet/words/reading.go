package words

import (
	"errors"
	"strings"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/quantity"
)

// Kit is what a kit or meter reads in, where the value itself does not say.
type Kit struct {
	Unit  quantity.Unit
	Basis quantity.Basis
}

// Reading reads a value of a quantity as typed: "7.2", "<0.25 ppm as NH3",
// "78F", "good". Unit and basis come from the text, else from the kit, else
// where the quantity has only one; they are never guessed. The value is checked
// against what the quantity can be. Errors are Problems.
func Reading(q freshetv1.Quantity, text string, kit Kit) (*freshetv1.Reading, error) {
	known := Known(q)
	if words := known.Words(); words != nil {
		return wordReading(q, known, text)
	}
	m, err := quantity.ParseMeasure(text)
	if err != nil {
		return nil, typing(err)
	}
	if m.Unit == quantity.NoUnit {
		m.Unit = kit.Unit
	}
	if m.Basis == quantity.NoBasis {
		m.Basis = kit.Basis
	}
	if m.Unit == quantity.NoUnit && only(known.Units()) {
		m.Unit = known.Unit()
	}
	if m.Unit == quantity.NoUnit && known == quantity.Acidity {
		m.Unit = quantity.UnitPH
	}
	if m.Unit == quantity.NoUnit {
		return nil, problem("", unitMismatch, known.Title()+" needs a unit", "write it behind the value: "+text+known.Unit().String())
	}
	if _, err := m.Canonical(known); err != nil {
		return nil, typing(err)
	}
	return asTyped(q, known, m)
}

func only(units []quantity.Unit) bool { return len(units) == 1 }

func wordReading(q freshetv1.Quantity, known quantity.Quantity, text string) (*freshetv1.Reading, error) {
	rank, err := known.Rank(text)
	if err != nil {
		return nil, typing(err)
	}
	return &freshetv1.Reading{
		Quantity: q, Digits: int64(rank), Unit: freshetv1.Unit_UNIT_WORD, Method: freshetv1.Method_METHOD_EYE,
	}, nil
}

// asTyped keeps the digits as they were typed; only the point moves where the
// contract carries the unit a power of ten away.
func asTyped(q freshetv1.Quantity, known quantity.Quantity, m quantity.Measure) (*freshetv1.Reading, error) {
	unit, ok := carry(m.Unit)
	if !ok {
		return nil, problem("", unitMismatch, "records do not keep "+known.Title()+" in "+m.Unit.String(),
			"give it in "+known.Unit().String())
	}
	r := &freshetv1.Reading{Quantity: q, Digits: m.Digits, Unit: unit.as, Basis: carriedBases[m.Basis]}
	if m.Basis != quantity.NoBasis && r.GetBasis() == 0 && m.Basis != known.Basis() && m.Basis != quantity.UnderSun {
		return nil, problem("", basisWrong, "records do not keep "+known.Title()+" as "+m.Basis.String(),
			"give it as "+known.Basis().String())
	}
	decimals := m.Decimals - unit.shift
	for ; decimals < 0; decimals++ {
		r.Digits *= 10
	}
	if decimals > 9 {
		return nil, problem("", outOfRange, "more than 9 digits stand behind the point", "write fewer")
	}
	r.Decimals = uint32(decimals)
	switch m.Censored {
	case quantity.Less:
		r.Censoring = freshetv1.Censoring_CENSORING_BELOW
	case quantity.More:
		r.Censoring = freshetv1.Censoring_CENSORING_ABOVE
	}
	return r, nil
}

// Measure gives a reading back as it was typed.
func Measure(r *freshetv1.Reading) quantity.Measure {
	m := quantity.Measure{
		Digits: r.GetDigits(), Decimals: int(r.GetDecimals()), Unit: typedUnit(r.GetUnit(), Known(r.GetQuantity())),
		Basis: typedBasis(r.GetBasis()),
	}
	switch r.GetCensoring() {
	case freshetv1.Censoring_CENSORING_BELOW:
		m.Censored = quantity.Less
	case freshetv1.Censoring_CENSORING_ABOVE:
		m.Censored = quantity.More
	}
	return m
}

// Value writes a reading's value: "7.2", "<0.25 mg/L as NH3", "good".
func Value(r *freshetv1.Reading) string {
	known := Known(r.GetQuantity())
	if words := known.Words(); words != nil {
		if at := r.GetDigits(); at >= 0 && int(at) < len(words) {
			return words[at]
		}
	}
	m := Measure(r)
	if m.Unit == quantity.UnitPH {
		m.Unit = quantity.NoUnit
	}
	return Degrees(m.String())
}

// Degrees writes degC and degF with their sign, as people do.
func Degrees(text string) string {
	return strings.NewReplacer("degC", "°C", "degF", "°F", "umol/m2/s", "µmol/m²/s", "uS/cm", "µS/cm", "ug/L", "µg/L").Replace(text)
}

// typing turns husbandry's errors into Problems.
func typing(err error) error {
	var unit *quantity.UnitError
	var basis *quantity.BasisError
	var parse *quantity.ParseError
	var word *quantity.QuantityError
	switch {
	case errors.As(err, &unit):
		return withHint(unitMismatch, err.Error())
	case errors.As(err, &basis):
		return withHint(basisWrong, err.Error())
	case errors.As(err, &parse):
		return withHint(malformed, err.Error())
	case errors.As(err, &word):
		return withHint(unknownValue, err.Error())
	}
	return withHint(outOfRange, err.Error())
}

// Part parts husbandry's sentences, which say what to do behind a semicolon; one
// within brackets belongs to a source.
func Part(sentence string) (words, hint string) {
	for at := range len(sentence) {
		if before := sentence[:at]; strings.HasPrefix(sentence[at:], "; ") && strings.Count(before, "(") == strings.Count(before, ")") {
			return before, sentence[at+len("; "):]
		}
	}
	return sentence, ""
}

// withHint is a problem in husbandry's words.
func withHint(reason freshetv1.ErrorReason, sentence string) error {
	words, hint := Part(sentence)
	if hint == "" {
		hint = hints[reason]
	}
	return problem("", reason, words, hint)
}

// hints say what to do where the sentence does not.
var hints = map[freshetv1.ErrorReason]string{
	outOfRange:   "check the number and its unit",
	unitMismatch: "write a unit such as mg/L, dKH, degC or kg behind the number",
	malformed:    "write it like 7.5 or <0.25 ppm",
}

// String tells what a kit reads in: " in mg/L as N"; empty where it says nothing.
func (k Kit) String() string {
	s := ""
	if k.Unit != quantity.NoUnit {
		s += " in " + Degrees(k.Unit.String())
	}
	if k.Basis != quantity.NoBasis {
		s += " as " + k.Basis.String()
	}
	return s
}
