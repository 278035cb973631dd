package crop

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"freshet.example/husbandry/quantity"
)

func TestPace(t *testing.T) {
	lettuce, _ := Find("lettuce") // base 4 degC, well from 15 to 22 degC
	for _, c := range []struct {
		warmth quantity.Celsius
		light  quantity.Hours
		pace   float64
	}{{18.5, 12, 1}, {4, 12, 0}, {0, 12, 0}, {11.25, 12, 0.5}, {30, 12, 1}, {18.5, 9.9, 0}, {18.5, 0, 0}, {18.5, 10, 1}} {
		got, err := Pace(lettuce, c.warmth, c.light)
		if err != nil {
			t.Fatal(err)
		}
		same(t, "pace", got, nil, c.pace)
	}
	if got, err := Pace(Crop{}, 2, 12); got != 1 || err != nil {
		t.Errorf("of a crop without a base %v, %v", got, err)
	}
	for _, c := range []struct{ warmth, light float64 }{{61, 12}, {-61, 12}, {20, 25}, {20, -1}, {math.NaN(), 12}} {
		var out *quantity.RangeError
		if pace, err := Pace(lettuce, quantity.Celsius(c.warmth), quantity.Hours(c.light)); !errors.As(err, &out) || pace != 0 {
			t.Errorf("%v: %v", c, err)
		}
	}
}

// usual is the air of a place by week of the year, from a few of them.
func usual(celsius func(week int) quantity.Celsius) []quantity.Celsius {
	list := make([]quantity.Celsius, weeksOfYear)
	for i := range list {
		list[i] = celsius(i)
	}
	return list
}

// At the equator days are never short, so that a pace of a half takes twice the
// days, and warmth that changes is summed week by week.
func TestGoodDays(t *testing.T) {
	start, err := ParseDay("2026-01-01")
	if err != nil {
		t.Fatal(err)
	}
	half := Clime{0, usual(func(int) quantity.Celsius { return 11.25 })} // of lettuce, from 4 to 18.5 degC
	got, err := GoodDays("lettuce", start, start+30, half)
	same(t, "thirty half days", got, err, 15)
	warming := Clime{0, usual(func(week int) quantity.Celsius { return quantity.Celsius(4 + 1.45*float64(week)) })}
	got, err = GoodDays("lettuce", start, start+23, warming)
	same(t, "0, 1/10, 2/10 a day for a week each, then two of 3/10", got, err, 7*0.3+2*0.3)
	got, err = GoodDays("lettuce", start, start+23, Clime{})
	same(t, "where nothing is known", got, err, 23)
	// At 60 degrees north days are under ten hours from mid October to late February.
	dark := Clime{60, usual(func(int) quantity.Celsius { return 20 })}
	got, err = GoodDays("lettuce", start, start+40, dark)
	same(t, "in the dark", got, err, 0)
	got, err = GoodDays("lettuce", start+150, start+170, dark)
	same(t, "in June", got, err, 20)
	var out *quantity.RangeError
	for _, wrong := range []Clime{{91, half.Air}, {0, half.Air[:52]}, {0, usual(func(int) quantity.Celsius { return 61 })}} {
		days, err := GoodDays("lettuce", start, start+1, wrong)
		pace, of := wrong.pace(Crop{Base: Figure{4, 4, Memory}, Air: Figure{15, 22, Memory}}, start)
		on, till := wrong.through(Crop{}, start, 3)
		if !errors.As(err, &out) || !errors.As(of, &out) || !errors.As(till, &out) || days != 0 || pace != 0 || on != 0 {
			t.Errorf("%v: %v and %v, %v and %v, %v and %v", wrong.Latitude, days, err, pace, of, on, till)
		}
	}
	for _, to := range []Day{start - 1, start + 1001} {
		if days, err := GoodDays("lettuce", start, to, half); !errors.As(err, &out) || days != 0 {
			t.Errorf("to %v: %v, %v", to, days, err)
		}
	}
	if on, err := (Clime{0, usual(func(int) quantity.Celsius { return 4 })}).through(Crop{Base: Figure{4, 4, Memory}, Air: Figure{15, 22, Memory}}, start, 1); err == nil || on != 0 {
		t.Errorf("where nothing grows: %v, %v", on, err)
	}
	got, err = GoodDays("lettuce", start, start, half)
	same(t, "on one and the same day", got, err, 0)
	if days, err := GoodDays("triffid", start, start, half); err == nil || days != 0 {
		t.Error("a crop that is not in the table")
	}
}

// Windows at half the pace come in twice the days; own plantings are
// good days too, and what never comes is said so.
func TestBearingAtAPace(t *testing.T) {
	start := Day(0)
	half := Clime{0, usual(func(int) quantity.Celsius { return 11.25 })}
	good, err := BearingWindow(Planting{"lettuce", start, true, 2}, []Past{{true, 40, 0}}, Clime{})
	if err != nil {
		t.Fatal(err)
	}
	slow, err := BearingWindow(Planting{"lettuce", start, true, 2}, []Past{{true, 40, 0}}, half)
	if err != nil || slow.First != 2*good.First || slow.Early != 2*good.Early || slow.Late != 2*good.Late || slow.Last-slow.First != good.Last-good.First || slow.Basis != "good days" || good.Basis != "days" {
		t.Errorf("%+v, %v; in good weather %+v", slow, err, good)
	}
	var never *NeverError
	cold := Clime{0, usual(func(int) quantity.Celsius { return 4 })}
	if _, err := BearingWindow(Planting{"lettuce", start, true, 2}, nil, cold); !errors.As(err, &never) || err.Error() != "lettuce does not come to bear there: it is too cool or too dark" {
		t.Error(err)
	}
}

// Under cover and in the open each has its own gap; in the dark nothing is sown that
// next week's sowing would serve as soon.
func TestSowingAtAPace(t *testing.T) {
	half := Clime{0, usual(func(int) quantity.Celsius { return 11.25 })}
	cold := Clime{0, usual(func(int) quantity.Celsius { return 4 })}
	open := Bed{Name: "open", Free: []quantity.SquareMetres{9}, Clime: half}
	covered := Bed{Name: "covered", Covered: true, Free: []quantity.SquareMetres{1}, Clime: Clime{0, usual(func(int) quantity.Celsius { return 20 })}}
	sow := func(perWeek quantity.Kilograms, beds ...Bed) (said []string) {
		list, err := SowThisWeek(nil, []Want{{Crop: "lettuce", PerWeek: perWeek, Transplant: true}}, beds, Season{0, -1, 1000})
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range list {
			said = append(said, fmt.Sprintf("%s %.2f %d", l.Bed, float64(l.Area), l.First))
		}
		return said
	}
	// 3.75 kg/m2 over two weeks: 0.5 kg a week is borne by 0.27 m2. Under cover it
	// bears from day 28, in the open from 56, when that under cover is through.
	for _, c := range []struct {
		perWeek quantity.Kilograms
		beds    []Bed
		want    string
	}{
		{0.5, []Bed{open, covered}, "[covered 0.27 28 open 0.27 56]"},
		{0.5, []Bed{open}, "[open 0.27 56]"},
		{4, []Bed{covered, open}, "[covered 1.00 28 open 2.13 56]"},
		{4, []Bed{covered}, "[covered 1.00 28  0.00 28]"},
	} {
		if got := fmt.Sprint(sow(c.perWeek, c.beds...)); got != c.want {
			t.Errorf("%v kg a week: %s, want %s", c.perWeek, got, c.want)
		}
	}
	// Days are shorter than ten hours at 60 degrees north until the end of February.
	covered.Clime.Latitude = 60
	for day, want := range map[Day]string{52: "0.00 sown next week it bears as soon, from about 29 Mar: now nothing grows", 53: "0.27 to pick from 29 Mar to 11 Apr; without it nothing of the 0.5 kg a week"} {
		list, err := SowThisWeek(nil, []Want{{Crop: "lettuce", PerWeek: 0.5, Transplant: true}}, []Bed{covered}, Season{day, -1, 1000})
		if err != nil || len(list) != 1 || fmt.Sprintf("%.2f %s", float64(list[0].Area), list[0].Reason) != want {
			t.Errorf("sown on day %d: %+v, %v", day, list, err)
		}
	}
	covered.Clime, open.Clime = cold, cold
	list, err := SowThisWeek(nil, []Want{{Crop: "lettuce", PerWeek: 1, Transplant: true}}, []Bed{open, covered}, Season{0, -1, 1000})
	if err != nil || len(list) != 1 || list[0].Reason != "too cool or too dark for it to come to bear" {
		t.Errorf("%+v, %v", list, err)
	}
	covered.Clime.Latitude, covered.Clime.Air = 95, half.Air
	var out *quantity.RangeError
	if _, err := SowThisWeek(nil, []Want{{Crop: "lettuce", PerWeek: 1, Transplant: true}}, []Bed{covered}, Season{0, -1, 1000}); !errors.As(err, &out) {
		t.Error(err)
	}
}

// TestPaceIsAShare, 0 to 1, that warmth only hastens up to the middle of what a crop
// likes, and that stands still in the dark.
func TestPaceIsAShare(t *testing.T) {
	names := []string{"lettuce", "tomato", "basil", "kale", "cucumber", "radish", "okra", "spinach"}
	r := seeded()
	for range someCases {
		c, err := Find(names[r.IntN(len(names))])
		if err != nil {
			t.Fatal(err)
		}
		cold, light := quantity.Celsius(-60+110*r.Float64()), quantity.Hours(24*r.Float64())
		slow, first := Pace(c, cold, light)
		fast, second := Pace(c, cold+10*quantity.Celsius(r.Float64()), light)
		dark, third := Pace(c, cold, light*10/24)
		if first != nil || second != nil || third != nil || slow < 0 || fast > 1 || slow > fast || dark != 0 {
			t.Fatalf("%s at %v in %v h: %g, warmer %g, in the dark %g; %v %v %v", c.Name, cold, light, slow, fast, dark, first, second, third)
		}
	}
}
