package outlook

import (
	"math"
	"math/rand/v2"
	"testing"

	"freshet.example/husbandry/quantity"
)

// thousand calls for a thousand random cases, the same each time.
func thousand(each func(some func(low, high float64) float64)) {
	r := rand.New(rand.NewPCG(7, 1000)) // #nosec G404 -- the same case each time
	for range 1000 {
		each(func(low, high float64) float64 { return low + (high-low)*r.Float64() })
	}
}

// TestTimeMayBeParted: two steps of time one after the other are the whole, and
// what has long gone on is at rest.
func TestTimeMayBeParted(t *testing.T) {
	thousand(func(some func(low, high float64) float64) {
		c := Chain{Feed: some(0, 0.2), First: some(0.01, 2), Second: some(0.01, 2), Dilution: some(0, 0.1), Uptake: some(0.001, 0.1)}
		start := Pools{quantity.AmmoniaN(some(0, 5)), quantity.NitriteN(some(0, 5)), quantity.NitrateN(some(0, 100))}
		a, b := quantity.Hours(some(0, 100)), quantity.Hours(some(0, 100))
		halfway, err := c.After(start, a)
		parted, second := c.After(halfway, b)
		whole, third := c.After(start, a+b)
		rest, fourth := c.Steady()
		still, fifth := c.After(rest, a)
		if err := firstError(err, second, third, fourth, fifth); err != nil {
			t.Fatal(err)
		}
		for _, pair := range [][2]Pools{{parted, whole}, {still, rest}} {
			got, want := pair[0], pair[1]
			if !(math.Abs(float64(got.Ammonia-want.Ammonia)) <= 1e-8 && math.Abs(float64(got.Nitrite-want.Nitrite)) <= 1e-8 && math.Abs(float64(got.Nitrate-want.Nitrate)) <= 1e-6) {
				t.Fatalf("%+v: %+v, not %+v", c, got, want)
			}
		}
	})
}

// TestTanksStayWithinTheirAir: a tank without a heater is never warmer or colder
// than its air has been and it was, and parted time is whole time.
func TestTanksStayWithinTheirAir(t *testing.T) {
	thousand(func(some func(low, high float64) float64) {
		d := DailyTank{
			Volume: quantity.CubicMetres(some(0.1, 50)), Density: 998, Heat: 4184, Loss: some(5, 500),
			AirMean: quantity.Celsius(some(-5, 35)), AirSwing: some(0, 15), Rising: quantity.Hours(some(0, 24)), Start: quantity.Celsius(some(0, 40)),
		}
		hours := quantity.Hours(some(0, 200))
		at, err := d.After(hours)
		if err != nil {
			t.Fatal(err)
		}
		low, high := float64(d.AirMean)-d.AirSwing, float64(d.AirMean)+d.AirSwing
		if v := float64(at); v < math.Min(low, float64(d.Start))-1e-9 || !(v <= math.Max(high, float64(d.Start))+1e-9) {
			t.Fatalf("%+v is at %v after %v h", d, at, hours)
		}
		day := quantity.Hours(24 * math.Floor(some(0, 5))) // whole days, so that the air begins alike
		halfway, err := d.After(day)
		whole, second := d.After(day + hours)
		d.Start = halfway
		parted, third := d.After(hours)
		if err := firstError(err, second, third); err != nil || !(math.Abs(float64(parted-whole)) <= 1e-9) {
			t.Fatalf("%v and %v after %v h: %v", parted, whole, day+hours, err)
		}
	})
}

// TestLeftTakesItsTime: Michaelis and Menten's law, integrated, gives the time back:
// start - left + half ln(start/left) = speed times time.
func TestLeftTakesItsTime(t *testing.T) {
	thousand(func(some func(low, high float64) float64) {
		start, speed, half, hours := some(0.1, 50), some(0.01, 2), some(0.05, 5), some(0, 50)
		left, err := Left(quantity.MgPerL(start), speed, quantity.MgPerL(half), quantity.Hours(hours))
		if err != nil {
			t.Fatal(err)
		}
		v := float64(left)
		if v < 1e-200 {
			return // all but used up: its logarithm has no digits left
		}
		if took := start - v + half*math.Log(start/v); !(math.Abs(took-speed*hours) <= 1e-9*(1+speed*hours)) {
			t.Fatalf("%v of %v left after %v, by the law %v", v, start, speed*hours, took)
		}
	})
}

// TestProspectsAgreeWithThemselves: above its quantile lies what is not below it,
// an interval ends at its two quantiles, and more is less likely.
func TestProspectsAgreeWithThemselves(t *testing.T) {
	thousand(func(some func(low, high float64) float64) {
		p := Prospect{At: some(0, 400), Middle: some(-2, 7), Spread: some(0.01, 1), Few: some(1, 60)}
		below := quantity.Fraction(some(0.01, 0.99))
		at, err := p.Quantile(below)
		above, second := p.Above(at)
		farther, third := p.Above(at * 1.1)
		level := quantity.Fraction(some(0.05, 0.99))
		low, high, fourth := p.Between(level)
		least, fifth := p.Quantile((1 - level) / 2)
		most, sixth := p.Quantile((1 + level) / 2)
		if err := firstError(err, second, third, fourth, fifth, sixth); err != nil {
			t.Fatal(err)
		}
		if !(math.Abs(float64(above+below)-1) <= 1e-9) || !(farther < above) || !(math.Abs(low/least-1) <= 1e-9 && math.Abs(high/most-1) <= 1e-9) {
			t.Fatalf("%+v: %v below %v, %v above, %v farther; %v to %v, not %v to %v", p, below, at, above, farther, low, high, least, most)
		}
	})
}

// TestNoNumberBesideARefusal: what is refused gives no number that could be taken for
// an answer.
func TestNoNumberBesideARefusal(t *testing.T) {
	p := Prospect{At: 10, Middle: 1, Spread: 0.1, Few: 5}
	at, first := p.Quantile(1.5)
	low, high, second := p.Between(1.5)
	above, third := p.Above(math.NaN())
	left, fourth := Left(quantity.MgPerL(math.NaN()), 1, 1, 1)
	for i, err := range []error{first, second, third, fourth} {
		if err == nil {
			t.Errorf("question %d is answered", i)
		}
	}
	if at != 0 || low != 0 || high != 0 || above != 0 || left != 0 {
		t.Error(at, low, high, above, left)
	}
}
