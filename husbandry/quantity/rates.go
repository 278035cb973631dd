package quantity

// Flows and yields.
type (
	// LitresPerHour is a flow.
	LitresPerHour float64
	// USGallonsPerMinute is a flow.
	USGallonsPerMinute float64
	// USGallonsPerHour is a flow.
	USGallonsPerHour float64
	// GramsPerSquareMetre is a yield, or a rate of application.
	GramsPerSquareMetre float64
	// ShortTonsPerAcre is a yield as US field statistics print it.
	ShortTonsPerAcre float64
	// PoundsPerSquareFoot is a yield.
	PoundsPerSquareFoot float64
)

const minutesPerHour = 60

// LitresPerHour converts exactly.
func (f LitresPerMinute) LitresPerHour() LitresPerHour { return LitresPerHour(f * minutesPerHour) }

// LitresPerMinute converts exactly.
func (f LitresPerHour) LitresPerMinute() LitresPerMinute {
	return LitresPerMinute(f / minutesPerHour)
}

// LitresPerMinute converts exactly.
func (f USGallonsPerMinute) LitresPerMinute() LitresPerMinute {
	return LitresPerMinute(f * litresPerGallon)
}

// USGallonsPerMinute converts exactly.
func (f LitresPerMinute) USGallonsPerMinute() USGallonsPerMinute {
	return USGallonsPerMinute(f / litresPerGallon)
}

// LitresPerHour converts exactly.
func (f USGallonsPerHour) LitresPerHour() LitresPerHour { return LitresPerHour(f * litresPerGallon) }

// GramsPerSquareMetre converts exactly: one short ton per acre is 224.17 g/m2.
func (y ShortTonsPerAcre) GramsPerSquareMetre() GramsPerSquareMetre {
	return GramsPerSquareMetre(y * gramsPerShortTon / metres2PerAcre)
}

// ShortTonsPerAcre converts exactly.
func (y GramsPerSquareMetre) ShortTonsPerAcre() ShortTonsPerAcre {
	return ShortTonsPerAcre(y * metres2PerAcre / gramsPerShortTon)
}

// GramsPerSquareMetre converts exactly.
func (y PoundsPerSquareFoot) GramsPerSquareMetre() GramsPerSquareMetre {
	return GramsPerSquareMetre(y * gramsPerPound / metres2PerFoot2)
}

// PoundsPerSquareFoot converts exactly.
func (y GramsPerSquareMetre) PoundsPerSquareFoot() PoundsPerSquareFoot {
	return PoundsPerSquareFoot(y * metres2PerFoot2 / gramsPerPound)
}
