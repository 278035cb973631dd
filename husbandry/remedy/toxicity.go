package remedy

import "strings"

// A Unit is the unit in which a concentration is printed.
type Unit string

// The units that our sources print.
const (
	GramPerL       Unit = "g/L"
	MilligramPerL  Unit = "mg/L"
	MicrogramPerL  Unit = "ug/L"
	MillilitrePerL Unit = "mL/L"
	MicrolitrePerL Unit = "uL/L"
)

// A Test is one published lethal concentration: it killed half the fish in the
// hours named. Low and High are equal for a single figure. Zero alkalinity or
// temperature means that it was not printed where we read it.
type Test struct {
	Substance  string // as in Substances
	Species    string
	Hours      float64
	Low, High  float64
	Unit       Unit
	Above      bool    // printed as "greater than"
	Alkalinity float64 // mg/L as CaCO3
	Celsius    float64
	Source     string
}

// Volume reports whether the test counts microlitres of a liquid rather than
// milligrams.
func (t *Test) Volume() bool { return t.Unit == MillilitrePerL || t.Unit == MicrolitrePerL }

// PerLitre returns the lower end in milligrams (or microlitres) a litre.
func (t *Test) PerLitre() float64 {
	switch t.Unit {
	case GramPerL, MillilitrePerL:
		return t.Low * 1000
	case MicrogramPerL:
		return t.Low / 1000
	}
	return t.Low
}

// A Choice says which tests are wanted. Zero fields leave a question open.
type Choice struct {
	Species    string
	Hours      float64
	Alkalinity float64
	Celsius    float64
}

// Tests returns the published tests of a substance that fit a choice. Water that
// was not printed fits no asked figure. A species is matched by its whole name,
// or, where none is so called, by the words of it.
func Tests(substance string, c Choice) ([]Test, error) {
	found := testsWhere(substance, c, strings.EqualFold)
	if found == nil {
		found = testsWhere(substance, c, likes)
	}
	if found == nil {
		return nil, &NotKnownError{"a lethal concentration of " + substance + " for these fish and this water"}
	}
	return found, nil
}

func testsWhere(substance string, c Choice, called func(species, asked string) bool) []Test {
	var found []Test
	for _, t := range tests {
		if t.Substance == substance && c.fits(&t, called) {
			found = append(found, t)
		}
	}
	return found
}

func (c Choice) fits(t *Test, called func(species, asked string) bool) bool {
	return (c.Species == "" || called(t.Species, c.Species)) &&
		(c.Hours == 0 || c.Hours == t.Hours) &&
		(c.Alkalinity == 0 || c.Alkalinity == t.Alkalinity) &&
		(c.Celsius == 0 || c.Celsius == t.Celsius)
}

// likes reports whether every word asked for stands in the text.
func likes(text, asked string) bool {
	text = strings.ToLower(text)
	for word := range strings.FieldsSeq(strings.ToLower(asked)) {
		if !strings.Contains(text, strings.Trim(word, "(),;")) {
			return false
		}
	}
	return true
}

// A NotKnownError says that nothing is published among our sources. It is no
// sign that a thing does no harm.
type NotKnownError struct{ What string }

// Error says so.
func (e *NotKnownError) Error() string {
	return "not known: we hold no published figure for " + e.What
}
