package words

import (
	"strconv"
	"strings"
	"time"
)

// When reads a moment as people say it, in the zone of now: "07:12",
// "yesterday 18:00", "monday", "2 h ago", "2026-11-20", "2026-11-20 07:12",
// "2026-11-20T07:12:00Z". A day without a time is noon of it. A moment more
// than five minutes ahead is a Problem.
func When(text string, now time.Time) (time.Time, error) {
	t, ok := moment(strings.ToLower(strings.TrimSpace(text)), now)
	if !ok {
		return time.Time{}, problem("", badDate, "\""+text+"\" is no time I can read",
			"write it like 07:12, \"yesterday 18:00\", \"2 h ago\" or \"2026-11-20 07:12\"")
	}
	if t.Year() < 1900 || t.Year() > 2200 {
		return time.Time{}, problem("", badDate, "\""+text+"\" lies outside 1900 to 2200", "check the year")
	}
	if t.After(now.Add(5 * time.Minute)) {
		return time.Time{}, problem("", inTheFuture, "\""+text+"\" lies in the future", "note it once it has happened")
	}
	return t, nil
}

func moment(text string, now time.Time) (time.Time, bool) {
	if text == "" || text == "now" {
		return now, true
	}
	if t, ok := ago(text, now); ok {
		return t, true
	}
	for _, layout := range []string{time.RFC3339, "2006-01-02t15:04:05z07:00", "2006-01-02t15:04z07:00"} {
		if t, err := time.Parse(layout, strings.ToUpper(text)); err == nil {
			return t, true
		}
	}
	day, clock, _ := strings.Cut(strings.Replace(text, "t", " ", boolInt(strings.HasPrefix(text, "2") || strings.HasPrefix(text, "1"))), " ")
	if strings.Contains(day, ":") {
		day, clock = "today", day
	}
	date, ok := dayOf(day, now)
	if !ok {
		return time.Time{}, false
	}
	return atClock(date, strings.TrimSpace(clock))
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

// ago reads "2 h ago", "90min ago", "3 days ago".
func ago(text string, now time.Time) (time.Time, bool) {
	span, found := strings.CutSuffix(text, "ago")
	if !found {
		return time.Time{}, false
	}
	span = strings.ReplaceAll(span, " ", "")
	digits := strings.TrimRight(span, "abcdefghijklmnopqrstuvwxyz")
	n, err := strconv.ParseFloat(digits, 64)
	if err != nil || n < 0 || n > 1e5 {
		return time.Time{}, false
	}
	var unit time.Duration
	switch strings.TrimSuffix(span[len(digits):], "s") {
	case "m", "min", "minute":
		unit = time.Minute
	case "h", "hour":
		unit = time.Hour
	case "d", "day":
		unit = 24 * time.Hour
	case "w", "week":
		unit = 7 * 24 * time.Hour
	default:
		return time.Time{}, false
	}
	return now.Add(-time.Duration(n * float64(unit))), true
}

// dayOf reads "today", "yesterday", a weekday (the last one), "2026-11-20".
func dayOf(text string, now time.Time) (time.Time, bool) {
	y, m, d := now.Date()
	today := time.Date(y, m, d, 0, 0, 0, 0, now.Location())
	switch text {
	case "today":
		return today, true
	case "yesterday":
		return today.AddDate(0, 0, -1), true
	}
	for back := range 7 {
		day := today.AddDate(0, 0, -back)
		name := strings.ToLower(day.Weekday().String())
		if text == name || text == name[:3] {
			return day, true
		}
	}
	t, err := time.ParseInLocation("2006-01-02", text, now.Location())
	return t, err == nil
}

func atClock(day time.Time, text string) (time.Time, bool) {
	if text == "" {
		text = "12:00"
	}
	for _, layout := range []string{"15:04", "15:04:05", "3:04pm", "3:04 pm", "3pm"} {
		if c, err := time.Parse(layout, text); err == nil {
			y, m, d := day.Date()
			return time.Date(y, m, d, c.Hour(), c.Minute(), c.Second(), 0, day.Location()), true
		}
	}
	return time.Time{}, false
}

// Date reads a day, also one to come, and gives it as records keep it:
// YYYY-MM-DD.
func Date(text string, now time.Time) (string, error) {
	lower := strings.ToLower(strings.TrimSpace(text))
	day, ok := dayOf(lower, now)
	if lower == "tomorrow" {
		y, m, d := now.Date()
		day, ok = time.Date(y, m, d+1, 0, 0, 0, 0, now.Location()), true
	}
	if !ok || day.Year() < 1900 || day.Year() > 2200 {
		return "", problem("", badDate, "\""+text+"\" is no day I can read", "write it like 2026-11-20")
	}
	return day.Format("2006-01-02"), nil
}
