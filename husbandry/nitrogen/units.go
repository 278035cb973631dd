package nitrogen

// Masses of nitrogen and ammonia. A day's flow is told by the name of the
// function or field that carries it.
type (
	// GramsN is a mass of nitrogen in grams, whatever compound holds it.
	GramsN float64
	// KilogramsN is a mass of nitrogen in kilograms.
	KilogramsN float64
	// GramsNH3 is a mass of ammonia in grams, counted as NH3.
	GramsNH3 float64
)

// Rates and ratios.
type (
	// ArealN is nitrogen oxidized on a square metre of surface in a day, g/m2/d.
	ArealN float64
	// ArealNH3 is ammonia oxidized on a square metre of surface in a day,
	// counted as NH3, g/m2/d.
	ArealNH3 float64
	// SpecificSurface is square metres of surface in a cubic metre of media.
	SpecificSurface float64
	// FeedRatio is grams of feed a day for a square metre of plants.
	FeedRatio float64
	// FHMFactor is the ammonia factor of Fish Hatchery Management:
	// mg/L x gallons a minute for each pound of feed a day.
	FHMFactor float64
)

// An UnknownError says that a table has no row of the name asked for.
type UnknownError struct {
	Table string // "filter media"
	Name  string // the name asked for
}

// Error names the table and the missing row.
func (e *UnknownError) Error() string { return "no " + e.Table + " called " + e.Name + " is known" }
