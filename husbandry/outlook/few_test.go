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
	lead(c, &over, usualPlan(past, 24, keeping(past, readings)), func(int, *cloud) {})
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
	3.970881111, 0.0376967178, 19.54211813, -0.550775018, -0.0492648916, -0.04401708443,
	-0.2928487445, -1.93353359, -0.7854436079, -3.065283745, 5.544661043, 0.4183894906,
	-0.6378758747, -1.228677507, 21.09329369, -0.3050750128, -0.2744537706, 3.54871,
	4.786483099, 7.053559739, 1.485557365, 4.580620031, 2.306282089,
}
