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

// Times that tell their zone, beside what they are in UTC; "" where the zone is
// none of the sheet's.
func TestTimesThatTellTheirZone(t *testing.T) {
	paris, err := time.LoadLocation("Europe/Paris")
	if err != nil {
		t.Fatal(err)
	}
	now := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	for text, want := range map[string]string{
		"2021-06-19 10:00": "2021-06-19T08:00:00Z", "2021-06-19 10:00 CEST": "2021-06-19T08:00:00Z", "2021-06-19 10:00 CET": "2021-06-19T09:00:00Z",
		"2021-06-19 10:00 UTC": "2021-06-19T10:00:00Z", "2021-06-19T10:00:05Z": "2021-06-19T10:00:05Z", "2021-06-19 10:00:05.25+05:30": "2021-06-19T04:30:05.25Z",
		"2021-06-19 10:00-0400": "2021-06-19T14:00:00Z", "2021-06-19 10:00 EST": "", "1624096800": "2021-06-19T10:00:00Z", "1624096800500": "2021-06-19T10:00:00.5Z",
		"2021-06-19": "2021-06-19T10:00:00Z", "2021-06-19 3:00 PM": "2021-06-19T13:00:00Z", "16240968001": "",
	} {
		c := calendar{order: YearFirst, zone: paris, now: now}
		got, err := c.moment(text, "")
		if said := got.UTC().Format(time.RFC3339Nano); err == nil && said != want || (err != nil) != (want == "") {
			t.Errorf("%q is %s, want %q: %v", text, said, want, err)
		}
	}
}
