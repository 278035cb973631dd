package crop

// A Source says where a figure of the crop table is published, or that it is
// not.
type Source int

// The sources of the crop table.
const (
	Unknown      Source = iota
	FAO589              // read in a copy of the appendix
	FAO589Memory        // the same appendix, recalled
	NDSU
	Midwest
	UVI
	SeedChart
	Peet
	PerryWehner
	IowaState
	Memory
	Practice
)

var sourceWords = [...]string{
	Unknown:      "not known",
	FAO589:       "FAO Fisheries and Aquaculture Technical Paper 589 (2014), appendix 1",
	FAO589Memory: "FAO Fisheries and Aquaculture Technical Paper 589 (2014), appendix 1, from memory",
	NDSU:         "NDSU Extension H-912 (June 2010), vegetable maturity dates",
	Midwest:      "Midwest Vegetable Production Guide 2022, p. 30",
	UVI:          "Rakocy, Shultz, Bailey and Thoman 2004, Acta Horticulturae 648 (abstract)",
	SeedChart:    "a seed house's succession chart, second hand",
	Peet:         "Peet (NCSU), Sustainable Practices for Vegetable Production in the South, appendix 2",
	PerryWehner:  "Perry and Wehner 1996, HortTechnology 6:27 (abstract)",
	IowaState:    "Iowa State University, Agronomy 541, lesson 2b",
	Memory:       "growers' handbooks, from memory",
	Practice:     "common practice, no source",
}

// String names the source in words.
func (s Source) String() string { return sourceWords[s] }

// A Figure is one published range with its source. A single published value
// has Low equal to High. The zero Figure is one that is not known.
type Figure struct {
	Low, High float64
	Source    Source
}

// Known reports whether the figure holds a value.
func (f Figure) Known() bool { return f.Source != Unknown }

// Middle returns the middle of the range.
func (f Figure) Middle() float64 { return (f.Low + f.High) / 2 }
