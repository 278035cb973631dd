package outlook

import (
	"slices"
	"testing"
)

// TestMends: doses that fill up to a level are told from doses that are always alike;
// from few it stays open.
func TestMends(t *testing.T) {
	up, alike, one := []dose{}, []dose{}, []dose{{0, 10, 70}}
	for i := range 10 {
		before := 50 + 5*float64(i%5)
		up, alike = append(up, dose{i, 80 - before, before}), append(alike, dose{i, 20, before})
	}
	const squares, open = 500, 100 // of what was before about its mean; and a test's doubt of 5 by a doubt of half
	near(t, "filled up", mends(up), (squares+0.5*open)/(squares+open), 1e-12)
	near(t, "always alike", mends(alike), 0.5*open/(squares+open), 1e-12)
	near(t, "one", mends(one), 0.5, 1e-12)
	over, more := slices.Clone(up), slices.Clone(up)
	for i, d := range up { // twice what lacks; and the more the more there is
		over[i].given, more[i].given = 2*d.given, d.before
	}
	near(t, "more than filled up", mends(over), 1, 0)
	near(t, "the other way", mends(more), 0, 0)
	near(t, "none", mends(nil), 0.5, 1e-12)
}

// TestDosesFillUp: who brought the water up to a level is taken to go on so, by more
// base when more was used up.
func TestDosesFillUp(t *testing.T) {
	past := make([]Hour, 20*24)
	by := custom{mends: 0.8, keep: 75}
	for i := range past {
		if i%48 == 9 {
			past[i].Base = 12
			by.doses = append(by.doses, dose{i, 12, 68})
		}
	}
	plan := usualPlan(past, 16*24, by)
	for i, h := range plan[:4*24] {
		if due := (len(past)+i)%48 == 9; due && (h.Level != 80 || h.Mends != 0.8) || !due && (h.Level != 0 || h.Mends != 0) {
			t.Errorf("hour %d: %+v", i, h)
		}
	}
	l := simulatedBarn(t, asIs)
	for before, want := range map[float64]float64{68: 80, 58: 78, 82: 82.8, 90: 90} { // 12, 20, 0.8 and none: nothing is taken away
		m := plain()
		m.alkalinity, m.nitrate = before, 0
		m.nature[losing], m.nature[uptake] = 0, 0
		m.draw(l, Hour{Base: 12, Level: 80, Mends: 0.8}, 0, 1)
		near(t, "after a dose", m.alkalinity, want, 1e-9)
	}
	if err := (Hour{Mends: 1.5}).check(); err == nil {
		t.Error("more than all that lacks is taken")
	}
}

// TestDosesAreRemembered, also small ones, with what they met.
func TestDosesAreRemembered(t *testing.T) {
	past := make([]Hour, 72)
	for i := range past {
		past[i].Air = 20
	}
	past[9].Base, past[40].Base = 0.5, 12
	o, err := Learn(barn, past, []Reading{{Hour: 3, Figure: Alkalinity, Value: 90}}, 1)
	if err != nil {
		t.Fatal(err)
	}
	if len(o.doses) != 2 || o.doses[0].hour != 9 || o.doses[0].given != 0.5 || o.doses[1].hour != 40 {
		t.Fatalf("%+v", o.doses)
	}
	near(t, "met", o.doses[0].before, 90, 5)
}
