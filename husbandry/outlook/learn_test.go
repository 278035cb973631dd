package outlook

import (
	"errors"
	"math"
	"slices"
	"testing"

	"freshet.example/husbandry/quantity"
)

// lived is a loop's past that a member of known nature lived, with its readings:
// a probe of warmth each hour and tests each other day.
func lived(t testing.TB, m member, days int) ([]Hour, []Reading, member) {
	t.Helper()
	l := simulatedBarn(t, asIs)
	var past []Hour
	var readings []Reading
	for i := range days * 24 {
		h := Hour{Air: 20 + 5*math.Sin(2*math.Pi*float64(i-9)/24), Sun: math.Max(0, math.Sin(2*math.Pi*float64(i-6)/24)), Feed: 2.5, Fish: 60, Base: 1.05}
		l.hour(&m, h)
		past = append(past, h)
		readings = append(readings, Reading{Hour: i, Figure: Warmth, Value: m.celsius})
		if i%48 == 18 {
			for _, f := range []Figure{Ammonia, Nitrite, Nitrate, Alkalinity, Acidity, Oxygen} {
				readings = append(readings, Reading{Hour: i, Figure: f, Value: m.of(f, l)})
			}
		}
	}
	return past, readings, m
}

func outlookOf(t *testing.T, past []Hour, readings []Reading) (*Outlook, *Ahead) {
	t.Helper()
	o, err := Learn(barn, past, readings, 7)
	if err != nil {
		t.Fatal(err)
	}
	a, err := o.Ahead(o.Usual(14*24), 0)
	if err != nil {
		t.Fatal(err)
	}
	return o, a
}

func fan(t *testing.T, a *Ahead, f Figure, day int) Fan {
	t.Helper()
	got, err := a.Fan(f, Mean, day, 0.9)
	if err != nil {
		t.Fatal(err)
	}
	if !(got.Low <= got.Middle && got.Middle <= got.High) {
		t.Fatalf("figure %d on day %d: %+v", f, day, got)
	}
	return got
}

// TestLoopForecastsStayAsTheyWere: nobody publishes such forecasts, so that a
// change of any number behind them shows only against what they were when make
// coverage found that their intervals hold.
func TestLoopForecastsStayAsTheyWere(t *testing.T) {
	past, readings, _ := lived(t, plain(), 21)
	for i := range past {
		past[i].Cleaned = i == 200
		past[i].Air += 3*math.Sin(float64(i)/40) + float64(i)/200
	}
	readings = append(readings, Reading{Hour: len(past) - 1, Figure: Nitrite, Value: 0.03, Below: true}, Reading{Hour: len(past) - 1, Figure: Ammonia, Value: 9})
	_, known := outlookOf(t, past, readings)
	for i := range past {
		if past[i].Feed = 1; i%2 == 0 {
			past[i].Air = math.NaN()
		}
	}
	l := barn
	l.Media, l.SourceAlkalinity = 0, 10
	o, err := Learn(l, past, nil, 3)
	if err != nil {
		t.Fatal(err)
	}
	blind, err := o.Ahead(o.Usual(3*24), 0)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range asTheyWere {
		a, day, f := known, []int{0, 2, 6, 9}[i%4], Figure(i/4)
		if i%4 == 1 {
			a = blind
		}
		got, err := a.Fan(f, Side(i%4%3), day, 0.8)
		if err != nil {
			t.Fatal(err)
		}
		for j, v := range []float64{got.Low, got.Middle, got.High} {
			if !(math.Abs(v-want[j]) <= 1e-6*math.Abs(want[j])) {
				t.Errorf("figure %d, %d: {%.8g, %.8g, %.8g}", f, i%4, got.Low, got.Middle, got.High)
				break
			}
		}
	}
}

var asTheyWere = [4 * Figures][3]float64{
	{21.361111, 21.619236, 21.887684},
	{18.394295, 21.924704, 25.943009},
	{20.91512, 21.818596, 23.047205},
	{20.396003, 21.475397, 22.974318},
	{0.57788999, 0.65540983, 0.74600314},
	{0.21369949, 1.2065371, 21.788602},
	{0.47626796, 0.71174077, 1.2591161},
	{0.30403538, 0.62100644, 2.007111},
	{0.56792786, 0.63897753, 0.71344785},
	{0.15239562, 1.0219112, 8.1717805},
	{0.41006596, 0.66897306, 1.2635727},
	{0.27843858, 0.60588028, 1.7986358},
	{59.632657, 63.270864, 66.745869},
	{0, 9.9332034, 39.209467},
	{64.249921, 70.018765, 75.216922},
	{62.954037, 72.893099, 83.47932},
	{152.69081, 156.38946, 160.28712},
	{379.73725, 495.89169, 654.51606},
	{138.59694, 158.97876, 180.75718},
	{108.81314, 158.81086, 196.07914},
	{7.9327959, 7.9716516, 8.0142933},
	{7.9400938, 8.5624087, 9.0317384},
	{7.9015714, 7.9844238, 8.0705399},
	{7.7555426, 7.9748334, 8.1281587},
	{6.8899158, 7.0186679, 7.1972649},
	{3.9394164, 6.9335641, 8.1118701},
	{7.0376753, 7.3448515, 7.7663214},
	{6.5613177, 7.0156418, 7.4559734},
	{0.021999665, 0.026073687, 0.03161785},
	{0.020955782, 0.22522805, 3.9452378},
	{0.01978153, 0.028783083, 0.046544544},
	{0.015557419, 0.024818218, 0.05526257},
}

// TestReadingsNarrowTheForecast: whoever reads knows more than whoever does not,
// tomorrow more than in a fortnight, and what came lies within.
func TestReadingsNarrowTheForecast(t *testing.T) {
	past, readings, m := lived(t, plain(), 28)
	_, known := outlookOf(t, past, readings)
	_, blind := outlookOf(t, past, nil)
	l := simulatedBarn(t, asIs)
	for day := range 7 {
		means := [Figures]float64{}
		for i := range 24 {
			l.hour(&m, past[len(past)-24+i])
			for f := range Figures {
				means[f] += m.of(f, l) / 24
			}
		}
		for f := range Figures {
			got, wide := fan(t, known, f, day), fan(t, blind, f, day)
			if got.High-got.Low > 0.8*(wide.High-wide.Low) {
				t.Errorf("figure %d on day %d: %+v is little narrower than %+v", f, day, got, wide)
			}
			slack := (got.High - got.Low) / 4 // one truth of ten may lie outside, but not far
			if s := scaleOf(f); means[f] > s.least && (means[f] < got.Low-slack || means[f] > got.High+slack) {
				t.Errorf("figure %d on day %d came to %.3f, outside %+v", f, day, means[f], got)
			}
		}
	}
	for f := range Figures {
		if near, far := fan(t, known, f, 0), fan(t, known, f, 13); far.High-far.Low <= near.High-near.Low {
			t.Errorf("figure %d is as sure in a fortnight as tomorrow", f)
		}
	}
}

// TestHeld counts forecasts from days of the past.
func TestHeld(t *testing.T) {
	past, readings, _ := lived(t, plain(), 28)
	o, _ := outlookOf(t, past, readings)
	for _, f := range []Figure{Warmth, Ammonia, Nitrate} {
		if held, asked := o.Held(f); asked < 10 || held < asked/2 || held > asked {
			t.Errorf("figure %d: %d of %d held", f, held, asked)
		}
	}
	if held, asked := o.Held(Unionized); held != 0 || asked != 0 {
		t.Errorf("what is never read was held %d of %d times", held, asked)
	}
}

// TestTheSameSeedTheSameForecast, and looking twice changes nothing.
func TestTheSameSeedTheSameForecast(t *testing.T) {
	past, readings, _ := lived(t, plain(), 14)
	o, a := outlookOf(t, past, readings)
	again, err := o.Ahead(o.Usual(14*24), 0)
	_, other := outlookOf(t, past, readings)
	if err != nil {
		t.Fatal(err)
	}
	for f := range Figures {
		if fan(t, a, f, 5) != fan(t, again, f, 5) || fan(t, a, f, 5) != fan(t, other, f, 5) {
			t.Errorf("figure %d differs", f)
		}
	}
}

// TestASlipCountsLittle: one ammonia of ten times what it was moves the forecast
// less than three of it do.
func TestASlipCountsLittle(t *testing.T) {
	past, readings, _ := lived(t, plain(), 28)
	_, before := outlookOf(t, past, readings)
	slip := slices.Concat(readings, []Reading{{Hour: len(past) - 1, Figure: Ammonia, Value: 6}})
	_, after := outlookOf(t, past, slip)
	if a, b := fan(t, before, Ammonia, 1).Middle, fan(t, after, Ammonia, 1).Middle; b > 2*a || b < a {
		t.Errorf("one slip of 6 mg/L moves %.3f to %.3f", a, b)
	}
}

// TestBelowWhatATestShows bends a forecast that lies above it, and leaves one below.
func TestBelowWhatATestShows(t *testing.T) {
	past, _, _ := lived(t, plain(), 14)
	var below []Reading
	for i := 18; i < len(past); i += 24 {
		below = append(below, Reading{Hour: i, Figure: Ammonia, Value: 0.25, Below: true})
	}
	_, free := outlookOf(t, past, nil)
	_, told := outlookOf(t, past, below)
	if a, b := fan(t, free, Ammonia, 1), fan(t, told, Ammonia, 1); b.High > 0.7*a.High || b.Middle > 0.25 {
		t.Errorf("%+v although each day below 0.25, %+v without", b, a)
	}
}

// TestPlansDiffer: what is planned shows in what comes.
func TestPlansDiffer(t *testing.T) {
	past, readings, _ := lived(t, plain(), 28)
	o, usual := outlookOf(t, past, readings)
	plan := func(change func(i int, h *Hour)) *Ahead {
		hours := o.Usual(7 * 24)
		for i := range hours {
			change(i, &hours[i])
		}
		a, err := o.Ahead(hours, 0)
		if err != nil {
			t.Fatal(err)
		}
		return a
	}
	more := plan(func(_ int, h *Hour) { h.Feed *= 3 })
	if a, b := fan(t, usual, Ammonia, 5).Middle, fan(t, more, Ammonia, 5).Middle; b < 1.2*a {
		t.Errorf("three times the feed: ammonia %.3f after %.3f", b, a)
	}
	cut := plan(func(i int, h *Hour) { h.Still = i >= 26 && i < 32 })
	dark, err := cut.Past(Oxygen, 1, 3, false)
	light, other := usual.Past(Oxygen, 1, 3, false)
	if err != nil || other != nil || dark < 0.7 || light > 0.1 {
		t.Errorf("oxygen below 3: %.2f in a power cut, %.2f without; %v %v", dark, light, err, other)
	}
	hot := plan(func(_ int, h *Hour) { h.Air = 34 })
	if a, b := fan(t, usual, Warmth, 5).High, fan(t, hot, Warmth, 5).Low; b < a {
		t.Errorf("a heat wave: %.1f where it was %.1f", b, a)
	}
	warm := plan(func(_ int, h *Hour) { h.Warmer = 5 })
	if a, b := fan(t, usual, Warmth, 6).Middle, fan(t, warm, Warmth, 6).Middle; b < a+3 || b > a+5.1 {
		t.Errorf("air warmer by 5 K makes water of %.2f one of %.2f", a, b)
	}
	if c, err := hot.Past(Warmth, 5, 25, true); err != nil || c < 0.9 {
		t.Errorf("above 25 in a heat wave: %.2f %v", c, err)
	}
}

// TestKeptUpByHand: whoever added base of late is taken to go on; whoever never
// did is not.
func TestKeptUpByHand(t *testing.T) {
	past, readings, _ := lived(t, plain(), 28)
	_, kept := outlookOf(t, past, readings)
	bare := append([]Hour(nil), past...)
	for i := range bare {
		if i >= 7*24 {
			bare[i].Base = 0
		}
	}
	o, left := outlookOf(t, bare, readings)
	if a, b := fan(t, kept, Alkalinity, 13), fan(t, left, Alkalinity, 13); a.Middle < 1.2*b.Middle {
		t.Errorf("kept up %+v, left alone %+v", a, b)
	}
	if h := o.Usual(24)[3]; h.Keep != 0 || h.Feed != 2.5 || h.Fish != 60 {
		t.Errorf("going on as before is %+v", h)
	}
}

// TestRoutineGoesOn: base every other day and new water each week come on the
// days on which they were a fortnight before; in a shorter past, evenly.
func TestRoutineGoesOn(t *testing.T) {
	past := make([]Hour, 20*24)
	for i := range past {
		if i%48 == 9 {
			past[i].Base = 12
		}
		if i%(7*24) == 30 {
			past[i].Changed = 50
		}
	}
	plan := usualPlan(past, 16*24, custom{})
	for i, h := range plan[:4*24] { // as it would have gone on
		if now := len(past) + i; h.Base > 0 != (now%48 == 9) || h.Changed > 0 != (now%(7*24) == 30) {
			t.Errorf("hour %d: base %g, changed %g", i, h.Base, h.Changed)
		}
	}
	if a, b := plan[9].Base, plan[14*24+9].Base; a != 12 || b != 12 || plan[54].Changed != 50 {
		t.Errorf("base %g, a fortnight on %g, new water %g", a, b, plan[54].Changed)
	}
	if h := usualPlan(past[:13*24], 24, custom{})[10]; h.Base != 12.0*7/(13*24) || h.Changed != 50.0/(7*24) {
		t.Errorf("evenly: base %g, changed %g", h.Base, h.Changed)
	}
}

// TestMealsComeAtTheirHours: fish fed at one hour of the day are fed so in the plan,
// as much in a day as in the last week; from less than a day, evenly.
func TestMealsComeAtTheirHours(t *testing.T) {
	past := make([]Hour, 10*24+5) // now is the sixth hour of a day
	for i := range past {
		if i%24 == 7 {
			past[i].Feed = 100 + float64(i/24)
		}
	}
	total := 0.0
	for i, h := range usualPlan(past, 2*24, custom{}) {
		if fed := (len(past)+i)%24 == 7; fed && math.Abs(h.Feed-106) > 1e-9 || !fed && h.Feed != 0 { // days 3 to 9
			t.Errorf("hour %d: %g g", i, h.Feed)
		}
		total += h.Feed
	}
	near(t, "in two days", total, 2*106, 1e-9)
	for _, h := range usualPlan(past[:20], 24, custom{}) {
		near(t, "evenly", h.Feed, 5, 1e-12)
	}
	near(t, "of a day and a half", usualPlan(past[:36], 24, custom{})[19].Feed, 100.5, 1e-12)
}

// TestNothingAtAll: no past, no readings; wide, never refused.
func TestNothingAtAll(t *testing.T) {
	_, a := outlookOf(t, nil, nil)
	for f := range Figures {
		if got := fan(t, a, f, 13); got.High-got.Low < 0.05*got.Middle {
			t.Errorf("figure %d is known from nothing: %+v", f, got)
		}
	}
	one := []Hour{{Air: math.NaN()}}
	outlookOf(t, one, []Reading{{Hour: 0, Figure: Acidity, Value: 7}})
	equal := make([]Reading, 400)
	for i := range equal {
		equal[i] = Reading{Hour: i, Figure: Warmth, Value: 20}
	}
	outlookOf(t, make([]Hour, 400), equal)
}

// TestPastsThatCannotBe are refused, and said so.
func TestPastsThatCannotBe(t *testing.T) {
	var past *PastError
	var outside *quantity.RangeError
	hours := make([]Hour, 24)
	for name, c := range map[string]struct {
		hours    []Hour
		readings []Reading
	}{
		"unordered": {hours, []Reading{{Hour: 3}, {Hour: 2}}}, "to come": {hours, []Reading{{Hour: 24}}},
		"not read": {hours, []Reading{{Figure: Unionized}}}, "no figure": {hours, []Reading{{Figure: -1}}}, "too long": {make([]Hour, 9601), nil},
	} {
		if _, err := Learn(barn, c.hours, c.readings, 1); !errors.As(err, &past) || err.Error() == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
	for name, c := range map[string]struct {
		loop     Loop
		hours    []Hour
		readings []Reading
	}{
		"no water": {Loop{}, hours, nil}, "pH 15": {barn, hours, []Reading{{Figure: Acidity, Value: 15}}}, "hot air": {barn, []Hour{{Air: 70}}, nil},
		"negative feed": {barn, []Hour{{Feed: -1}}, nil}, "no number": {barn, hours, []Reading{{Value: math.NaN()}}}, "sun": {barn, []Hour{{Sun: 2}}, nil},
	} {
		if _, err := Learn(c.loop, c.hours, c.readings, 1); !errors.As(err, &outside) {
			t.Errorf("%s: %v", name, err)
		}
	}
	o, a := outlookOf(t, hours, nil)
	if _, err := o.Ahead(hours[:10], 0); err == nil {
		t.Error("ten hours are forecast")
	}
	if _, err := o.Ahead(append(o.Usual(24), Hour{Fish: -1}), 0); err == nil {
		t.Error("fewer than no fish are planned")
	}
	for _, day := range []int{-1, 14} {
		if _, err := a.Fan(Warmth, Mean, day, 0.8); err == nil {
			t.Errorf("day %d is told", day)
		}
		if _, err := a.Past(Warmth, day, 20, true); err == nil {
			t.Errorf("day %d is told", day)
		}
	}
	if _, err := a.Fan(Figures, Mean, 0, 0.8); err == nil {
		t.Error("a figure that is none is told")
	}
	if _, err := a.Fan(Warmth, Mean, 0, 1); err == nil {
		t.Error("all is held")
	}
}

// TestTheRestOfTheDay is lived and not counted: what begins after it is tomorrow.
func TestTheRestOfTheDay(t *testing.T) {
	past, readings, _ := lived(t, plain(), 14)
	o, whole := outlookOf(t, past, readings)
	a, err := o.Ahead(o.Usual(3*24+10), 10)
	if err != nil || a.Days() != 3 || whole.Days() != 14 {
		t.Fatal(a, err)
	}
	if early, late := fan(t, whole, Nitrate, 0), fan(t, a, Nitrate, 0); late == early {
		t.Errorf("ten hours later nothing changed: %+v", late)
	}
	for _, rest := range []int{-1, 24} {
		if _, err := o.Ahead(o.Usual(72), rest); err == nil {
			t.Errorf("a day has %d hours left", rest)
		}
	}
}

// TestWhatWouldNarrow: ammonia's forecast gains most from what was not read, and
// nothing from what was read just now.
func TestWhatWouldNarrow(t *testing.T) {
	past, readings, _ := lived(t, plain(), 14)
	var warm []Reading
	for _, r := range readings {
		if r.Figure == Warmth {
			warm = append(warm, r)
		}
	}
	_, unread := outlookOf(t, past, warm)
	_, read := outlookOf(t, past, readings)
	best, share, err := unread.Narrowing(Ammonia, Mean, 1)
	if err != nil || best != Ammonia || share > 0.5 {
		t.Errorf("figure %d would narrow it to %.2f: %v", best, share, err)
	}
	if _, after, err := read.Narrowing(Ammonia, Mean, 1); err != nil || after < share {
		t.Errorf("read often, a reading still narrows it to %.2f, unread to %.2f: %v", after, share, err)
	}
	if _, _, err := read.Narrowing(Ammonia, Mean, 99); err == nil {
		t.Error("day 99 is told")
	}
}

// TestRising: ammonia of a filter hosed clean more than doubles.
func TestRising(t *testing.T) {
	past, readings, _ := lived(t, plain(), 28)
	o, calm := outlookOf(t, past, readings)
	plan := o.Usual(5 * 24)
	plan[2].Cleaned = true
	hosed, err := o.Ahead(plan, 0)
	if err != nil {
		t.Fatal(err)
	}
	quiet, err := calm.Rising(Ammonia, 4, 2, 0.5)
	loud, other := hosed.Rising(Ammonia, 4, 2, 0.5)
	if err != nil || other != nil || loud < 0.3 || quiet > 0.1 {
		t.Errorf("doubling: %.2f after hosing, %.2f without; %v %v", loud, quiet, err, other)
	}
	if _, err := calm.Rising(Ammonia, 4, 0.5, 0); err == nil {
		t.Error("less is rising")
	}
}

// TestHowFarAndHowMuch: the ends of what may be asked.
func TestHowFarAndHowMuch(t *testing.T) {
	past, readings, _ := lived(t, plain(), 14)
	o, a := outlookOf(t, past, readings)
	for _, c := range []struct {
		hours, rest int
		ok          bool
	}{{24, 0, true}, {24 + 23, 23, true}, {23, 0, false}, {60 * 24, 0, true}, {60*24 + 1, 0, false}} {
		if _, err := o.Ahead(o.Usual(c.hours), c.rest); (err == nil) != c.ok {
			t.Errorf("%d hours after %d: %v", c.hours-c.rest, c.rest, err)
		}
	}
	for _, c := range []struct {
		limit float64
		above bool
		want  quantity.Fraction
	}{{0, true, 1}, {0, false, 0}, {1e6, true, 0}, {1e6, false, 1}} {
		if got, err := a.Past(Nitrate, 1, c.limit, c.above); err != nil || got != c.want {
			t.Errorf("past %g: %g, want %g; %v", c.limit, got, c.want, err)
		}
	}
	for _, limit := range []float64{-1e-9, 1e6 + 1} {
		if got, err := a.Past(Nitrate, 1, limit, true); err == nil || got != 0 {
			t.Errorf("a limit of %g is taken: %g", limit, got)
		}
	}
	for p, want := range map[float64]float64{0: 1, 0.25: 2, 0.5: 3, 0.75: 4, 0.875: 6, 1: 8} {
		near(t, "quantile", quantile([]float64{8, 3, 1, 4, 2}, p), want, 1e-12)
	}
}

// TestDoubtOfWhatLiesFarOff: within three spreads a reading counts as it is,
// beyond as one of three.
func TestDoubtOfWhatLiesFarOff(t *testing.T) {
	near(t, "near", withDoubt(2, 1, 0.5), 0.5, 1e-12)
	near(t, "far", withDoubt(-6, 1, 0.5), 36.0/9-1, 1e-12)
	m := plain()
	m.setPart(partWarmth, -3)
	m.setPart(partOxygen, -1)
	m.setPart(part(given), math.Log(1.2))
	if m.celsius != 0 || m.oxygen != 0 || m.nature[given] != 0.95 {
		t.Errorf("water of %g degC with %g mg/L of oxygen, %g of the feed given off", m.celsius, m.oxygen, m.nature[given])
	}
}
