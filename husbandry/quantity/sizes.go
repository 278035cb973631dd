package quantity

// US customary sizes. Every factor is exact by definition (NIST SP 811).
type (
	// USGallons is a volume of 231 cubic inches each.
	USGallons float64
	// USQuarts is a quarter of a US gallon each.
	USQuarts float64
	// CubicFeet is a volume.
	CubicFeet float64
	// AcreFeet is the volume of an acre one foot deep.
	AcreFeet float64
	// Feet is a length of the international foot.
	Feet float64
	// Inches is a length.
	Inches float64
	// SquareFeet is an area.
	SquareFeet float64
	// Acres is an area of 43,560 square feet each.
	Acres float64
	// Pounds is a mass, avoirdupois.
	Pounds float64
	// Ounces is a mass, avoirdupois.
	Ounces float64
	// ShortTons is a mass of 2,000 pounds each.
	ShortTons float64
)

const (
	litresPerGallon    = 3.785411784
	metresPerFoot      = 0.3048
	metresPerInch      = 0.0254
	gramsPerPound      = 453.59237
	gramsPerShortTon   = 2000 * gramsPerPound
	litresPerCubic     = 1000 // litres in a cubic metre
	squareFeetPerAcre  = 43560
	litresPerCubicFoot = metresPerFoot * metresPerFoot * metresPerFoot * litresPerCubic
	metres2PerFoot2    = metresPerFoot * metresPerFoot
	metres2PerAcre     = squareFeetPerAcre * metres2PerFoot2
)

// Litres converts exactly.
func (g USGallons) Litres() Litres { return Litres(g * litresPerGallon) }

// USGallons converts exactly.
func (l Litres) USGallons() USGallons { return USGallons(l / litresPerGallon) }

// Litres converts exactly.
func (q USQuarts) Litres() Litres { return Litres(q / 4 * litresPerGallon) }

// Litres converts exactly.
func (f CubicFeet) Litres() Litres { return Litres(f * litresPerCubicFoot) }

// CubicFeet converts exactly.
func (l Litres) CubicFeet() CubicFeet { return CubicFeet(l / litresPerCubicFoot) }

// Litres converts exactly, with the acre of the international foot.
func (a AcreFeet) Litres() Litres { return Litres(a * squareFeetPerAcre * litresPerCubicFoot) }

// Litres converts exactly.
func (m CubicMetres) Litres() Litres { return Litres(m * litresPerCubic) }

// CubicMetres converts exactly.
func (l Litres) CubicMetres() CubicMetres { return CubicMetres(l / litresPerCubic) }

// Metres converts exactly.
func (f Feet) Metres() Metres { return Metres(f * metresPerFoot) }

// Feet converts exactly.
func (m Metres) Feet() Feet { return Feet(m / metresPerFoot) }

// Metres converts exactly.
func (i Inches) Metres() Metres { return Metres(i * metresPerInch) }

// Inches converts exactly.
func (m Metres) Inches() Inches { return Inches(m / metresPerInch) }

// SquareMetres converts exactly.
func (f SquareFeet) SquareMetres() SquareMetres { return SquareMetres(f * metres2PerFoot2) }

// SquareFeet converts exactly.
func (m SquareMetres) SquareFeet() SquareFeet { return SquareFeet(m / metres2PerFoot2) }

// SquareMetres converts exactly, with the acre of the international foot.
func (a Acres) SquareMetres() SquareMetres { return SquareMetres(a * metres2PerAcre) }

// Grams converts exactly.
func (p Pounds) Grams() Grams { return Grams(p * gramsPerPound) }

// Pounds converts exactly.
func (g Grams) Pounds() Pounds { return Pounds(g / gramsPerPound) }

// Grams converts exactly: an ounce is a sixteenth of a pound.
func (o Ounces) Grams() Grams { return Grams(o / 16 * gramsPerPound) }

// Ounces converts exactly.
func (g Grams) Ounces() Ounces { return Ounces(g * 16 / gramsPerPound) }

// Kilograms converts exactly.
func (p Pounds) Kilograms() Kilograms { return Kilograms(p * gramsPerPound / 1000) }

// Kilograms converts exactly.
func (t ShortTons) Kilograms() Kilograms { return Kilograms(t * gramsPerShortTon / 1000) }

// Kilograms converts exactly.
func (g Grams) Kilograms() Kilograms { return Kilograms(g / 1000) }

// Grams converts exactly.
func (k Kilograms) Grams() Grams { return Grams(k * 1000) }
