package analysis

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"freshet.example/husbandry/quantity"
	"freshet.example/husbandry/signs"
)

// misread asks whether readings were typed in another unit, or the point slipped.
func (w *watched) misread(s signs.Sign) string {
	what, when := "One test of "+titleOf(s.Quantity), "on "+w.on(s.Since)
	if s.Count > 1 {
		what, when = fmt.Sprintf("%d tests of %s", s.Count, titleOf(s.Quantity)), fmt.Sprintf("from %s to %s", w.on(s.Since), w.on(s.Until))
	}
	stands := fmt.Sprintf("%s %s stand at %s; before, %s.", what, when, withUnit(s.Quantity, s.Is), show(s.Was, 2))
	if s.Count == 1 {
		stands = fmt.Sprintf("%s %s stands at %s; before, %s.", what, when, withUnit(s.Quantity, s.Is), show(s.Was, 2))
	}
	if s.Times != 0 {
		return stands + fmt.Sprintf(" With the point moved it would be %s. Did it slip?", show(s.Is*s.Times, 2))
	}
	as := unitWords(s.As.Unit, s.As.Basis)
	v, err := w.readAs(s)
	if err != nil {
		return stands + fmt.Sprintf(" Read as %s it would fit. Was it that?", as)
	}
	return stands + fmt.Sprintf(" Had it been %s, it would be %s. Was it that?", as, show(v, 2))
}

// readAs is the canonical value of what was typed, had it been typed in the other unit and basis.
func (w *watched) readAs(s signs.Sign) (float64, error) {
	tests := w.record.Tests[s.Quantity]
	first := slices.IndexFunc(tests, func(t signs.Test) bool { return t.Hour == s.Since })
	typed := tests[first].Typed
	number, err := quantity.Express(s.Quantity, s.Is, typed.Unit, typed.Basis)
	if err != nil {
		return 0, err
	}
	return quantity.Canonical(s.Quantity, number, s.As.Unit, s.As.Basis)
}

func (w *watched) outlier(s signs.Sign) string {
	return fmt.Sprintf("%s of %s on %s stands alone between tests of about %s. Was it read right?", capital(titleOf(s.Quantity)), withUnit(s.Quantity, s.Is), w.on(s.Since), show(s.Was, 2))
}

func (w *watched) shifted(s signs.Sign) string {
	return fmt.Sprintf("%s stands at %s since %s; before, at %s.", capital(titleOf(s.Quantity)), withUnit(s.Quantity, s.Is), w.on(s.Since), show(s.Was, 3))
}

func (w *watched) stuckFor(s signs.Sign) string {
	return fmt.Sprintf("The %s probe says %s and nothing else, %s.", titleOf(s.Quantity), withUnit(s.Quantity, s.Is), w.since(s))
}

func (w *watched) silentFor(s signs.Sign) string {
	const day = 24
	if s.Hand {
		return fmt.Sprintf("%s was last tested %s ago; usually it is tested every %s.", capital(titleOf(s.Quantity)), counted(int(s.Is/day), "day"), counted(int(math.Round(s.Was/day)), "day"))
	}
	return fmt.Sprintf("The %s probe has said nothing %s.", titleOf(s.Quantity), w.since(s))
}

// silentProbes says in one sentence which probes fell silent in the same hour.
func (w *watched) silentProbes(s signs.Sign, found []signs.Sign) string {
	var names []string
	for _, o := range found {
		if o.Kind == s.Kind && !o.Hand && o.Since == s.Since {
			names = append(names, titleOf(o.Quantity))
		}
	}
	if len(names) == 1 {
		return w.silentFor(s)
	}
	return fmt.Sprintf("%d probes have said nothing %s: %s.", len(names), w.since(s), strings.Join(names, ", "))
}

// unwatched says what cannot be noticed, and what would change that.
func (w *watched) unwatched() []string {
	const month, enough = 28 * 24, 4
	probe := func(q quantity.Quantity) bool { return len(w.record.Probe[q]) > 0 }
	tested := func(q quantity.Quantity) int {
		n := 0
		for _, t := range w.record.Tests[q] {
			if t.Hour >= len(w.record.Hours)-month {
				n++
			}
		}
		return n
	}
	var list []string
	for _, gap := range []struct {
		open  bool
		words string
	}{
		{!probe(quantity.DissolvedOxygen) || !probe(quantity.WaterTemperature), "a pump that stands: that takes probes of oxygen and of the water's temperature"},
		{!probe(quantity.WaterTemperature), "a heater that fails: that takes a probe of the water's temperature"},
		{tested(quantity.TotalAmmonia) < enough, "a filter that cannot follow: that takes a test of ammonia each week"},
		{probe(quantity.Acidity) && tested(quantity.Acidity) < enough, "a pH probe that drifts: that takes a test of pH by hand each week"},
		{tested(quantity.Appetite) < enough, "fish that turn from their feed: note their appetite each week"},
	} {
		if gap.open {
			list = append(list, gap.words)
		}
	}
	return list
}
