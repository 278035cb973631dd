package published

import (
	"encoding/csv"
	"math"
	"math/big"
	"os"
	"strings"
	"testing"
)

// TestDisputesAreTrue derives each disputed figure again: what its definition
// asks for lies next to ours, and not within the source's own tolerance of what
// the source prints.
func TestDisputesAreTrue(t *testing.T) {
	for _, d := range Disputes {
		var defines func(v float64) int
		switch {
		case strings.HasPrefix(d.Quantity, "trial.two_proportions.fisher_or_lo"):
			defines = fisher{3, 40, 11, 42}.lowEnd
		case strings.HasPrefix(d.Quantity, "trial.two_proportions.fisher_cond_or"):
			defines = fisher{15, 120, 9, 118}.conditional
		case d.Quantity == "monitor.ses.sse [LakeHuron]":
			defines = fewestSquares(t)
		default:
			t.Fatalf("nothing derives %s", d.Quantity)
		}
		if below, above := defines(d.Ours*(1-1e-12)), defines(d.Ours*(1+1e-12)); below >= 0 || above <= 0 {
			t.Errorf("%s: ours, %v, is not what defines it (%d %d)", d.Quantity, d.Ours, below, above)
		}
		if below, above := defines(d.Printed*(1-1e-5)), defines(d.Printed*(1+1e-5)); below != above {
			t.Errorf("%s: what is printed, %v, is right within its tolerance", d.Quantity, d.Printed)
		}
	}
}

// fisher is a 2 x 2 table: so many events of so many, twice.
type fisher struct{ a, n, b, m int64 }

// tables weighs every table of the same margins at an odds ratio, exactly.
func (f fisher) tables(ratio float64, each func(k int64, weight *big.Rat)) {
	odds, power := new(big.Rat), big.NewRat(1, 1)
	odds.SetFloat64(ratio)
	events := f.a + f.b
	for k := int64(0); k <= min(events, f.n); k++ {
		if events-k <= f.m {
			ways := new(big.Int).Mul(new(big.Int).Binomial(f.n, k), new(big.Int).Binomial(f.m, events-k))
			each(k, new(big.Rat).Mul(new(big.Rat).SetInt(ways), power))
		}
		power.Mul(power, odds)
	}
}

// lowEnd is the sign of the chance of as many events or more, less 1/40.
func (f fisher) lowEnd(ratio float64) int {
	upper, all := new(big.Rat), new(big.Rat)
	f.tables(ratio, func(k int64, weight *big.Rat) {
		all.Add(all, weight)
		if k >= f.a {
			upper.Add(upper, weight)
		}
	})
	return upper.Cmp(all.Mul(all, big.NewRat(1, 40)))
}

// conditional is the sign of the mean number of events, less those observed.
func (f fisher) conditional(ratio float64) int {
	mean, all := new(big.Rat), new(big.Rat)
	f.tables(ratio, func(k int64, weight *big.Rat) {
		all.Add(all, weight)
		mean.Add(mean, new(big.Rat).Mul(big.NewRat(k, 1), weight))
	})
	return mean.Cmp(all.Mul(all, big.NewRat(f.a, 1)))
}

// fewestSquares tells whether a sum of squares is above the fewest that
// exponential smoothing of Lake Huron's levels leaves: those at alpha 1, which
// are the squared steps of the record, summed exactly. No smaller alpha leaves
// fewer.
func fewestSquares(t *testing.T) func(v float64) int {
	t.Helper()
	levels := lakeHuron(t)
	fewest := new(big.Rat)
	for i := range levels[1:] {
		step := new(big.Rat).Sub(levels[i+1], levels[i])
		fewest.Add(fewest, step.Mul(step, step))
	}
	end, _ := fewest.Float64()
	for alpha := 0.0; alpha < 1; alpha += 1.0 / 1024 {
		if sum := smoothed(levels, alpha); sum < end {
			t.Fatalf("alpha %v leaves %v", alpha, sum)
		}
	}
	return func(v float64) int { return new(big.Rat).SetFloat64(v).Cmp(fewest) }
}

func smoothed(levels []*big.Rat, alpha float64) float64 {
	level, _ := levels[0].Float64()
	sum := 0.0
	for _, next := range levels[1:] {
		v, _ := next.Float64()
		sum += (v - level) * (v - level)
		level += alpha * (v - level)
	}
	return sum
}

func lakeHuron(t *testing.T) []*big.Rat {
	t.Helper()
	raw, err := os.ReadFile("../../testdata/published/data/lakehuron.csv")
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(string(raw))).ReadAll()
	if err != nil || len(rows) != 99 {
		t.Fatalf("%d years: %v", len(rows)-1, err)
	}
	var levels []*big.Rat
	for _, row := range rows[1:] {
		level, ok := new(big.Rat).SetString(row[1])
		if !ok {
			t.Fatal(row)
		}
		levels = append(levels, level)
	}
	return levels
}

// What R 4.2.2 prints is what is disputed, digit by digit.
func TestPrintedByR(t *testing.T) {
	for quantity, c := range map[string]struct {
		printed string
		ours    float64
	}{
		"trial.two_proportions.fisher_or_lo [3/40-11/42]":     {"0.0382504705424", 0.0382498970716741},
		"trial.two_proportions.fisher_cond_or [15/120-9/118]": {"1.72621340362", 1.72623144682415},
	} {
		if _, found := DisputeOf(Row{Quantity: quantity, Expected: c.printed}, c.ours); !found {
			t.Errorf("%s: %s is not disputed", quantity, c.printed)
		}
	}
}

// A dispute covers its own two figures and nothing near them.
func TestDisputeOf(t *testing.T) {
	const quantity = "monitor.ses.sse [LakeHuron]"
	for _, c := range []struct {
		quantity, printed string
		ours              float64
		found             bool
	}{
		{quantity, "53.8659407701", 53.865, true}, {quantity, "53.8659407701", 53.865 * (1 + 1e-7), false},
		{quantity, "53.87", 53.865, false}, {quantity, "53.8659407701", math.NaN(), false},
		{"monitor.ses.sse [Nile]", "53.8659407701", 53.865, false}, {quantity, "<53.8659407701", 53.865, false},
	} {
		if d, found := DisputeOf(Row{Quantity: c.quantity, Expected: c.printed}, c.ours); found != c.found || found && d.How != atTheEnd {
			t.Errorf("%s %s %v: %+v", c.quantity, c.printed, c.ours, d)
		}
	}
}
