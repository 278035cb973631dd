package nitrogen

import "freshet.example/husbandry/quantity"

const tanOfProtein = 0.092 // Timmons & Ebeling: 0.16 N x 0.80 assimilated x 0.80 excreted x 0.90 as ammonia, from memory

// TANFromProtein returns the total ammonia nitrogen that a day's feed becomes,
// from the feed, 0 to 1e6 kg, and its protein as a fraction of 0.1 to 0.7.
// It is meant for recirculating systems, averaged over the day; just after a
// meal the rate is higher.
func TANFromProtein(feed quantity.Kilograms, protein quantity.Fraction) (KilogramsN, error) {
	if err := checkKilograms("feed", feed); err != nil {
		return 0, err
	}
	if err := checkProtein(protein); err != nil {
		return 0, err
	}
	return KilogramsN(float64(feed) * float64(protein) * tanOfProtein), nil // Timmons & Ebeling: PTAN = F x PC x 0.092, equation from memory
}

const tanOfFeed = 0.03 // Ebeling, Biofiltration-Nitrification Design Overview (slides)

// TANRuleOfThumb returns the total ammonia nitrogen that a day's feed of 0 to
// 1e6 kg becomes by the rule of 0.03 kg a kg. It fits feed of about 33 %
// protein and knows nothing of others.
func TANRuleOfThumb(feed quantity.Kilograms) (KilogramsN, error) {
	if err := checkKilograms("feed", feed); err != nil {
		return 0, err
	}
	return KilogramsN(float64(feed) * tanOfFeed), nil
}

// Shares in the FAO calculation, from memory.
const (
	faoWasted   = 0.61 // of the feed's nitrogen that reaches the water
	faoNH3PerN  = 1.2  // ammonia counted as NH3 for each nitrogen, rounded there
	gramsPerKg  = 1000
	mgPerGram   = 1000
	minutesADay = 1440
)

// AmmoniaFAO returns the ammonia, counted as NH3, that a day's feed of 0 to
// 1e9 g becomes by FAO TP 589 Appendix 4. Its result must not be compared with
// total ammonia nitrogen before it is counted as N.
func AmmoniaFAO(feed quantity.Grams, protein quantity.Fraction) (GramsNH3, error) {
	n, err := FeedN(feed, protein)
	if err != nil {
		return 0, err
	}
	return GramsNH3(float64(n) * faoWasted * faoNH3PerN), nil // FAO TP 589 App. 4: feed x protein x 0.16 x 0.61 x 1.2, from memory
}

// N counts the same ammonia as nitrogen.
func (a GramsNH3) N() GramsN { return GramsN(float64(a) * quantity.WeightN / quantity.WeightNH3) }

// Grams counts the same nitrogen in grams.
func (n KilogramsN) Grams() GramsN { return GramsN(float64(n) * gramsPerKg) }

// Bounds of flows and of the ammonia factor.
const (
	minFlow      = 1e-3
	maxFlow      = 1e6
	minFHMFactor = 0.5
	maxFHMFactor = 10.0
)

// TANInFlowFHM returns the total ammonia that fish add to water flowing past
// them once, by the ammonia factor of their feed and temperature (0.5 to 10; 3
// in the book's example). Feed a day is 0 to 1e6 lb, flow 0.001 to 1e6 gal/min.
func TANInFlowFHM(feed quantity.Pounds, flow quantity.USGallonsPerMinute, factor FHMFactor) (quantity.AmmoniaN, error) {
	if err := quantity.Within("feed", float64(feed), 0, maxKilograms, "lb/d", quantity.OwnBounds); err != nil {
		return 0, err
	}
	if err := quantity.Within("flow", float64(flow), minFlow, maxFlow, "gal/min", quantity.OwnBounds); err != nil {
		return 0, err
	}
	if err := quantity.Within("ammonia factor", float64(factor), minFHMFactor, maxFHMFactor, "", "common practice, no source"); err != nil {
		return 0, err
	}
	return quantity.AmmoniaN(float64(feed) * float64(factor) / float64(flow)), nil // Piper et al. 1982, p. 25
}

// TANInFlow returns the rise of total ammonia in water that flows past fish
// once at 0.001 to 1e6 L/min, when they give off tan, 0 to 1e9 g N a day.
func TANInFlow(tan GramsN, flow quantity.LitresPerMinute) (quantity.AmmoniaN, error) {
	if err := checkGrams("ammonia nitrogen", float64(tan)); err != nil {
		return 0, err
	}
	if err := quantity.Within("flow", float64(flow), minFlow, maxFlow, "L/min", quantity.OwnBounds); err != nil {
		return 0, err
	}
	return quantity.AmmoniaN(float64(tan) * mgPerGram / (float64(flow) * minutesADay)), nil // conservation of mass
}

func checkKilograms(name string, mass quantity.Kilograms) error {
	return quantity.Within(name, float64(mass), 0, maxKilograms, "kg", quantity.OwnBounds)
}
