package nitrogen

import (
	"errors"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"freshet.example/husbandry/quantity"
)

func randomBudget(r *rand.Rand) Budget {
	amount := func(scale float64) Amount {
		return Amount{GramsN(scale * r.Float64()), GramsN(scale * 0.1 * r.Float64())}
	}
	b := Budget{
		Feed: amount(3000), WaterIn: amount(50), FishGain: amount(900), Plants: amount(900),
		StoredChange: amount(400), WaterOut: amount(200), Solids: amount(600),
	}
	b.StoredChange.Value -= 200
	return b
}

// TestBudgetClosesExactly adds the entries in shuffled order: what came in less
// what is accounted for less the unaccounted must be nothing, to the last bit.
func TestBudgetClosesExactly(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 1000 {
		c, err := randomBudget(r).Close(0.9)
		if err != nil {
			t.Fatal(err)
		}
		parts := []GramsN{c.Feed.Value, c.WaterIn.Value, -c.FishGain.Value, -c.Plants.Value,
			-c.StoredChange.Value, -c.WaterOut.Value, -c.Solids.Value, -c.Unaccounted.Value}
		r.Shuffle(len(parts), func(i, j int) { parts[i], parts[j] = parts[j], parts[i] })
		sum := GramsN(0)
		for _, p := range parts {
			sum += p
		}
		if sum != 0 {
			t.Fatalf("budget is open by %v g: %+v", sum, c)
		}
	}
}

// TestBudgetKeepsAmounts: rounding to a microgram may not be seen.
func TestBudgetKeepsAmounts(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 1000 {
		b := randomBudget(r)
		c, err := b.Close(0.8)
		if err != nil {
			t.Fatal(err)
		}
		kept := c.amounts()
		for i, a := range b.amounts() {
			if !(math.Abs(float64(a.Value-kept[i].Value)) <= 0.5e-6) || a.Error != kept[i].Error {
				t.Fatalf("%v became %v", *a, *kept[i])
			}
		}
	}
}

// TestIntervalOfUnaccounted: errors of 3 and 4 g make 5 g, and a normal
// interval of 90 % reaches 1.644854 of that (Abramowitz & Stegun table 26.5).
func TestIntervalOfUnaccounted(t *testing.T) {
	b := Budget{Feed: Amount{100, 3}, Solids: Amount{40, 4}}
	c, err := b.Close(0.9)
	if err != nil {
		t.Fatal(err)
	}
	if c.Unaccounted != (Amount{60, 5}) || c.ShareOfFeed != 0.6 || c.Level != 0.9 {
		t.Errorf("got %+v", c)
	}
	if !near(float64(c.Low), "51.77573", 0.00001) || !near(float64(c.High), "68.22427", 0.00001) {
		t.Errorf("interval %v to %v", c.Low, c.High)
	}
}

// TestIntervalCovers draws true budgets and noisy records of them: nine in ten
// intervals must hold the true remainder.
func TestIntervalCovers(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	held := 0
	for range 1000 {
		noisy := randomBudget(r)
		truth, err := noisy.Close(0.9)
		if err != nil {
			t.Fatal(err)
		}
		for _, a := range noisy.amounts() {
			a.Value += a.Error * GramsN(r.NormFloat64())
		}
		c, err := noisy.Close(0.9)
		if err != nil {
			t.Fatal(err)
		}
		if c.Low <= truth.Unaccounted.Value && truth.Unaccounted.Value <= c.High {
			held++
		}
	}
	if held < 870 || held > 930 {
		t.Errorf("%d of 1000 intervals of 90 %% held", held)
	}
}

func TestWords(t *testing.T) {
	for _, c := range []struct {
		budget Budget
		want   string
	}{
		{Budget{Feed: Amount{100, 1}, FishGain: Amount{69, 1}}, "unaccounted: likely denitrification and ammonia lost to air, 31 % of feed"},
		{Budget{Feed: Amount{100, 20}, FishGain: Amount{90, 20}}, "unaccounted: 10 % of feed, not told apart from nothing"},
		{Budget{Feed: Amount{100, 1}, FishGain: Amount{125, 1}}, "more nitrogen is accounted for than came in, by 25 % of feed: check weights, volumes and test readings"},
		{Budget{WaterIn: Amount{50, 1}}, "unaccounted: likely denitrification and ammonia lost to air, 50 g"},
		{Budget{}, "unaccounted: 0 g, not told apart from nothing"},
		{Budget{Feed: Amount{0.5, 0}}, "unaccounted: likely denitrification and ammonia lost to air, 100 % of feed"},
	} {
		closed, err := c.budget.Close(0.9)
		if err != nil || closed.Words() != c.want {
			t.Errorf("got %q, %v, want %q", closed.Words(), err, c.want)
		}
	}
}

// Nothing is lost of a large figure but what stands behind the point.
func TestWordsOfLargeFigures(t *testing.T) {
	of := Closed{Low: 1, ShareOfFeed: 200000.01}
	of.Feed.Value = 1
	if got := of.Words(); !strings.HasSuffix(got, ", 20000001 % of feed") {
		t.Error(got)
	}
	if got := (Closed{Low: 1, Unaccounted: Amount{Value: 20000001}}).Words(); !strings.HasSuffix(got, ", 20000001 g") {
		t.Error(got)
	}
}

func TestBudgetFormulaSpeaks(t *testing.T) {
	a, err := ask(t, "nitrogen_budget", "feed_g=100;feed_error_g=3;solids_g=40;solids_error_g=4")
	if err != nil || !near(a.Low, "51.77573", 0.00001) || !near(a.High, "68.22427", 0.00001) || !strings.HasSuffix(a.Text, "60 % of feed") {
		t.Errorf("got %+v, %v", a, err)
	}
	a, err = ask(t, "nitrogen_amount", "mass_g=100;mass_error_g=30;nitrogen_fraction=0.1;nitrogen_fraction_error=0.04")
	if err != nil || !near(a.Low, "5", 0) || !near(a.High, "15", 0) {
		t.Errorf("got %+v, %v", a, err)
	}
}

// The mass of fish that shrank is negative; its error is not.
func TestAmountOfShrunkFish(t *testing.T) {
	a, err := AmountOf(-100, 10, 0.03, 0)
	if err != nil || !(math.Abs(float64(a.Value)+3) <= 1e-12) || !(math.Abs(float64(a.Error)-0.3) <= 1e-12) {
		t.Errorf("got %+v, %v", a, err)
	}
	var out *quantity.RangeError
	if _, err := AmountOf(100, -1, 0.03, 0); !errors.As(err, &out) {
		t.Errorf("a negative standard error gave %v", err)
	}
}

func TestLeftOfNothing(t *testing.T) {
	left, err := Left(12)
	if err != nil || left != 12 {
		t.Errorf("got %v, %v", left, err)
	}
}

// TestGrainOfAmounts: amounts are kept to a 2^20th of a gram.
func TestGrainOfAmounts(t *testing.T) {
	c, err := Budget{Feed: Amount{Value: 1.0 / 3}}.Close(0.9)
	if err != nil || c.Feed.Value != 349525.0/1048576 {
		t.Errorf("a third of a gram is kept as %v, %v", c.Feed.Value, err)
	}
}

// near holds a number against a printed one, within a tolerance that is
// absolute, or where there is none within rounding.
func near(v float64, printed string, within float64) bool {
	want, err := strconv.ParseFloat(printed, 64)
	return err == nil && math.Abs(v-want) <= within+1e-9*math.Abs(want)
}
