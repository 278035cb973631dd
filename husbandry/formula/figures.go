package formula

// Figures say how finely an answer is shown to people: as finely as its source
// supports. What programs read is never rounded. A dose and a limit are Usual,
// be they ever so rough: a figure fewer could carry them past what is safe.
type Figures int

// How finely an answer is shown.
const (
	Usual Figures = iota // three figures: a formula fitted to careful measurements
	Rough                // two: animals, plants, and rules of thumb
	Fine                 // four: conversions, and statistics of a grower's own figures
)

// Digits returns the number of significant digits.
func (f Figures) Digits() int {
	switch f {
	case Rough:
		return 2
	case Fine:
		return 4
	default:
		return 3
	}
}

// Finely returns the formulas, all of them to be shown in Fine figures.
func Finely(formulas []Formula) []Formula {
	for i := range formulas {
		formulas[i].Figures = Fine
	}
	return formulas
}
