package analysis

import (
	"fmt"
	"math"

	"github.com/google/uuid"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/chance"
)

// fieldWater is what a kg of vegetables from fields takes in rain and irrigation,
// L, as a mean of the world: 194 and 43 (Mekonnen & Hoekstra 2011, Hydrol. Earth
// Syst. Sci. 15:1577; the two parts from memory, with the 85 for dilution that
// are left out they are the "300 m3 a ton" of its abstract).
const fieldWater = 194 + 43

// claimsOf puts what is often said of loops to the test on the caller's own site.
func (c *comparison) claimsOf(own string, out *freshetv1.CompareSitesResponse) {
	id, err := uuid.Parse(own)
	if loop := c.rows[id]; err == nil && loop != nil && c.kind == "water_in" {
		out.Claims = append(out.Claims, tenthOfWater(loop))
	}
}

// tenthOfWater asks whether a loop takes a tenth of the water (common practice,
// no source), by a published mean of fields, with an interval on its logarithm.
func tenthOfWater(loop *row) *freshetv1.Answer {
	const claim, confidence = 0.1, 0.9
	ratio := loop.plain.value / fieldWater
	reach := math.Exp(chance.TQuantile((1+confidence)/2, float64(len(loop.months())-1)) * loop.plain.se / loop.plain.value)
	low, high := ratio/reach, ratio*reach
	a := &freshetv1.Answer{Name: "a_tenth_of_the_water", Estimate: between(ratio, low, high, confidence, "times"), Standing: well,
		Source: "own record; ratio of sums of months (Cochran 1977); fields: Mekonnen & Hoekstra 2011, rain and irrigation, mean of the world",
		Cautions: []string{"Fields differ several times over by crop and place, and much of theirs is rain that falls anyway: this is a yardstick, not the field next door.",
			"A kg here is of fish and produce, there of vegetables. Rain that fell into the loop and was not noted is not counted."}}
	a.Sentence = fmt.Sprintf("A tenth of the water, as is often said? For each kg your loop took %s times the %d L of rain and irrigation that vegetables of the field take, between %s and %s, 9 in 10: ",
		show(ratio, 2), fieldWater, show(low, 2), show(high, 2))
	switch {
	case loop.days() < wholeYear:
		a.Standing, a.Missing = unknown, []string{"a whole year: water dries off in its season"}
		a.Sentence += "a whole year is needed to tell."
	case low > 1:
		a.Sentence += "more than the field, not a tenth."
	case low > claim:
		a.Sentence += "not a tenth here."
	case high < claim:
		a.Sentence += "here it is so."
	default:
		a.Standing = unknown
		a.Sentence += "it cannot be told."
	}
	return a
}
