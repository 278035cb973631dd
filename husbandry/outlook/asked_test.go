package outlook

import (
	"errors"
	"slices"
	"testing"

	"freshet.example/husbandry/formula"
)

func answer(t *testing.T, name string, typed map[string]string) (formula.Answer, error) {
	t.Helper()
	i := slices.IndexFunc(Formulas, func(f formula.Formula) bool { return f.Name == name })
	if i < 0 {
		t.Fatal("no formula is called " + name)
	}
	return Formulas[i].Ask(typed)
}

// TestFiguresAsTyped are read to their last digit: at no time later than now what is
// there is what was there.
func TestFiguresAsTyped(t *testing.T) {
	for name, want := range map[string]float64{"chain_ammonia": 0.1, "chain_nitrite": 0.7, "chain_nitrate": 12.3} {
		got, err := answer(t, name, map[string]string{"F": "0", "k1": "0.1", "k2": "0.1", "y0": "[0.1 0.7 12.3]", "t": "0"})
		if err != nil || got.Value != want {
			t.Errorf("%s is %.17g: %v", name, got.Value, err)
		}
	}
	air := map[string]string{"V": "1", "UA": "10", "air": "14.1+7.3", "T0": "20"}
	mean, err := answer(t, "daily_tank_mean", air)
	swing, second := answer(t, "daily_tank_amplitude", air)
	gain, third := answer(t, "daily_tank_gain", air)
	if err := firstError(err, second, third); err != nil || mean.Value != 14.1 || swing.Value != gain.Value*7.3 {
		t.Errorf("mean %.17g, swing %.17g: %v", mean.Value, swing.Value, err)
	}
}

// TestAirThatIsNoMeanAndSwing is refused: one number alone is neither.
func TestAirThatIsNoMeanAndSwing(t *testing.T) {
	for _, air := range []string{"14", "7", "+", "14+", "+7", "14+warm"} {
		_, err := answer(t, "daily_tank_mean", map[string]string{"V": "1", "UA": "10", "air": air, "T0": "20"})
		var refused *formula.InputError
		if !errors.As(err, &refused) || refused.Input != "air" {
			t.Errorf("air %q: %v", air, err)
		}
	}
}

// TestCasesAreToldApart by up to five words between a topic and its figure.
func TestCasesAreToldApart(t *testing.T) {
	want := []string{"sim.x T", "sim.x {case} T", "sim.x {case} {case} T", "sim.x {case} {case} {case} T", "sim.x {case} {case} {case} {case} T", "sim.x {case} {case} {case} {case} {case} T"}
	if got := cases("sim.x", "T"); !slices.Equal(got, want) {
		t.Error(got)
	}
}
