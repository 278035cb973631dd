package outlook

import (
	"math"
	"testing"
)

// TestLately is the last week's days, by hand.
func TestLately(t *testing.T) {
	h := history{hours: make([][Figures]float64, 10*24+5)}
	now := len(h.hours)
	h.read(Reading{Figure: Warmth, Hour: now - 200})
	h.read(Reading{Figure: Ammonia, Hour: now - 10})
	for i := range h.hours { // each day a degree warmer, each hour a tenth
		ago := (now - 1 - i) / 24
		h.hours[i][Warmth] = 30 - float64(ago) + 0.1*float64(hourOf(i-now))
		h.hours[i][Ammonia] = math.Exp(float64(ago % 2))
	}
	spread := math.Sqrt(28.0 / 6) // of 0 to 6
	for s, want := range map[Side]float64{Mean: 27 + 0.1*11.5, Lowest: 27, Highest: 27 + 2.3} {
		l := h.side(Warmth, s)
		near(t, "middle", l.middle, want, 1e-9)
		near(t, "spread", l.spread, spread, 1e-9)
		near(t, "share", l.share, 1, 0)
	}
	near(t, "at an hour of the day", h.hour(Warmth, 3*24+7).middle, 27.7, 1e-9)
	near(t, "in proportion", h.side(Ammonia, Mean).middle, 3.0/7, 1e-9)
	near(t, "of what follows from it", h.side(Unionized, Mean).share, 1, 0)
	if h.side(Nitrite, Mean) != (lately{}) || h.days(Nitrite) != 0 {
		t.Error("what was never read is told of")
	}
	h.read(Reading{Figure: Warmth, Hour: now - 14*24 - 1})
	if h.side(Warmth, Mean) != (lately{}) {
		t.Error("what was read long ago is told of")
	}
	h.read(Reading{Figure: Warmth, Hour: now - 14*24})
	h.since = now - 3*24 - 20
	l := h.side(Warmth, Lowest)
	near(t, "of three days", l.middle, 29, 1e-9)
	near(t, "their spread", l.spread, 1, 1e-9)
	near(t, "their share", l.share, 3.0/7, 1e-12)
	if h.since = now - 47; h.side(Warmth, Mean) != (lately{}) {
		t.Error("a single day is a week")
	}
	if (history{}).hour(Warmth, 5) != (lately{}) {
		t.Error("nothing is a week")
	}
}

// TestSinceWhen nothing broke in.
func TestSinceWhen(t *testing.T) {
	past := make([]Hour, 100)
	for i := range past {
		past[i].Fish = 60 + 0.05*float64(i)
	}
	want := func(hour int) {
		t.Helper()
		if got := sinceWhen(past); got != hour {
			t.Errorf("since hour %d, want %d", got, hour)
		}
	}
	want(0)
	past[0].Still = true
	want(1)
	past[10].Fish = 10
	want(11)
	past[20].Fish = 79
	want(21)
	past[20].Fish = 77
	past[30].Still = true
	want(31)
	past[40].Cleaned = true
	want(41)
	past[99].Cleaned = true
	want(100)
	if past = nil; sinceWhen(past) != 0 {
		t.Error("of nothing")
	}
}

// TestAfterACleaningNothingIsUsual: a forecast does not lean towards a week before its
// filter was cleaned.
func TestAfterACleaningNothingIsUsual(t *testing.T) {
	past, readings, _ := lived(t, plain(), 28)
	leant := func() float64 {
		_, a := outlookOf(t, past, readings)
		return a.draw(Ammonia, Mean, 6).lean
	}
	if usual := leant(); usual < 0.1 {
		t.Errorf("leans by %g where all goes on", usual)
	}
	past[len(past)-20].Cleaned = true
	near(t, "lean", leant(), 0, 0)
}

// TestPlansAreToldInFull: guesses lean as they would if all went on, so that two plans
// differ by as much as their guesses do.
func TestPlansAreToldInFull(t *testing.T) {
	past, readings, _ := lived(t, plain(), 28)
	o, usual := outlookOf(t, past, readings)
	plan := o.Usual(14 * 24)
	for i := range plan {
		plan[i].Feed *= 2
	}
	more, err := o.Ahead(plan, 0)
	if err != nil {
		t.Fatal(err)
	}
	a, b := usual.draw(Ammonia, Mean, 6), more.draw(Ammonia, Mean, 6)
	if usual.asIs != nil || more.asIs == nil {
		t.Error("what goes on is led twice, or what is planned once")
	}
	if a.lean < 0.1 || b.guessed < a.guessed+0.2 {
		t.Fatalf("leans by %g, guesses %g and %g", a.lean, a.guessed, b.guessed)
	}
	near(t, "what the plan does", b.middle-a.middle, b.guessed-a.guessed, 1e-9)
}

// TestMonthsUnread: what was read long ago neither draws guesses together nor makes
// them lean; of what is read still it does.
func TestMonthsUnread(t *testing.T) {
	past, readings, _ := lived(t, plain(), 20)
	_, before := outlookOf(t, past, readings)
	for range 60 {
		past = append(past, past[len(past)-24:]...)
	}
	readings = append(readings, Reading{Hour: len(past) - 24, Figure: Warmth, Value: 20})
	_, after := outlookOf(t, past, readings)
	for f := range Figures {
		d, read := after.draw(f, Mean, 6), f == Warmth
		if drawn := d.by != (ByLevel{1, 1, 1, 1, 1}); drawn != read || d.lean > 0 != read {
			t.Errorf("figure %d leans by %g and is drawn by %v", f, d.lean, d.by)
		}
	}
	for _, f := range []Figure{Ammonia, Nitrite, Alkalinity, Acidity} {
		a, b := fan(t, before, f, 6), fan(t, after, f, 6)
		if b.High-b.Low < 2*(a.High-a.Low) {
			t.Errorf("figure %d: %+v read, %+v two months later", f, a, b)
		}
	}
}
