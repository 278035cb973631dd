package quantity

// Temperatures.
type (
	// Celsius is a temperature in degrees Celsius.
	Celsius float64
	// Fahrenheit is a temperature in degrees Fahrenheit.
	Fahrenheit float64
	// Kelvin is an absolute temperature.
	Kelvin float64
)

// PH is the acidity of water on the usual scale.
type PH float64

// Concentrations in water. The bare MgPerL is for substances that have only
// one basis (oxygen, carbon dioxide, iron, chloride).
type (
	// MgPerL is milligrams of the substance itself in a litre.
	MgPerL float64
	// AmmoniaN is total ammonia (NH3 and NH4 together), mg/L counted as nitrogen.
	AmmoniaN float64
	// AmmoniaNH3 is total ammonia, mg/L counted as NH3.
	AmmoniaNH3 float64
	// AmmoniaNH4 is total ammonia, mg/L counted as NH4.
	AmmoniaNH4 float64
	// NitriteN is nitrite, mg/L counted as nitrogen.
	NitriteN float64
	// NitriteIon is nitrite, mg/L counted as NO2.
	NitriteIon float64
	// NitrateN is nitrate, mg/L counted as nitrogen.
	NitrateN float64
	// NitrateIon is nitrate, mg/L counted as NO3.
	NitrateIon float64
	// AlkalinityCaCO3 is alkalinity, mg/L counted as calcium carbonate.
	AlkalinityCaCO3 float64
	// DegreesKH is carbonate hardness in German degrees.
	DegreesKH float64
	// Salinity is grams of dissolved salts in a kilogram of water.
	Salinity float64
)

// Amounts, sizes and rates.
type (
	// Litres is a volume.
	Litres float64
	// CubicMetres is a volume.
	CubicMetres float64
	// Metres is a length or a height.
	Metres float64
	// SquareMetres is an area.
	SquareMetres float64
	// Grams is a mass.
	Grams float64
	// Kilograms is a mass.
	Kilograms float64
	// LitresPerMinute is a flow.
	LitresPerMinute float64
	// Watts is a power.
	Watts float64
	// Atmospheres is a pressure in standard atmospheres.
	Atmospheres float64
	// Kilopascals is a pressure.
	Kilopascals float64
	// Days is a length of time.
	Days float64
	// Hours is a length of time.
	Hours float64
	// Minutes is a length of time.
	Minutes float64
	// Fraction is a share of one, 0 to 1 unless said otherwise.
	Fraction float64
	// Percent is a share of a hundred.
	Percent float64
)
