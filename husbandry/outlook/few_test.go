package outlook

import (
	"math"
	"testing"
)

// TestFewGuessesStayAsTheyWere: a dozen guesses through ten days and a day ahead,
// with all that an hour may bring. It shows a changed number as
// TestLoopForecastsStayAsTheyWere does, in a hundredth of the time.
func TestFewGuessesStayAsTheyWere(t *testing.T) {
	past, readings, _ := lived(t, plain(), 10)
	for i := range past {
		past[i].Cleaned, past[i].Still, past[i].Warmer = i == 100, i > 150 && i < 160, 0.5
		if past[i].Changed = 0; i%24 == 7 {
			past[i].Changed = 400
		}
		if past[i].Keep = 0; i > 120 {
			past[i].Keep = 110
		}
		if i > 200 {
			past[i].Air = math.NaN()
		}
	}
	kept := append(thinned(readings, thinning), Reading{Hour: len(past) - 1, Figure: Nitrite, Value: 0.03, Below: true}, Reading{Hour: len(past) - 1, Figure: Ammonia, Value: 9})
	c := gather(simulatedBarn(t, asIs), 12, 5, kept, past)
	next := 0
	for i, h := range past {
		c.live(h)
		for ; next < len(kept) && kept[next].Hour == i; next++ {
			c.heed(kept[next])
		}
	}
	over := lookUp(past[:200])
	lead(c, &over, usualPlan(past, 24, custom{keep: keeping(past, readings)}), func(int, *cloud) {})
	for p, want := range fewAsTheyWere {
		var got float64
		for i := range c.members {
			got += c.members[i].part(part(p)) / float64(len(c.members))
		}
		if !(math.Abs(got-want) <= 1e-7*math.Max(0.1, math.Abs(want))) {
			t.Errorf("part %d: %.10g,", p, got)
		}
	}
}

// fewAsTheyWere is the mean of each part, on the scale on which it spreads evenly.
var fewAsTheyWere = [parts]float64{
	4.381302841, 2.186015046, 16.13556893, -0.5320552414, -0.02665530327, -0.05913807038,
	-0.4875746062, -2.578929293, -1.272114044, -3.215317083, 5.466014701, 0.1211481089,
	-0.2119015828, -0.8874510179, -5.341851117, 21.8218447, -0.7933379118, -0.7236831234,
	3.614479507, 4.708847426, 6.420161959, 1.371494519, 4.714161551, 2.330299714,
}
