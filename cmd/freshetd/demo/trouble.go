package demo

// troubleKind is something that goes wrong.
type troubleKind int

const (
	filterCleanedTooWell troubleKind = iota
	powerCut
	oxygenDrift
	phSlide
	holiday
	heaterFails
	phDrift
	nitrateAsN
)

// trouble begins at noon so many days before today, or later.
type trouble struct {
	kind  troubleKind
	day   int
	hours int
	late  int // hours after noon
}

// during says whether such trouble holds in an hour counted back from today's midnight.
func (g *grower) during(kind troubleKind, daysAgo, hour int) bool {
	_, ok := g.inTrouble(kind, daysAgo, hour)
	return ok
}

// inTrouble gives the hours since it began.
func (g *grower) inTrouble(kind troubleKind, daysAgo, hour int) (int, bool) {
	for _, t := range g.trouble {
		since := (t.day-daysAgo)*24 + hour - 12 - t.late
		if t.kind == kind && since >= 0 && since < t.hours {
			return since, true
		}
	}
	return 0, false
}
