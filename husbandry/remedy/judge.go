package remedy

import (
	"math"
	"strconv"

	"freshet.example/husbandry/quantity"
)

// Water is what is known of the loop's water. Zero fields are not known.
type Water struct {
	Alkalinity quantity.AlkalinityCaCO3
}

// A Judgement sets a diluted dose against the lowest relevant published test.
type Judgement struct {
	Concentration PerLitre
	Known         bool    // whether any test counts what the dose counts
	Lowest        Test    // the test with the smallest LC50, when known
	Margin        float64 // LC50 over concentration; NaN when not known
	Words         string
}

// longEnough is the shortest test that says something of water fish live in for
// days, in hours; shorter ones are of baths.
const longEnough = 48

// Lowest returns the test of a substance with the smallest LC50 that counts what
// the dose counts. Where alkalinity was tested and the loop's is known, each
// species counts by its highest test not above the loop's alkalinity (or its
// lowest test, when the loop is softer than all): the LC50 that is sure not to
// flatter.
func Lowest(substance string, volume bool, w Water) (Test, bool) {
	return lowest(tests, substance, volume, float64(w.Alkalinity))
}

func lowest(rows []Test, substance string, volume bool, loop float64) (best Test, found bool) {
	for i := range rows {
		t := &rows[i]
		if t.Substance != substance || t.Volume() != volume || t.Hours < longEnough || passedOver(rows, t, loop) {
			continue
		}
		if !found || t.PerLitre() < best.PerLitre() {
			best, found = *t, true
		}
	}
	return best, found
}

// passedOver reports whether another test of the same species is nearer below
// the loop's alkalinity. Where either is not known, none is.
func passedOver(rows []Test, t *Test, loop float64) bool {
	if loop == 0 || t.Alkalinity == 0 {
		return false
	}
	for i := range rows {
		other := &rows[i]
		if other.Substance != t.Substance || other.Species != t.Species || other.Alkalinity == 0 {
			continue
		}
		if other.Alkalinity > t.Alkalinity && other.Alkalinity <= loop {
			return true // a harder water still within the loop's
		}
		if t.Alkalinity > loop && other.Alkalinity < t.Alkalinity {
			return true // t is harder than the loop, and a softer test exists
		}
	}
	return false
}

// Levels of concern of the US EPA for fish: concentration over LC50 (from memory).
const (
	acuteConcern      = 0.5
	restrictedConcern = 0.1
	endangeredConcern = 0.05
)

// Concern says in words where concentration over LC50 stands among the levels of
// concern of the US EPA: 0.5 acute, 0.1 restricted use, 0.05 endangered species
// (from memory). Below the last it names what the figure leaves out.
func Concern(quotient float64) string {
	switch {
	case math.IsNaN(quotient):
		return "not known"
	case quotient >= 1:
		return "at or above what killed half the fish: expect deaths"
	case quotient >= acuteConcern:
		return "within twofold of what killed half the fish: expect deaths"
	case quotient >= restrictedConcern:
		return "within tenfold: the US EPA restricts uses like this"
	case quotient >= endangeredConcern:
		return "within twentyfold: the US EPA's concern for endangered fish"
	}
	return "below the US EPA's levels of concern for sudden death; slow harm, fry, mixtures and the filter are not in that figure"
}

// Judge sets a concentration of a substance in the loop (0 to 100,000 mg or uL a
// litre) against the tests we hold, and says what that leaves out. Nothing
// published gives "not known", whatever the dilution.
func Judge(substance string, c PerLitre, w Water) (Judgement, error) {
	s, err := Find(substance)
	if err != nil {
		return Judgement{}, err
	}
	err = firstError(
		quantity.Within("concentration", c.Amount, 0, mostPerLitre, "mg/L or uL/L", quantity.OwnBounds),
		quantity.Within("alkalinity", float64(w.Alkalinity), 0, hardestWater, "mg/L as CaCO3", quantity.OwnBounds))
	if err != nil {
		return Judgement{}, err
	}
	j := Judgement{Concentration: c, Margin: math.NaN()}
	j.Lowest, j.Known = Lowest(s.Name, c.Volume, w)
	if j.Known {
		j.Margin = j.Lowest.PerLitre() / c.Amount
	}
	j.Words = s.words(&j)
	return j, nil
}

// hardestWater is the highest alkalinity we believe, mg/L as CaCO3.
const hardestWater = 1000

// words says the judgement and what the register knows, in one text.
func (s *Substance) words(j *Judgement) string {
	text := ""
	switch {
	case s.KeepOut:
		text = "Keep it out of the loop. "
	case j.Known && 1/j.Margin >= endangeredConcern:
		text = "Do not use so much of it over fish water. "
	}
	if j.Known {
		text += margin(j)
	} else {
		text += "Not known: we hold no published lethal concentration that counts " + s.Counted + ". "
	}
	return text + "Fish: " + s.Fish + ". Filter: " + s.Filter + ". Plants: " + s.Plants + ". Waiting: " + s.Waiting + "."
}

func margin(j *Judgement) string {
	t := &j.Lowest
	above := ""
	if t.Above {
		above = "more than "
	}
	times := "Nothing reaches the water by this reckoning"
	switch {
	case math.IsInf(j.Margin, 1):
	case j.Margin < 1:
		times = "This is " + quantity.Show(1/j.Margin, 2) + " times the lowest LC50 we hold"
	default:
		times = "The lowest LC50 we hold is " + quantity.Show(j.Margin, 2) + " times this"
	}
	return times + " (" + above + short(t.Low) + " " + string(t.Unit) + ", " + t.Species + ", " + short(t.Hours) + " h" + t.water() + "; " + t.Source + "): " +
		Concern(1/j.Margin) + ". "
}

// water names the water of a test, where it was printed.
func (t *Test) water() string {
	text := ""
	if t.Alkalinity > 0 {
		text += ", alkalinity " + short(t.Alkalinity)
	}
	if t.Celsius > 0 {
		text += ", " + short(t.Celsius) + " degC"
	}
	return text
}

func short(v float64) string { return strconv.FormatFloat(v, 'g', 4, 64) }
