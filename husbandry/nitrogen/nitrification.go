package nitrogen

import "freshet.example/husbandry/quantity"

// A NitrificationBasis holds what one source says happens for each gram of
// ammonia nitrogen that bacteria oxidize to nitrate. Figures of two sources
// are never mixed; a figure that the source does not state is 0, and asking
// for it is an error.
type NitrificationBasis struct {
	Name          string
	Oxygen        float64 // g O2 used
	Alkalinity    float64 // g used, counted as CaCO3
	Nitrate       float64 // g made, counted as NO3
	CarbonDioxide float64 // g made
	Cells         float64 // g dry bacteria made
	Source        string
}

// The published bases.
var (
	// EbelingSlides is oxidation to nitrate with the oxygen and alkalinity of
	// the full reaction. The default, as it asks for most.
	EbelingSlides = NitrificationBasis{Name: "Ebeling slides", Oxygen: 4.57, Alkalinity: 7.14, Nitrate: 4.42, CarbonDioxide: 5.93, Cells: 0.17,
		Source: "Ebeling, Biofiltration-Nitrification Design Overview (slides)"}
	// OverallReaction is the slides' own overall reaction, with 1.9 O2 for
	// each nitrogen. It states no other figure here.
	OverallReaction = NitrificationBasis{Name: "overall reaction", Oxygen: 4.34,
		Source: "Ebeling slides, overall reaction with 1.9 O2, derived from molar masses"}
	// WithCells counts the nitrogen that goes into bacteria.
	WithCells = NitrificationBasis{Name: "EPA 1975 with cells", Alkalinity: 7.07,
		Source: "EPA 1975 as cited, with cell synthesis"}
	// Ebeling2006 is a full balance with cells.
	Ebeling2006 = NitrificationBasis{Name: "Ebeling et al. 2006", Oxygen: 4.18, Alkalinity: 7.05, Nitrate: 4.32, CarbonDioxide: 5.85, Cells: 0.20,
		Source: "Ebeling, Timmons & Bisogni 2006, Aquaculture 257:346-358, figures from memory"}
)

// NitrificationBases lists the published bases, the default first.
func NitrificationBases() [4]NitrificationBasis {
	return [4]NitrificationBasis{EbelingSlides, OverallReaction, WithCells, Ebeling2006}
}

// A NotStatedError says that a source gives no figure for what was asked.
type NotStatedError struct {
	Basis  string
	Figure string // "oxygen"
}

// Error names the source and the missing figure.
func (e *NotStatedError) Error() string { return e.Basis + " states no figure for " + e.Figure }

// OxygenUsed returns the oxygen that nitrifying tan, 0 to 1e9 g, uses.
func (b NitrificationBasis) OxygenUsed(tan GramsN) (quantity.Grams, error) {
	return b.each("oxygen", b.Oxygen, tan)
}

// AlkalinityUsed returns the alkalinity that nitrifying tan, 0 to 1e9 g,
// uses, in grams counted as CaCO3.
func (b NitrificationBasis) AlkalinityUsed(tan GramsN) (quantity.Grams, error) {
	return b.each("alkalinity", b.Alkalinity, tan)
}

// NitrateMade returns the nitrate made from tan, 0 to 1e9 g, counted as NO3.
func (b NitrificationBasis) NitrateMade(tan GramsN) (quantity.Grams, error) {
	return b.each("nitrate", b.Nitrate, tan)
}

// CarbonDioxideMade returns the carbon dioxide set free by nitrifying tan, 0
// to 1e9 g.
func (b NitrificationBasis) CarbonDioxideMade(tan GramsN) (quantity.Grams, error) {
	return b.each("carbon dioxide", b.CarbonDioxide, tan)
}

// CellsMade returns the dry bacteria grown on tan, 0 to 1e9 g.
func (b NitrificationBasis) CellsMade(tan GramsN) (quantity.Grams, error) {
	return b.each("cells", b.Cells, tan)
}

func (b NitrificationBasis) each(figure string, perGram float64, tan GramsN) (quantity.Grams, error) {
	if perGram == 0 {
		return 0, &NotStatedError{b.Name, figure}
	}
	if err := checkGrams("ammonia nitrogen", float64(tan)); err != nil {
		return 0, err
	}
	return quantity.Grams(float64(tan) * perGram), nil
}

// Alkalinity observed to be used up, g CaCO3 for each g N.
const (
	leastAlkalinityObserved = 6.3 // EPA 1975, via a Wisconsin thesis
	mostAlkalinityObserved  = 7.4 // EPA 1975, via a Wisconsin thesis
)

// AlkalinityObserved returns the range of alkalinity, in grams counted as
// CaCO3, that real filters were seen to use for tan of 0 to 1e9 g.
func AlkalinityObserved(tan GramsN) (low, high quantity.Grams, err error) {
	if err := checkGrams("ammonia nitrogen", float64(tan)); err != nil {
		return 0, 0, err
	}
	return quantity.Grams(float64(tan) * leastAlkalinityObserved), quantity.Grams(float64(tan) * mostAlkalinityObserved), nil
}
