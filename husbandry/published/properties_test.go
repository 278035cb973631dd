package published

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"freshet.example/husbandry/formula"
)

// thousand calls for a thousand random cases, the same each time.
func thousand(each func(r *rand.Rand)) {
	r := rand.New(rand.NewPCG(13, 1000)) // #nosec G404 -- the same case each time
	for range 1000 {
		each(r)
	}
}

// printedFigure is a figure as it may be printed: of one to nine digits, of any size.
func printedFigure(r *rand.Rand) (v float64, printed string) {
	digits := 1 + r.IntN(9)
	v = math.Exp(20*r.Float64()-10) * float64(1-2*r.IntN(2))
	printed = strconv.FormatFloat(v, 'e', digits-1, 64)
	v, _ = strconv.ParseFloat(printed, 64)
	if math.Abs(v) >= 1e-4 && r.IntN(2) == 0 {
		printed = strconv.FormatFloat(v, 'f', -1, 64)
	}
	return v, printed
}

// TestAFigureIsItself, however it is printed: to its last digit, with a decimal comma,
// as about so much, as a power of ten, with a remark behind it.
func TestAFigureIsItself(t *testing.T) {
	thousand(func(r *rand.Rand) {
		v, printed := printedFigure(r)
		ways := []string{printed, "~" + printed, "about " + printed, printed + " (a remark of 7)", strings.Replace(printed, "-", "\u2212", 1)}
		if mantissa, power, scientific := strings.Cut(printed, "e"); scientific {
			ways = append(ways, mantissa+" x 10^"+strings.Replace(power, "+", "", 1), mantissa+"\u00b710^"+strings.Replace(power, "+0", "", 1))
		} else if _, part, _ := strings.Cut(printed, "."); len(part) != 3 {
			ways = append(ways, strings.Replace(printed, ".", ",", 1))
		}
		way := ways[r.IntN(len(ways))]
		if got := judged(way, "exact", v); got != Agrees {
			t.Fatalf("%v printed as %q %v", v, way, got)
		}
		if got := judged(way, "exact", v*(1+1e-6)); got != Differs {
			t.Fatalf("%v for %q %v", v*(1+1e-6), way, got)
		}
		if judged(way, "rel 50%", math.NaN()) != Differs {
			t.Fatalf("no number at all agrees with %q", way)
		}
	})
}

// TestHowWideATolerance is what it says on both sides; a wider one takes all that a
// narrower one does; and of two the wider counts.
func TestHowWideATolerance(t *testing.T) {
	thousand(func(r *rand.Rand) {
		v, printed := printedFigure(r)
		room := math.Exp(8*r.Float64() - 9)
		narrow, wide := strconv.FormatFloat(room, 'g', 6, 64), strconv.FormatFloat(2*room, 'g', 6, 64)
		room, _ = strconv.ParseFloat(narrow, 64)
		for _, side := range []float64{-1, 1} {
			within, beyond := v+side*0.99*room*math.Abs(v), v+side*1.01*room*math.Abs(v)
			for _, c := range []struct {
				tolerance string
				of        float64
				want      Verdict
			}{
				{"rel " + narrow, within, Agrees}, {"rel " + narrow, beyond, Differs}, {"rel " + wide, beyond, Agrees},
				{"abs 1e-300 or rel " + narrow, within, Agrees}, {"rel " + narrow + " (lower is fine)", v - 3*room*math.Abs(v) - 1, Agrees},
				{"abs " + strconv.FormatFloat(room*math.Abs(v), 'g', 17, 64), within, Agrees}, {"abs " + strconv.FormatFloat(room*math.Abs(v), 'g', 17, 64), beyond, Differs},
			} {
				if got := judged(printed, c.tolerance, c.of); got != c.want {
					t.Fatalf("%v for %s within %q %v", c.of, printed, c.tolerance, got)
				}
			}
		}
	})
}

// TestRangesAgreeAtBothEnds, and nowhere else.
func TestRangesAgreeAtBothEnds(t *testing.T) {
	thousand(func(r *rand.Rand) {
		a, b := float64(r.IntN(2000))/8, float64(r.IntN(2000))/8
		write := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
		low, high := min(a, b), max(a, b)+1
		printed := write(low) + []string{"-", " - ", " to ", "\u2013", ".."}[r.IntN(5)] + write(high)
		for _, c := range []struct {
			answer formula.Answer
			want   Verdict
		}{
			{formula.Span(low, high), Agrees}, {formula.Span(low, high+0.01), Differs}, {formula.Span(low-0.01, high), Differs},
			{formula.Span(high, low), Differs}, {formula.Number(low), Differs}, {formula.Number((low + high) / 2), Differs},
		} {
			if got, _ := Judge(Row{Expected: printed, Tolerance: "exact"}, plain, c.answer, nil); got != c.want {
				t.Fatalf("%+v for %q %v", c.answer, printed, got)
			}
		}
	})
}

// TestUnitsThereAndBack: from one unit to another and back is where one was, and over a
// third it is the same way.
func TestUnitsThereAndBack(t *testing.T) {
	kinds := [][]string{{"g", "kg", "mg", "lb", "oz", "t"}, {"L", "gal", "mL", "m3"}, {"h", "min", "s", "d", "wk"}, {"m2", "ft2"}, {"m", "ft", "cm", "in"}}
	thousand(func(r *rand.Rand) {
		one := func(kind int) string { return kinds[kind][r.IntN(len(kinds[kind]))] }
		top, bottom := r.IntN(len(kinds)), r.IntN(len(kinds))
		a, b, c := one(top)+"/"+one(bottom), one(top)+"/"+one(bottom), one(top)+"/"+one(bottom)
		there, first := Factor(a, b)
		back, second := Factor(b, a)
		on, third := Factor(b, c)
		whole, fourth := Factor(a, c)
		if !first || !second || !third || !fourth {
			t.Fatal(a, b, c, first, second, third, fourth)
		}
		if math.Abs(there*back-1) > 1e-12 || math.Abs(there*on/whole-1) > 1e-12 {
			t.Fatalf("%s to %s is %g and back %g; to %s %g, and straight %g", a, b, there, back, c, on, whole)
		}
		if top != bottom {
			if factor, ok := Factor(one(top), one(bottom)); ok {
				t.Fatalf("kinds %d and %d differ by %g", top, bottom, factor)
			}
		}
	})
}

// TestAnswersAgreeInAnyUnit: an answer in one unit agrees with what it is in another.
func TestAnswersAgreeInAnyUnit(t *testing.T) {
	units := []string{"mg/L as N", "mg/L as NH3", "ug/L as N", "mg/L as NO3", "ppm as N"}
	thousand(func(r *rand.Rand) {
		have, want, v := units[r.IntN(len(units))], units[r.IntN(len(units))], 10*r.Float64()+0.1
		a := formula.Number(v)
		a.Unit = have
		_, there := Judge(Row{Expected: "1", Unit: want}, plain, a, nil)
		there.Unit = want
		_, back := Judge(Row{Expected: "1", Unit: have}, plain, there, nil)
		if math.Abs(back.Value/v-1) > 1e-12 {
			t.Fatalf("%g %s is %g %s and back %g", v, have, there.Value, want, back.Value)
		}
		row := Row{Expected: strconv.FormatFloat(there.Value, 'g', 12, 64), Unit: want, Tolerance: "rel 1e-9"}
		if got, _ := Judge(row, plain, a, nil); got != Agrees {
			t.Fatalf("%g %s for %s %s %v", v, have, row.Expected, want, got)
		}
	})
}
