package fish

// Units of fish culture.
type (
	// DegreeDays is the sum of daily mean temperatures above 0 degC.
	DegreeDays float64
	// GramsPerDay is a gain in weight.
	GramsPerDay float64
	// PercentPerDay is a specific growth rate.
	PercentPerDay float64
	// KilogramsPerM3 is fish in a cubic metre of tank.
	KilogramsPerM3 float64
	// TonnesPerYear is a production.
	TonnesPerYear float64
	// MgPerKgHour is oxygen that a kilogram of fish uses in an hour.
	MgPerKgHour float64
	// GramsPerKgFeed is oxygen used for each kilogram of feed.
	GramsPerKgFeed float64
	// GramsPerHour is a supply of oxygen.
	GramsPerHour float64
	// KilogramsPerKWh is oxygen that an aerator puts into clean water at 20
	// degC that holds none, for each kilowatt hour.
	KilogramsPerKWh float64
	// WattsPerKelvin is heat lost for each degree a tank is warmer than the air.
	WattsPerKelvin float64
	// PoundsPerCubicInch is a condition factor as Fish Hatchery Management
	// prints it.
	PoundsPerCubicInch float64
	// FlowIndex is pounds of fish for each inch of length and gallon a minute.
	FlowIndex float64
	// Centimetres is a length of a fish.
	Centimetres float64
)

// An UnknownError says that a table has no row of the name asked for.
type UnknownError struct {
	Table string // "species"
	Name  string // the name asked for
}

// Error names the table and the missing row.
func (e *UnknownError) Error() string { return "no " + e.Table + " called " + e.Name + " is known" }
