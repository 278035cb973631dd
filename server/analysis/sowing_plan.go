package analysis

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"github.com/google/uuid"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/crop"
	"freshet.example/husbandry/plan"
)

// usualWeeks is how far a sowing plan reaches where nothing is said.
const usualWeeks = 52

// PlanSowing lays out the season's sowings from what stands and bears now.
func (s *Service) PlanSowing(ctx context.Context, in *freshetv1.PlanSowingRequest) (*freshetv1.PlanSowingResponse, error) {
	weeks := int(in.GetWeeks())
	if weeks == 0 {
		weeks = usualWeeks
	}
	if weeks < 4 || weeks > 104 {
		return nil, &FieldError{"weeks", "is not from 4 to 104"}
	}
	place, err := s.picture(ctx, in.GetSiteId())
	if err != nil {
		return nil, err
	}
	at := s.at(in.GetAt())
	g, err := place.growing(ctx, at)
	if err != nil {
		return nil, err
	}
	season := g.ahead(weeks)
	missing := g.missingFor(&season)
	if len(season.Crops) == 0 {
		return nil, &TooLittleError{"no crop is wanted that the crop table knows", "say what the household uses in a week, crop by crop"}
	}
	more, err := g.carried(ctx, &season, at)
	if err != nil {
		return nil, err
	}
	missing = append(missing, more...)
	season.Climate.Open, season.Climate.Covered = weekly(g.open, season), weekly(g.covered, season)
	if season.Climate.Open == nil {
		missing = append(missing, "Air temperature through the year: until it is noted, days to harvest are those of good weather")
	}
	laid, err := plan.Sow(season)
	if err != nil {
		return nil, err
	}
	return g.planned(season, laid, missing), nil
}

// ahead is the season as the beds stand, from the next Monday.
func (g *growing) ahead(weeks int) plan.Season {
	start := (g.today + 6).Monday()
	s := plan.Season{Start: start, Weeks: weeks, Warm: g.warm(start, weeks)}
	if g.Site.Latitude != nil {
		s.Climate.Latitude = crop.Degrees(*g.Site.Latitude)
	}
	for _, b := range g.Beds {
		if freshetv1.BedKind(b.Kind) == freshetv1.BedKind_BED_KIND_TRAY {
			continue // seedlings stand there, not crops
		}
		water := freshetv1.BedKind(b.Kind) == freshetv1.BedKind_BED_KIND_RAFT || freshetv1.BedKind(b.Kind) == freshetv1.BedKind_BED_KIND_CHANNEL
		bed := plan.Bed{Name: b.Name, Covered: b.Covered, Loop: b.SystemID != uuid.Nil, Water: water}
		for week := range weeks {
			bed.Free = append(bed.Free, math.Max(0, b.AreaM2-g.taken(b.ID, start+crop.Day(7*week))))
		}
		s.Beds = append(s.Beds, bed)
	}
	return s
}

// missingFor adds the wanted crops to the season, and says which it cannot plan.
func (g *growing) missingFor(s *plan.Season) []string {
	var missing []string
	for _, want := range g.wants() {
		habit, err := plan.HabitOf(want.Crop)
		if err != nil {
			missing = append(missing, want.Crop+": it is not in the crop table, or without a yield")
			continue
		}
		if habit.Crop.Kind == crop.PerennialFruit {
			missing = append(missing, want.Crop+" stands for years and is not planned by the week")
			continue
		}
		g.ownHabit(&habit, want)
		w := plan.Wanted{Habit: habit, PerWeek: want.PerWeek, Raised: g.raises(), ByHand: g.byHand(habit.Crop.Name)}
		for week := range s.Weeks {
			w.Borne = append(w.Borne, float64(crop.Supply(g.windows(), habit.Crop.Name, s.Start+crop.Day(7*week))/want.PerWeek))
		}
		s.Crops = append(s.Crops, w)
	}
	return missing
}

// ownHabit draws the table's days towards the grower's own, and takes what she
// set for the crop instead of both.
func (g *growing) ownHabit(h *plan.Habit, want crop.Want) {
	drawn := func(into *float64, table crop.Figure, transplant bool, days func(crop.Past) float64) {
		var own []float64
		for _, p := range want.Past {
			if p.Transplant == transplant && days(p) > 0 {
				own = append(own, days(p))
			}
		}
		if e, err := crop.Shrink(table, own); err == nil && len(own) > 0 {
			*into = e.Mean
		}
	}
	drawn(&h.FromSowing, h.Crop.FromSowing, false, func(p crop.Past) float64 { return p.ToFirst })
	drawn(&h.FromTransplant, h.Crop.FromTransplant, true, func(p crop.Past) float64 { return p.ToFirst })
	for _, c := range g.Crops {
		if c.Crop != want.Crop {
			continue
		}
		for into, set := range map[*float64]float64{&h.FromSowing: c.DaysToBearing, &h.Bearing: c.BearingDays, &h.PerM2: c.YieldKgPerM2} {
			if set > 0 {
				*into = set
			}
		}
	}
}

// raises tells whether the grower raises seedlings: she has a tray, or set some out.
func (g *growing) raises() bool {
	for _, b := range g.Beds {
		if freshetv1.BedKind(b.Kind) == freshetv1.BedKind_BED_KIND_TRAY {
			return true
		}
	}
	for _, past := range g.past {
		if slices.ContainsFunc(past, func(p crop.Past) bool { return p.Transplant }) {
			return true
		}
	}
	return false
}

// byHand tells whether she set fruit of the crop by hand before.
func (g *growing) byHand(name string) bool {
	for _, p := range g.Plantings {
		if p.HandPollinated && strings.EqualFold(p.Crop, name) {
			return true
		}
	}
	return false
}

// carried bounds what stands in loops by the feed of the last weeks, less what
// stands there already. Where no feed is noted nothing is bound.
func (g *growing) carried(ctx context.Context, s *plan.Season, at time.Time) ([]string, error) {
	fed := 0.0
	for _, system := range g.Systems {
		l := &loop{g.site, system}
		f, err := l.fed(ctx, at.AddDate(0, 0, -feedDays), at)
		if err != nil {
			return nil, err
		}
		fed += f.grams / feedDays
	}
	if fed == 0 {
		return []string{"Feed of the last four weeks: until it is noted, nothing bounds what stands in loops"}, nil
	}
	for week := range s.Weeks {
		left := fed
		for _, st := range g.stands {
			day := s.Start + crop.Day(7*week)
			if st.bed.SystemID == uuid.Nil || st.known && st.window.Last < day {
				continue
			}
			if ratio, err := crop.FeedRatio(st.Crop); err == nil {
				left -= ratio.Middle() * g.area(st.Planting)
			}
		}
		s.Feed = append(s.Feed, math.Max(0, left))
	}
	return nil, nil
}

// feedDays is over how many days feed is averaged.
const feedDays = 28

func (g *growing) planned(season plan.Season, laid plan.Sowing, missing []string) *freshetv1.PlanSowingResponse {
	out := &freshetv1.PlanSowingResponse{
		FromOn: season.Start.String(), WantedWeeks: uint32(laid.Wanted), ServedWeeks: laid.Served, BoundWeeks: laid.Bound,
		GapsCount: uint32(laid.Gaps), PracticeGapsCount: uint32(laid.Practice.Gaps), PracticeSowingsCount: uint32(laid.Practice.Sowings),
		Cautions: laid.Cautions, Missing: missing,
		Source: "best mixture of seasons (Dantzig & Wolfe 1960) with its bound; crop table drawn towards own past plantings; pace by warmth and ten hours of light; feed a square metre by FAO 589",
	}
	for _, l := range laid.Lines {
		line := &freshetv1.PlannedSowing{Crop: l.Crop, BedName: season.Beds[l.Bed].Name, Area: estimate(l.Area, "m2"), PlantsCount: uint32(l.Plants),
			WeekOn: l.On.String(), SetOut: l.SetOut, BearsFromOn: l.First.String(), EndsOn: l.Last.String()}
		if l.Tray != 0 {
			line.TrayOn = l.Tray.String()
		}
		for _, b := range g.Beds {
			if b.Name == line.BedName {
				line.BedId = b.ID.String()
			}
		}
		out.Sowings = append(out.Sowings, line)
	}
	for i, w := range season.Crops {
		out.Crops = append(out.Crops, &freshetv1.PlannedCrop{Crop: w.Crop.Name, BorneShares: laid.Shares[i], Reachable: laid.Reachable[i]})
	}
	out.Sentence = planWords(laid, season.Weeks)
	return out
}

// wholeSeason says why the week's list may name other crops.
const wholeSeason = " It weighs all weeks; this week's list fills each crop's next gap alone, and may name others."

// planWords says what the plan does and what no plan could.
func planWords(p plan.Sowing, weeks int) string {
	if p.Wanted == 0 {
		return "What stands already bears all that is wanted, or nothing sown now can bear in time."
	}
	s := fmt.Sprintf("%s over %d weeks. Of %d weeks of bearing that a sowing can reach, %d stay below three quarters of what is used; sowing every second week would leave %d.",
		counted(len(p.Lines), "sowing"), weeks, p.Wanted, p.Gaps, p.Practice.Gaps)
	const told = 0.1 // percent
	more := 100 * (p.Bound - p.Served) / p.Served
	if more < told {
		return s + fmt.Sprintf(" No other sowing of these beds would serve even %v %% more.", told) + wholeSeason
	}
	return s + fmt.Sprintf(" Whatever else were sown in these beds, at most %s %% more could be served.", show(more, 2)) + wholeSeason
}
