package crop

import (
	"errors"
	"math"
	"slices"
	"sort"
	"strconv"

	"freshet.example/husbandry/quantity"
)

// A Bed is room for planting.
type Bed struct {
	Name    string
	Covered bool                    // frost does not reach it
	Clime   Clime                   // where it stands; alike for all that are covered, and for all that are not
	Free    []quantity.SquareMetres // free area in each week from this one, each 0 to 1,000,000; the last stands for all later weeks
}

// A Season bounds what can stand in the open. With cover, or where there is no
// frost, LastFrost lies before Today and FirstFrost far ahead.
type Season struct {
	Today      Day
	LastFrost  Day // after this tender plants may stand in the open
	FirstFrost Day // from this day they may not
}

// A Sowing is one line of the week's list: what to sow where, and why; or what
// is not to be sown, and why not, with Area 0.
type Sowing struct {
	Crop   string
	Bed    string
	Area   quantity.SquareMetres
	Plants int // at the middle of the usual stands; 0 where the stand is not known
	First  Day // when it should first bear
	Reason string
}

// least is the smallest area worth a line, m2: a single pot.
const least = 0.05

// SowThisWeek returns what to sow or set out this week. A sowing serves the
// weeks from its first harvest; a week that next week's sowing can still serve
// is left to it, as all are where nothing grows meanwhile, so only a gap in the
// very first week of harvest asks for a sowing now. Wants are served in their
// order, each from the beds with the most room for as long as the crop stands;
// the greedy choice may not be the best one. Every want gets at least one line,
// with its reason.
func SowThisWeek(windows []Window, wants []Want, beds []Bed, season Season) ([]Sowing, error) {
	for _, b := range beds {
		if err := b.check(); err != nil {
			return nil, err
		}
	}
	room := copyOf(beds)
	list := []Sowing{}
	for _, want := range wants {
		if err := want.check(); err != nil {
			return nil, err
		}
		lines, err := sowWant(windows, want, room, season)
		if err != nil {
			return nil, err
		}
		list = append(list, lines...)
	}
	return list, nil
}

// sowWant returns the lines of one want and takes its area out of the room. Under
// cover a crop may come to bear weeks before it would in the open, so each has its
// own gap to close; what is sown under cover counts in the open.
func sowWant(windows []Window, want Want, room []Bed, season Season) ([]Sowing, error) {
	c, err := Find(want.Crop)
	if err != nil {
		return nil, err
	}
	if c.Kind == PerennialFruit {
		return []Sowing{{Crop: c.Name, Reason: "stands for years: plan it as a perennial, not week by week"}}, nil
	}
	var sown, short, refused []Sowing
	for _, beds := range climes(room) {
		lines, of, err := sowIn(windows, c, want, beds, season)
		if err != nil {
			return nil, err
		}
		if of == nil {
			refused = append(refused, lines...)
			continue
		}
		short = nil
		for _, l := range lines {
			if l.Area == 0 {
				short = append(short, l)
				continue
			}
			sown = append(sown, l)
			windows = append(slices.Clip(windows), of.on(l.Area))
		}
	}
	if len(sown)+len(short) == 0 {
		return refused[:1], nil
	}
	return append(sown, short...), nil
}

// on is the window of an area, from that of a square metre.
func (w Window) on(area quantity.SquareMetres) Window {
	w.Planting.Area, w.PerWeek = area, w.PerWeek*quantity.Kilograms(area)
	return w
}

// climes parts beds by cover where their climes are known: covered ones first.
func climes(room []Bed) [][]Bed {
	if !slices.ContainsFunc(room, func(b Bed) bool { return b.Clime.Air != nil }) {
		return [][]Bed{room}
	}
	sort.SliceStable(room, func(i, j int) bool { return room[i].Covered && !room[j].Covered })
	open := slices.IndexFunc(room, func(b Bed) bool { return !b.Covered })
	if open < 1 {
		return [][]Bed{room}
	}
	return [][]Bed{room[:open], room[open:]}
}

// sowIn returns the lines of a want in beds of one clime, and the window of a
// square metre there; no window where there is nothing to sow.
func sowIn(windows []Window, c Crop, want Want, room []Bed, season Season) ([]Sowing, *Window, error) {
	refuse := func(why string) ([]Sowing, *Window, error) { return []Sowing{{Crop: c.Name, Reason: why}}, nil, nil }
	var where Clime
	if len(room) > 0 {
		where = room[0].Clime
	}
	of, err := BearingWindow(Planting{c.Name, season.Today, want.Transplant, 1}, want.Past, where)
	var never *NeverError
	var outside *quantity.RangeError
	switch {
	case errors.As(err, &never):
		return refuse("too cool or too dark for it to come to bear")
	case errors.As(err, &outside):
		return nil, nil, err
	case err != nil:
		return refuse("no days to harvest are known for this way of planting")
	}
	supply := Supply(windows, c.Name, of.First)
	if stateOf(supply, want.PerWeek) != Gap {
		return refuse("served already: " + kg(supply) + " a week from " + of.First.Words() + ", and " + kg(want.PerWeek) + " is used")
	}
	nextWeek := of.Planting
	nextWeek.Planted += 7
	later, err := BearingWindow(nextWeek, want.Past, where)
	if err == nil && later.First == of.First {
		return refuse("sown next week it bears as soon, from about " + of.First.Words() + ": now nothing grows")
	}
	lines, left := plant(c, of, areaToClose(want.PerWeek-supply, of), room, season)
	for i := range lines {
		lines[i].Reason = needed(supply, want.PerWeek, of)
	}
	if len(lines) == 0 && left < least {
		return refuse("what is missing would fill less than a pot")
	}
	if left >= least {
		lines = append(lines, Sowing{Crop: c.Name, First: of.First, Reason: shortReason(c, of, left, season)})
	}
	return lines, &of, nil
}

// needed says what a sowing is for: when it bears, and what there would be without it.
func needed(supply, use quantity.Kilograms, of Window) string {
	without := "nothing"
	if supply >= 0.05 { // what is shown as less is none to eat
		without = "only " + kg(supply)
	}
	return "to pick from " + of.First.Words() + " to " + of.Last.Words() + "; without it " + without + " of the " + kg(use) + " a week"
}

// plant puts the area into the beds with the most room, and returns what found
// none.
func plant(c Crop, of Window, area quantity.SquareMetres, room []Bed, season Season) ([]Sowing, quantity.SquareMetres) {
	lines := []Sowing{}
	weeks := int(of.Last-season.Today)/7 + 1
	for area >= least {
		bed := roomiest(c, of, weeks, room, season)
		if bed == nil {
			break
		}
		part := min(area, bed.free(weeks))
		bed.take(part, weeks)
		area -= part
		lines = append(lines, Sowing{Crop: c.Name, Bed: bed.Name, Area: part, Plants: plantsOn(c, part), First: of.First})
	}
	return lines, area
}

// roomiest returns the bed that may take the crop and has the most room over
// the weeks, or nil when none has any.
func roomiest(c Crop, of Window, weeks int, room []Bed, season Season) *Bed {
	var best *Bed
	most := quantity.SquareMetres(least)
	for i := range room {
		b := &room[i]
		if (b.Covered || standsOpen(c, of, season)) && b.free(weeks) >= most {
			best, most = b, b.free(weeks)
		}
	}
	return best
}

// StandsOpen reports whether a crop of the table can be sown in the open today and
// bear there from another day on. Between the frosts it can, and so many days nearer
// to them as its Hardiness has grace; what is hardy may stand over the winter too, but
// is neither sown in frozen ground nor grows in it.
func StandsOpen(crop string, first Day, season Season) (bool, error) {
	c, err := Find(crop)
	return err == nil && standsOpen(c, Window{First: first}, season), err
}

func standsOpen(c Crop, of Window, season Season) bool {
	grace := c.Frost.Grace()
	if c.Frost == Hardy {
		return season.grows(season.Today, 0, grace) && season.grows(of.First, 7, grace)
	}
	return season.Today > season.LastFrost-grace && of.First+7 <= season.FirstFrost+grace
}

// grows reports whether a day, and so many after it, lie between the frosts of a
// year, or so near them that it does no harm.
func (s Season) grows(day, more, grace Day) bool {
	const year = 365
	for _, past := range []Day{-year, 0, year} {
		if day > s.LastFrost-grace+past && day+more <= s.FirstFrost+grace+past {
			return true
		}
	}
	return false
}

func shortReason(c Crop, of Window, left quantity.SquareMetres, season Season) string {
	why := "no bed has room for another " + m2(left) + " from now to " + of.Last.Words()
	if !standsOpen(c, of, season) {
		why += "; in the open frost would reach it"
	}
	return why
}

func (b Bed) check() error {
	for _, area := range b.Free {
		if err := freeBound.check(float64(area)); err != nil {
			return err
		}
	}
	return nil
}

// free returns the least free area in the weeks from this one.
func (b Bed) free(weeks int) quantity.SquareMetres {
	if len(b.Free) == 0 {
		return 0
	}
	return slices.Min(b.Free[:min(weeks, len(b.Free))])
}

// take uses area in the weeks from this one, writing out weeks that the last
// entry stood for.
func (b *Bed) take(area quantity.SquareMetres, weeks int) {
	for len(b.Free) <= weeks {
		b.Free = append(b.Free, b.Free[len(b.Free)-1])
	}
	for i := range weeks {
		b.Free[i] -= area
	}
}

func copyOf(beds []Bed) []Bed {
	room := slices.Clone(beds)
	for i := range room {
		room[i].Free = slices.Clone(room[i].Free)
	}
	return room
}

func plantsOn(c Crop, area quantity.SquareMetres) int {
	return int(math.Round(c.Density.Middle() * float64(area)))
}

func kg(v quantity.Kilograms) string    { return short(float64(v)) + " kg" }
func m2(v quantity.SquareMetres) string { return short(float64(v)) + " m2" }

func short(v float64) string { return strconv.FormatFloat(v, 'f', 1, 64) }
