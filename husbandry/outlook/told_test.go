package outlook

import (
	"math"
	"testing"
)

// guessed is a loop's days ahead by four guesses, each of which says the same all day.
func guessed(now, ahead [Figures][4]float64) *Ahead {
	a := &Ahead{word: word{loops: evenStrays()}}
	day := newDay(4)
	for f := range Figures {
		a.now[f] = now[f][:]
		copy(day[f].mean, ahead[f][:])
		copy(day[f].low, ahead[f][:])
		copy(day[f].high, ahead[f][:])
	}
	a.days = append(a.days, day)
	return a
}

// evenStrays draw nothing.
func evenStrays() *strays {
	s := &strays{}
	for f := range s {
		for d := range s[f] {
			for l := range StrayLevels {
				s[f][d].Draw[l] = 1
			}
		}
	}
	return s
}

// TestNarrowingByHand: of four guesses, what one reading leaves of a forecast's variance
// is 1 - covariance^2/(variance ahead x (variance now + that of the reading's error))
// (Kalman 1960); where nothing goes with it, all of it is left.
func TestNarrowingByHand(t *testing.T) {
	var now, ahead [Figures][4]float64
	for f := range Figures { // known for certain now, so that no reading tells anything
		now[f], ahead[f] = [4]float64{2, 2, 2, 2}, [4]float64{1, 2, 3, 4}
	}
	best, share, err := guessed(now, ahead).Narrowing(Oxygen, Mean, 0)
	if best != Oxygen || share != 1 || err != nil {
		t.Errorf("by reading %d to %g: %v", best, share, err)
	}
	now[Warmth] = [4]float64{19, 21, 19, 21} // variance 1, error 0.2 K
	ahead[Oxygen] = [4]float64{9, 7, 7.5, 6.5}
	const variance, with = (1.5*1.5 + 0.5*0.5 + 0 + 1) / 4, (-1.5 - 0.5 + 0 - 1) / 4
	best, share, err = guessed(now, ahead).Narrowing(Oxygen, Mean, 0)
	near(t, "what is left", float64(share), math.Sqrt(1-with*with/(variance*1.04)), 1e-12)
	if best != Warmth || err != nil {
		t.Errorf("best is %d: %v", best, err)
	}
	ahead[Oxygen] = [4]float64{9, 7, 9, 7} // variance 1, as unlike as can be: all but the error is told
	_, share, err = guessed(now, ahead).Narrowing(Oxygen, Mean, 0)
	near(t, "what the error leaves", float64(share), math.Sqrt(0.04/1.04), 1e-12)
	if err != nil {
		t.Error(err)
	}
	if best, share, err := guessed(now, ahead).Narrowing(Oxygen, Mean, 1); best != 0 || share != 1 || err == nil {
		t.Errorf("a day that was not forecast: %d, %g, %v", best, share, err)
	}
}

// TestADayOfOneHour has its lowest and highest in it; of many hours the mean is theirs.
func TestADayOfOneHour(t *testing.T) {
	l := simulatedBarn(t, asIs)
	c := newCloud(l, []member{plain(), plain()}, 1, 0)
	a := &Ahead{days: [][Figures]course{newDay(2)}}
	for hour := range 24 {
		c.members[1].celsius = 20 + float64(hour)
		c.count(&a.days[0])
	}
	still := a.days[0][Warmth]
	near(t, "mean", still.mean[0], 25, 1e-9)
	near(t, "lowest", still.low[0], 25, 0)
	near(t, "highest", still.high[0], 25, 0)
	near(t, "mean of the other", still.mean[1], 31.5, 1e-9)
	near(t, "its lowest", still.low[1], 20, 0)
	near(t, "its highest", still.high[1], 43, 0)
}

// TestBetweenOrderedValues by straight lines from one to the next, to both ends.
func TestBetweenOrderedValues(t *testing.T) {
	for p, want := range map[float64]float64{0: 1, 0.25: 2, 0.5: 3, 0.75: 4, 0.875: 6, 1: 8} {
		near(t, "between", between([]float64{1, 2, 3, 4, 8}, p), want, 1e-12)
	}
}

// TestLimitsAndFiguresThatCannotBe have no chance and no record beside their refusal.
func TestLimitsAndFiguresThatCannotBe(t *testing.T) {
	var now, ahead [Figures][4]float64
	for f := range Figures {
		now[f], ahead[f] = [4]float64{1, 2, 3, 4}, [4]float64{1, 2, 3, 4}
	}
	a := guessed(now, ahead)
	for limit, ok := range map[float64]bool{0: true, 1e6: true, -1e-9: false, 1e6 + 1: false} {
		chance, err := a.Past(Nitrate, 0, limit, true)
		if (err == nil) != ok || !ok && chance != 0 {
			t.Errorf("past %g: %g, %v", limit, chance, err)
		}
	}
	if stray, err := a.Strayed(Warmth, Mean, 1, 20); err == nil || stray != (Stray{}) {
		t.Errorf("a day that was not forecast: %+v, %v", stray, err)
	}
	var o Outlook
	for i := range o.held {
		for f := range readable {
			o.held[i][f] = record{asked: 3, held: 2}
		}
	}
	for f, want := range map[Figure][2]int{-1: {}, Unionized: {}, Figures: {}, Warmth: {6, 9}, Oxygen: {6, 9}} {
		if held, asked := o.Held(f); held != want[0] || asked != want[1] {
			t.Errorf("figure %d: %d of %d", f, held, asked)
		}
	}
}

// TestDaysThatMayBeAsked are one to sixty, after the rest of today: at most 23 hours.
func TestDaysThatMayBeAsked(t *testing.T) {
	members := make([]member, followed)
	for i := range members {
		members[i] = plain()
	}
	o := &Outlook{cloud: newCloud(simulatedBarn(t, asIs), members, 1, 0), word: word{loops: evenStrays()}}
	for _, c := range []struct {
		hours, rest int
		ok          bool
	}{{24, 0, true}, {24 + 23, 23, true}, {23, 0, false}, {24 + 24, 24, false}, {60*24 + 1, 0, false}, {60*24 + 6, 5, false}} {
		a, err := o.Ahead(make([]Hour, c.hours), c.rest)
		if (err == nil) != c.ok || c.ok && a.Days() != 1 {
			t.Errorf("%d hours after %d: %v", c.hours-c.rest, c.rest, err)
		}
	}
}

// TestLookingBackAFortnight counts what was read within two weeks of a day, up to where a
// filter was cleaned, the first hour too.
func TestLookingBackAFortnight(t *testing.T) {
	const origin, days = 5 * 24, 24
	asked := func(cleaned int, hours ...int) (n int) {
		members := make([]member, 100)
		for i := range members {
			members[i] = plain()
		}
		o := &Outlook{past: make([]Hour, days*24), lived: history{hours: make([][Figures]float64, days*24)}, cloud: newCloud(simulatedBarn(t, asIs), members, 1, 0), word: word{loops: evenStrays()}}
		if cleaned >= 0 {
			o.past[cleaned].Cleaned = true
		}
		var readings []Reading
		for _, hour := range hours {
			readings = append(readings, Reading{Hour: hour, Figure: Warmth, Value: 20})
		}
		o.lookBack(origin, readings)
		_, n = o.Held(Warmth)
		return n
	}
	for _, c := range []struct {
		cleaned int
		hours   []int
		want    int
	}{
		{-1, []int{origin - 1}, 0}, {-1, []int{origin}, 1}, {-1, []int{origin + 14*24 - 1}, 1}, {-1, []int{origin + 14*24}, 0},
		{-1, []int{origin, origin + 30, origin + 90}, 3}, {origin + 30, []int{origin, origin + 30, origin + 90}, 1}, {origin, []int{origin, origin + 30}, 0},
	} {
		if got := asked(c.cleaned, c.hours...); got != c.want {
			t.Errorf("cleaned in %d, read in %v from %d: %d asked, want %d", c.cleaned, c.hours, origin, got, c.want)
		}
	}
}

// TestOneReadingIsEnough to look back from, and none is too few.
func TestOneReadingIsEnough(t *testing.T) {
	past := make([]Hour, 16*24)
	for i := range past {
		past[i].Air = 20
	}
	last := Reading{Hour: 15*24 + 3, Figure: Warmth, Value: 21}
	for n, readings := range [][]Reading{{last}, {{Hour: 2, Figure: Warmth, Value: 21}, last}} {
		o, err := Learn(barn, past, readings, 2)
		if err != nil {
			t.Fatal(err)
		}
		if _, asked := o.Held(Warmth); (asked > 0) != (n > 0) {
			t.Errorf("after %d readings %d were asked", n, asked)
		}
	}
}

// TestOftenReadIsHeardEachThirdHour, and pH each twelfth.
func TestOftenReadIsHeardEachThirdHour(t *testing.T) {
	past := make([]Hour, 48)
	var readings []Reading
	for i := range past {
		past[i].Air = 20
		readings = append(readings, Reading{Hour: i, Figure: Warmth, Value: 20}, Reading{Hour: i, Figure: Acidity, Value: 7})
	}
	kept := thinned(readings, thinning)
	of := [readable]int{}
	for _, r := range kept {
		of[r.Figure]++
	}
	if of[Warmth] != 16 || of[Acidity] != 4 {
		t.Errorf("in two days %d of warmth, %d of pH", of[Warmth], of[Acidity])
	}
}

// TestChancesFitTheFan: half of the guesses lie beyond the middle on either side; half of
// them between 5.75 and 7.25, as straight lines between them go, and a little wider for
// what an hour's mean over a whole loop leaves open.
func TestChancesFitTheFan(t *testing.T) {
	var now, ahead [Figures][4]float64
	for f := range Figures {
		now[f], ahead[f] = [4]float64{5, 6, 7, 8}, [4]float64{5, 6, 7, 8}
	}
	a := guessed(now, ahead)
	fan, err := a.Fan(Oxygen, Mean, 0, 0.5)
	above, other := a.Past(Oxygen, 0, fan.Middle, true)
	below, third := a.Past(Oxygen, 0, fan.Middle, false)
	if err := firstError(err, other, third); err != nil || above != 0.5 || below != 0.5 {
		t.Errorf("%g above the middle, %g below: %v", above, below, err)
	}
	near(t, "middle", fan.Middle, 6.5, 1e-12)
	near(t, "a quarter lies below", fan.Low, 6.5-math.Hypot(0.75, 0.05*0.67449), 1e-5)
}
