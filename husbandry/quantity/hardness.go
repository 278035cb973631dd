package quantity

// Hardness and alkalinity in the scales that kits are printed in.
type (
	// HardnessCaCO3 is total hardness (calcium and magnesium), mg/L counted as
	// calcium carbonate.
	HardnessCaCO3 float64
	// DegreesGH is total hardness in German degrees.
	DegreesGH float64
	// MilliequivalentsPerL is alkalinity in milliequivalents of acid per litre.
	MilliequivalentsPerL float64
	// CalciumCa is dissolved calcium, mg/L of the element.
	CalciumCa float64
	// MagnesiumMg is dissolved magnesium, mg/L of the element.
	MagnesiumMg float64
)

const (
	// A milliequivalent of acid neutralizes half a millimole of CaCO3: 50.04 mg.
	caco3PerMeq = WeightCaCO3 / 2
	// A German degree is 10 mg/L of CaO (DIN 38409-6, from memory): 17.85 mg/L
	// as CaCO3.
	caco3PerGermanDegree = 10 * WeightCaCO3 / (WeightCa + WeightO)
	// A French degree is 10 mg/L as CaCO3, by definition.
	caco3PerFrenchDegree = 10
	// A Clark degree is one grain in an imperial gallon: 64.79891 mg in 4.54609 L.
	caco3PerClarkDegree = 64.79891 / 4.54609
	// A grain per US gallon: 64.79891 mg in 3.785411784 L.
	caco3PerGrainPerGallon = 64.79891 / 3.785411784
)

// CaCO3 gives the alkalinity in mg/L as calcium carbonate.
func (d DegreesKH) CaCO3() AlkalinityCaCO3 { return AlkalinityCaCO3(d * caco3PerGermanDegree) }

// KH gives the alkalinity in German degrees.
func (a AlkalinityCaCO3) KH() DegreesKH { return DegreesKH(a / caco3PerGermanDegree) }

// CaCO3 gives the alkalinity in mg/L as calcium carbonate.
func (m MilliequivalentsPerL) CaCO3() AlkalinityCaCO3 { return AlkalinityCaCO3(m * caco3PerMeq) }

// Milliequivalents gives the alkalinity in meq/L.
func (a AlkalinityCaCO3) Milliequivalents() MilliequivalentsPerL {
	return MilliequivalentsPerL(a / caco3PerMeq)
}

// CaCO3 gives the hardness in mg/L as calcium carbonate.
func (d DegreesGH) CaCO3() HardnessCaCO3 { return HardnessCaCO3(d * caco3PerGermanDegree) }

// GH gives the hardness in German degrees.
func (h HardnessCaCO3) GH() DegreesGH { return DegreesGH(h / caco3PerGermanDegree) }

// CaCO3 counts the calcium as calcium carbonate.
func (c CalciumCa) CaCO3() HardnessCaCO3 { return HardnessCaCO3(c * WeightCaCO3 / WeightCa) }

// CaCO3 counts the magnesium as the equivalent calcium carbonate.
func (m MagnesiumMg) CaCO3() HardnessCaCO3 { return HardnessCaCO3(m * WeightCaCO3 / WeightMg) }
