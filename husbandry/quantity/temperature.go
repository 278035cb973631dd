package quantity

// Zero of the Celsius scale in kelvin (SI brochure, 9th edition). Some texts
// round it to 273.2, which shifts every temperature formula.
const zeroCelsius = 273.15

// Celsius converts exactly.
func (f Fahrenheit) Celsius() Celsius { return Celsius((f - 32) / 1.8) }

// Fahrenheit converts exactly.
func (c Celsius) Fahrenheit() Fahrenheit { return Fahrenheit(c*1.8 + 32) }

// Kelvin converts exactly.
func (c Celsius) Kelvin() Kelvin { return Kelvin(c + zeroCelsius) }

// Celsius converts exactly.
func (k Kelvin) Celsius() Celsius { return Celsius(k - zeroCelsius) }
