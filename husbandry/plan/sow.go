package plan

import (
	"cmp"
	"math"
	"slices"

	"freshet.example/husbandry/crop"
)

// A Line is one sowing of a sowing plan in one bed.
type Line struct {
	Crop   string
	Bed    int      // of the season's beds
	Area   float64  // m2
	Plants int      // at the middle of the usual stands; 0 where that is not known
	On     crop.Day // the Monday of the week
	SetOut bool     // set out as seedlings; else sown where it stands
	Tray   crop.Day // then the day to sow the seedlings; 0 where that is not known
	First  crop.Day // when it should first bear
	Last   crop.Day // the last day that it stands
}

// A Sowing is a sowing plan with how good it is. Weeks of bearing are counted
// over all crops: each week of each counts as far as its use is borne.
type Sowing struct {
	Lines     []Line      // by day, then crop
	Shares    [][]float64 // by crop and week: part of the use that is borne, by what stands already too
	Reachable [][]bool    // by crop and week: some sowing could bear then, or something bears already
	Wanted    int         // weeks to be served by what is sown, of all crops, that some sowing could reach
	Served    float64     // of these by this plan
	Bound     float64     // no plan can serve more
	Gaps      int         // of these weeks those in which less than three quarters of the use is borne
	Practice  Practice
	Cautions  []string
}

// Practice is how sowing every second week would do in the same beds.
type Practice struct {
	Served  float64
	Gaps    int
	Sowings int
}

// Sow plans a season's sowings (see Lay). The weeks counted are those that
// something sown can reach: before the first harvest that can be had, and in
// the cold, no plan helps.
func Sow(s Season) (Sowing, error) {
	t, err := s.task()
	if err != nil {
		return Sowing{}, err
	}
	out := Sowing{Reachable: make([][]bool, len(t.Wants))}
	for i := range t.Wants {
		out.Reachable[i] = t.reachable(t.Wants[i])
		for week, needed := range t.Wants[i].Needed {
			if t.Wants[i].Needed[week] = needed && out.Reachable[i][week]; t.Wants[i].Needed[week] {
				out.Wanted++
			}
		}
	}
	laid, err := Lay(t.Task)
	if err != nil {
		return out, err
	}
	usual := practice(t.Task)
	out.Served, out.Bound, out.Gaps = laid.Served, laid.Bound, gaps(t.Task, laid.Shares)
	out.Practice = Practice{usual.served(), gaps(t.Task, usual.share), len(usual.sown)}
	out.Lines = s.lines(t, laid.Sowings)
	out.Shares = laid.Shares
	s.addBorne(out)
	out.Cautions, err = s.cautions(out.Lines)
	return out, err
}

// gaps counts needed weeks in which less than enough is borne.
func gaps(t Task, shares [][]float64) int {
	n := 0
	for i, w := range t.Wants {
		for week, needed := range w.Needed {
			if needed && shares[i][week] < enough-dust {
				n++
			}
		}
	}
	return n
}

// dust is what rounding may leave; crumb, m2, is what is not sown where a sowing
// is spread over several beds and so little of it is left.
const (
	dust  = 1e-9
	crumb = 0.01
)

func (s Season) addBorne(out Sowing) {
	for i, w := range s.Crops {
		for week, share := range w.Borne {
			if week < s.Weeks {
				out.Shares[i][week] += share
				out.Reachable[i][week] = out.Reachable[i][week] || share > 0
			}
		}
	}
}

// lines puts sowings into beds, week by week: each into the bed of its room
// with the least room that holds it, so that large places stay whole, or spread
// over several where none does. What stands in a room never exceeds it, and
// beds only become free again, so there is always a place.
func (s Season) lines(t tasked, sowings []Chosen) []Line {
	free := make([][]float64, len(s.Beds))
	for i, b := range s.Beds {
		free[i] = slices.Clone(b.Free)
	}
	order := slices.SortedStableFunc(slices.Values(sowings), func(a, b Chosen) int {
		return cmp.Or(cmp.Compare(t.option(a).Sow, t.option(b).Sow), cmp.Compare(a.Want, b.Want), cmp.Compare(a.Option, b.Option))
	})
	var lines []Line
	for _, c := range order {
		o, area := t.option(c), c.Part*t.option(c).Area
		for area > crumb {
			bed := tightest(free, t.rooms[o.Room], o.Sow, area)
			part := min(area, free[bed][o.Sow])
			if part <= crumb {
				break
			}
			for week := o.Sow; week < o.gone(t.Weeks); week++ {
				free[bed][week] -= part
			}
			area -= part
			lines = append(lines, s.line(t, c, bed, part))
		}
	}
	return lines
}

func (t tasked) option(c Chosen) Option { return t.Wants[c.Want].Options[c.Option] }

// tightest is the bed with the least room that holds an area in a week, else the
// one with the most.
func tightest(free [][]float64, beds []int, week int, area float64) int {
	best := beds[0]
	for _, bed := range beds[1:] {
		a, b := free[bed][week], free[best][week]
		holds, held := a >= area-dust, b >= area-dust
		if holds && (!held || a < b) || !holds && !held && a > b {
			best = bed
		}
	}
	return best
}

func (s Season) line(t tasked, c Chosen, bed int, area float64) Line {
	o, w, how := t.option(c), s.Crops[c.Want], t.ways[c.Want][c.Option]
	l := Line{Crop: w.Crop.Name, Bed: bed, Area: area, On: s.Start + crop.Day(7*o.Sow), SetOut: how.setOut, First: how.first,
		Last: s.Start + crop.Day(7*o.To) - 1, Plants: int(math.Round(area * w.Crop.Density.Middle()))}
	if how.setOut && w.raising() > 0 {
		l.Tray = l.On - crop.Day(math.Floor(w.raising()))
	}
	return l
}

// cautions warns of crops that insects or wind must help where none come.
func (s Season) cautions(lines []Line) ([]string, error) {
	var list []string
	for _, l := range lines {
		i := slices.IndexFunc(s.Crops, func(w Wanted) bool { return w.Crop.Name == l.Crop })
		warning, err := crop.PollinationWarning(l.Crop, crop.Flowering{Covered: s.Beds[l.Bed].Covered, ByHand: s.Crops[i].ByHand})
		if err != nil {
			return nil, err
		}
		if warning != "" && !slices.Contains(list, warning) {
			list = append(list, warning)
		}
	}
	return list, nil
}
