package sheet

import (
	"testing"
	"time"
)

// What a column means is said as the dry run says it.
func TestGuessesOfHeaders(t *testing.T) {
	for header, want := range map[string]string{
		"Date": "when", "timestamp": "when", "Time": "time of day", "Tank": "where", "parameter": "what was measured", "Result": "its value", "Units": "its unit",
		"pH": "pH", "Temp °F": "water temperature in °F", "water_temp_c": "water temperature in °C", "Ammonia (ppm as NH3)": "total ammonia in ppm as NH3",
		"Nitrate [mg/L as NO3]": "nitrate in mg/L as NO3", "NO2 mg/L": "nitrite in mg/L", "DO (mg/L)": "dissolved oxygen in mg/L", "KH dKH": "alkalinity in dKH",
		"Feed g": "feeding in g", "Dead": "death", "Remarks": "note", "Moon": "left out", "": "left out",
	} {
		if got := guess(header).Says(); got != want {
			t.Errorf("%q is taken for %q, want %q", header, got, want)
		}
	}
}

func TestOrderOfDayAndMonth(t *testing.T) {
	for _, c := range []struct {
		days []string
		want string
	}{
		{[]string{"2026-03-04", "2026/3/5"}, YearFirst}, {[]string{"3/4/2026", "13/4/2026"}, DayFirst}, {[]string{"3/4/2026", "3/14/2026"}, MonthFirst},
		{[]string{"3/4/2026", "4/4/2026"}, OrderUnknown}, {[]string{"4.3.26", "31.3.26"}, DayFirst}, {[]string{"Jan 2, 2026"}, MonthFirst}, {[]string{"2 Jan 2026"}, DayFirst},
	} {
		if got := orderOf(c.days, time.UTC); got != c.want {
			t.Errorf("%v: %q, want %q", c.days, got, c.want)
		}
	}
}
