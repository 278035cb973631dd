package quantity

// Standard atomic weights, g/mol: IUPAC 2021, abridged to five figures.
const (
	WeightH  = 1.008
	WeightC  = 12.011
	WeightN  = 14.007
	WeightO  = 15.999
	WeightNa = 22.990
	WeightMg = 24.305
	WeightP  = 30.974
	WeightS  = 32.06
	WeightCl = 35.45
	WeightK  = 39.098
	WeightCa = 40.078
	WeightFe = 55.845
)

// Molar masses of what dissolves in the water of a loop, g/mol, from the
// atomic weights above.
const (
	WeightNH3   = WeightN + 3*WeightH
	WeightNH4   = WeightN + 4*WeightH
	WeightNO2   = WeightN + 2*WeightO
	WeightNO3   = WeightN + 3*WeightO
	WeightPO4   = WeightP + 4*WeightO
	WeightO2    = 2 * WeightO
	WeightCO2   = WeightC + 2*WeightO
	WeightHCO3  = WeightH + WeightC + 3*WeightO
	WeightCaCO3 = WeightCa + WeightC + 3*WeightO
	WeightNaCl  = WeightNa + WeightCl
	WeightCl2   = 2 * WeightCl
)
