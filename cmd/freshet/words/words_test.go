package words

import (
	"errors"
	"testing"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/quantity"
)

// now is a Wednesday morning in summer time.
var now = time.Date(2026, 7, 1, 7, 30, 0, 0, mustZone("Europe/Rome"))

func mustZone(name string) *time.Location {
	zone, err := time.LoadLocation(name)
	if err != nil {
		panic(err)
	}
	return zone
}

func TestMomentsAsPeopleSayThem(t *testing.T) {
	for text, want := range map[string]string{
		"": "2026-07-01 07:30", "now": "2026-07-01 07:30", "07:12": "2026-07-01 07:12", "today 6am": "2026-07-01 06:00",
		"yesterday 18:00": "2026-06-30 18:00", "Yesterday": "2026-06-30 12:00", "monday": "2026-06-29 12:00", "thu 9:05": "2026-06-25 09:05",
		"2 h ago": "2026-07-01 05:30", "90min ago": "2026-07-01 06:00", "3 days ago": "2026-06-28 07:30", "1 week ago": "2026-06-24 07:30",
		"2026-03-29 12:00": "2026-03-29 12:00", "2026-01-05": "2026-01-05 12:00", "2026-01-05T06:00:00Z": "2026-01-05 07:00",
		"2026-01-05T06:00": "2026-01-05 06:00", "7:34": "2026-07-01 07:34", // a clock a little ahead
	} {
		got, err := When(text, now)
		if err != nil || got.In(now.Location()).Format("2006-01-02 15:04") != want {
			t.Errorf("%q: %v, %v; want %s", text, got, err, want)
		}
	}
}

func TestMomentsThatAreNone(t *testing.T) {
	for text, want := range map[string]freshetv1.ErrorReason{
		"soon": badDate, "25:00": badDate, "2026-02-30": badDate, "-2 h ago": badDate, "x ago": badDate, "2 moons ago": badDate, "1e9 h ago": badDate,
		"0066-01-01": badDate, "2526-01-01": badDate, "23:00": inTheFuture, "2026-07-02": inTheFuture,
	} {
		wantProblem(t, text, want, func() error { _, err := When(text, now); return err })
	}
}

func TestDays(t *testing.T) {
	for text, want := range map[string]string{"today": "2026-07-01", "tomorrow": "2026-07-02", "Tue": "2026-06-30", "2026-11-20": "2026-11-20"} {
		if got, err := Date(text, now); err != nil || got != want {
			t.Errorf("%q: %q, %v", text, got, err)
		}
	}
	wantProblem(t, "a day to come without a year", badDate, func() error { _, err := Date("20 November", now); return err })
}

// wantProblem holds an error to its reason and to saying what to do.
func wantProblem(t *testing.T, what string, want freshetv1.ErrorReason, do func() error) {
	t.Helper()
	var p *Problem
	if err := do(); !errors.As(err, &p) || p.Reason != want || p.Hint == "" {
		t.Errorf("%s: %v, want %v with a hint", what, err, want)
	}
}

func TestReadingsKeepWhatWasTyped(t *testing.T) {
	for _, c := range []struct {
		quantity, text string
		kit            Kit
		want           string
	}{
		{"ph", "7,25", Kit{}, "pH 7.25"},
		{"water_temperature", "78F", Kit{}, "water temperature 78 °F"},
		{"total_ammonia", "<0.25 ppm as NH3", Kit{}, "total ammonia <0.25 mg/L as NH3"},
		{"total_ammonia", "0.50", Kit{Unit: quantity.UnitMgPerL, Basis: quantity.AsN}, "total ammonia 0.50 mg/L as N"},
		{"nitrate", "40 mg/L as NO3", Kit{Unit: quantity.UnitMmolPerL, Basis: quantity.AsN}, "nitrate 40 mg/L as NO3"},
		{"alkalinity", "5 dKH", Kit{}, "alkalinity 5 dKH"},
		{"salinity", "1.002 SG", Kit{}, "salinity 1.002 SG"},
	} {
		q, err := FindQuantity(c.quantity)
		if err != nil {
			t.Fatal(err)
		}
		r, err := Reading(q, c.text, c.kit)
		if err != nil {
			t.Errorf("%s %s: %v", c.quantity, c.text, err)
			continue
		}
		if got := NewBook(nil, nil).sayReading(r); got != c.want {
			t.Errorf("%s %s is told as %q, want %q", c.quantity, c.text, got, c.want)
		}
	}
}

func TestReadingsThatAreRefused(t *testing.T) {
	for _, c := range []struct {
		quantity, text string
		want           freshetv1.ErrorReason
	}{
		{"ph", "15", outOfRange}, {"ph", "NaN", malformed}, {"ph", "seven", malformed}, {"water_temperature", "20", unitMismatch},
		{"water_temperature", "-300 C", outOfRange}, {"total_ammonia", "0.5 mg/L", basisWrong}, {"total_ammonia", "1 furlong", unitMismatch},
		{"total_ammonia", "1e308 mg/L as N", unitMismatch}, {"total_ammonia", "1e9 mg/L as N", outOfRange}, {"clarity", "sparkling", unknownValue},
	} {
		q, err := FindQuantity(c.quantity)
		if err != nil {
			t.Fatal(err)
		}
		wantProblem(t, c.quantity+" "+c.text, c.want, func() error { _, err := Reading(q, c.text, Kit{}); return err })
	}
}

func TestMinutes(t *testing.T) {
	for text, want := range map[string]float64{"90": 90, "90min": 90, "1.5h": 90, "1h30": 90, "2 hours": 120, "0,5h": 30} {
		if got, err := minutes(text); err != nil || got != want {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	wantProblem(t, "an hour and a word", malformed, func() error { _, err := minutes("1h and a bit"); return err })
}

// Each noun's own example, as the help prints it, names fields it has.
func TestExamplesOfNounsName(t *testing.T) {
	for _, n := range Nouns {
		if n.Example == "" {
			t.Errorf("%s has no example", n.Name)
		}
		if found, err := FindNoun(n.Name); err != nil || found.Name != n.Name {
			t.Errorf("%s is found as %q, %v", n.Name, found.Name, err)
		}
	}
	wantProblem(t, "a noun that is none", unknownName, func() error { _, err := FindNoun("weather"); return err })
}

// What a source says in brackets is no hint.
func TestSentencesPartOutsideBrackets(t *testing.T) {
	for sentence, want := range map[string][2]string{
		"pH 15 is outside 2 to 13 (bounds of this program; common practice, no source)": {"pH 15 is outside 2 to 13 (bounds of this program; common practice, no source)", ""},
		"no base \"salt\" is known; known are KOH (caustic)":                            {"no base \"salt\" is known", "known are KOH (caustic)"},
		"1 is outside 2 to 3 (a; b); check it; twice":                                   {"1 is outside 2 to 3 (a; b)", "check it; twice"},
		"": {},
	} {
		if words, hint := Part(sentence); words != want[0] || hint != want[1] {
			t.Errorf("%s: %q, %q", sentence, words, hint)
		}
	}
}
