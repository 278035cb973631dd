package crop

import (
	"testing"
	"time"
)

func TestDaysAgreeWithTheStandardLibrary(t *testing.T) {
	epoch := time.Date(1970, 1, 1, 0, 0, 0, 0, time.UTC)
	first := int(time.Date(1, 1, 1, 0, 0, 0, 0, time.UTC).Unix() / 86400)
	for n := first; n < 200000; n += 13 {
		d, date := Day(n), epoch.AddDate(0, 0, n)
		year, month, day := d.Date()
		if year != date.Year() || month != int(date.Month()) || day != date.Day() {
			t.Fatalf("day %d is %v, got %d-%d-%d", n, date, year, month, day)
		}
		if d.Year() != date.Year() || d.YearDay() != date.YearDay() || d.String() != date.Format(time.DateOnly) {
			t.Fatalf("day %d is %v, got %d, %d, %s", n, date, d.Year(), d.YearDay(), d)
		}
		if back, err := DayOf(year, month, day); err != nil || back != d {
			t.Fatalf("%s came back as %v, %v", d, back, err)
		}
		if read, err := ParseDay(d.String()); err != nil || read != d {
			t.Fatalf("%s was read as %v, %v", d, read, err)
		}
		monday := d.Monday()
		if epoch.AddDate(0, 0, int(monday)).Weekday() != time.Monday || monday > d || d-monday > 6 {
			t.Fatalf("%s begins its week on %s", d, monday)
		}
	}
}

func TestDaysAroundLeapDays(t *testing.T) {
	for year := 1899; year <= 2101; year++ {
		for month := 1; month <= 12; month++ {
			for _, day := range []int{1, 28} {
				date := time.Date(year, time.Month(month), day, 0, 0, 0, 0, time.UTC)
				d, err := DayOf(year, month, day)
				if err != nil || int64(d) != date.Unix()/86400 {
					t.Fatalf("%v is day %d, got %d, %v", date, date.Unix()/86400, d, err)
				}
				if y, m, dd := d.Date(); y != year || m != month || dd != day {
					t.Fatalf("%v came back as %d-%d-%d", date, y, m, dd)
				}
			}
		}
	}
	for year, last := range map[int]int{1900: 28, 2000: 29, 2023: 28, 2024: 29, 2100: 28} {
		if _, err := DayOf(year, 2, last); err != nil {
			t.Errorf("%d: %v", year, err)
		}
		if _, err := DayOf(year, 2, last+1); err == nil {
			t.Errorf("%d has a %dth of February", year, last+1)
		}
	}
}

func TestDaysOfTheFarPast(t *testing.T) {
	d, err := DayOf(1, 1, 1)
	if err != nil || d != -719162 || d.String() != "0001-01-01" {
		t.Errorf("the first day is %d, %s, %v", d, d, err)
	}
	if leap, err := DayOf(2000, 2, 29); err != nil || leap.String() != "2000-02-29" || leap != 11016 {
		t.Errorf("the last day of a cycle of 400 years is %d, %s, %v", leap, leap, err)
	}
	far, err := DayOf(9999, 12, 31)
	if err != nil || far.String() != "9999-12-31" || far != 2932896 {
		t.Errorf("the last day is %d, %s, %v", far, far, err)
	}
}

func TestParseDayRefuses(t *testing.T) {
	for _, text := range []string{"", "2026", "2026-05", "2026-05-01-02", "2026-x-01", "x-05-01", "2026-05-x", "2026-02-30", "2026-13-01", "0-1-1"} {
		if d, err := ParseDay(text); err == nil || d != 0 {
			t.Errorf("%q was read as %s", text, d)
		}
	}
}

func TestDayOfSeason(t *testing.T) {
	for _, c := range []struct {
		date       string
		month, day int
		want       int
	}{
		{"2026-04-20", 1, 1, 110}, {"2026-01-01", 1, 1, 1}, {"2026-07-01", 7, 1, 1}, {"2026-06-30", 7, 1, 365}, {"2024-06-30", 7, 1, 366}, {"2026-10-01", 7, 1, 93},
	} {
		d, _ := ParseDay(c.date)
		if got, err := DayOfSeason(d, c.month, c.day); err != nil || got != c.want {
			t.Errorf("%s is day %d of the season from %d-%d, got %d, %v", c.date, c.want, c.month, c.day, got, err)
		}
	}
	if _, err := DayOfSeason(0, 13, 1); err == nil {
		t.Error("there is no thirteenth month")
	}
}
