package sheet

import (
	"strconv"
	"strings"
	"time"
)

// zoneOff takes what tells the zone off the end of a time: an offset, Z or UTC
// tell it whole; a name such as CET must be one of the sheet's own zone, since
// elsewhere the same letters are another time. Of another name the zone is nil.
func zoneOff(text string, own *time.Location) (rest string, zone *time.Location) {
	if !strings.Contains(text, ":") {
		return text, own
	}
	if rest, ok := strings.CutSuffix(text, "Z"); ok {
		return rest, time.UTC
	}
	for _, layout := range []string{"-07:00", "-0700", "-07"} {
		cut := max(len(text)-len(layout), 0)
		if t, err := time.Parse(layout, text[cut:]); err == nil && strings.Contains(text[:cut], ":") {
			return strings.TrimSpace(text[:cut]), t.Location()
		}
	}
	name := zoneNamed(text)
	return strings.TrimSpace(strings.TrimSuffix(text, name)), called(name, own)
}

// called is the zone that a name means where a sheet comes from: CET is an hour
// before UTC in summer too, whatever clocks do then. No name is its own zone.
func called(name string, own *time.Location) *time.Location {
	switch name {
	case "":
		return own
	case "UTC", "GMT":
		return time.UTC
	}
	for _, month := range []time.Month{time.January, time.July} {
		if n, offset := time.Date(2026, month, 1, 0, 0, 0, 0, own).Zone(); n == name {
			return time.FixedZone(n, offset)
		}
	}
	return nil
}

// zoneNamed is the name of a zone at the end of a time; empty where there is none.
func zoneNamed(text string) string {
	at := strings.LastIndexByte(text, ' ')
	name := text[at+1:]
	if at < 0 || len(name) < 3 || strings.Trim(name, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "" || !strings.Contains(text, ":") {
		return ""
	}
	return name
}

// sinceEpoch reads seconds or milliseconds since 1970, as probes write them.
func sinceEpoch(text string) (time.Time, bool) {
	n, err := strconv.ParseInt(text, 10, 64)
	switch {
	case err == nil && len(text) == len("1700000000"):
		return time.Unix(n, 0), true
	case err == nil && len(text) == len("1700000000000"):
		return time.UnixMilli(n), true
	}
	return time.Time{}, false
}
