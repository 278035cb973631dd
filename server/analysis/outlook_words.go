package analysis

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/outlook"
)

// worthSaying is the chance from which a danger is told, pressing that from which it presses.
const (
	worthSaying = 0.1
	pressing    = 0.5
)

// alarm is a danger looked for in each day to come.
type alarm struct {
	name   string
	needs  outlook.Figure
	chance func(day int) (float64, error)
	words  func(day time.Time, chance string) string
	todo   string
	mild   bool // the fish stop feeding and do not suffer yet: never said to press
}

// alarms are what the fish or the filter may suffer from, most pressing first.
func (w *coming) alarms() ([]*freshetv1.Answer, error) {
	var list []*freshetv1.Answer
	for _, a := range w.dangers() {
		if !w.wasRead(a.needs) {
			continue
		}
		worst, most := 0, 0.0
		for day := range w.days {
			chance, err := a.chance(day)
			if err != nil {
				return nil, err
			}
			if most < worthSaying && chance >= worthSaying || chance > most+0.1 {
				worst, most = day, chance
			}
		}
		if most < worthSaying {
			continue
		}
		answer := &freshetv1.Answer{
			Name: a.name, Standing: watch, Sentence: a.words(w.on(worst), inTen(most)), Estimate: estimate(most, "chance"),
			Source: "simulation of this loop, bent by its own readings", Cautions: []string{a.todo},
		}
		if most >= pressing && !a.mild {
			answer.Standing = act
		}
		list = append(list, answer)
	}
	slices.SortStableFunc(list, func(a, b *freshetv1.Answer) int {
		if d := urgency(b.Standing) - urgency(a.Standing); d != 0 {
			return d
		}
		return int(100 * (b.Estimate.Value - a.Estimate.Value))
	})
	return list, nil
}

// inTen says a chance as a person can picture it.
func inTen(chance float64) string {
	switch n := math.Round(chance * 10); {
	case n <= 0:
		return "less than 1 in 10"
	case n >= 10:
		return "more than 9 in 10"
	default:
		return fmt.Sprintf("%.0f in 10", n)
	}
}

// past gives the chance of a limit day by day.
func (w *coming) passes(f outlook.Figure, limit float64, above bool) func(int) (float64, error) {
	return func(day int) (float64, error) {
		chance, err := w.asIs.Past(f, day, limit, above)
		return float64(chance), err
	}
}

func dayName(t time.Time) string { return t.Format("Monday 2 January") }

func (w *coming) dangers() []alarm {
	oxygenLow, _ := w.oxygenLimit()
	ammoniaHigh, _ := w.ammoniaLimit()
	list := []alarm{
		{"low_oxygen", outlook.Oxygen, w.passes(outlook.Oxygen, oxygenLow, false), func(on time.Time, chance string) string {
			return fmt.Sprintf("Oxygen may fall below %s mg/L on %s, most likely before dawn: %s.", show(oxygenLow, 2), dayName(on), chance)
		}, "Check the air stones and feed less in the evening. Fish at the surface tell before any number does.", false},
		{"high_ammonia", outlook.Unionized, w.passes(outlook.Unionized, ammoniaHigh, true), func(on time.Time, chance string) string {
			return fmt.Sprintf("Un-ionized ammonia may pass %s mg/L on %s: %s.", show(ammoniaHigh, 2), dayName(on), chance)
		}, "Test ammonia and pH before that day and feed less until then. Do not raise pH while ammonia is high.", false},
		{"high_nitrite", outlook.Nitrite, w.passes(outlook.Nitrite, 1, true), func(on time.Time, chance string) string {
			return fmt.Sprintf("Nitrite may pass 1 mg/L as N on %s: %s.", dayName(on), chance)
		}, "Test nitrite and chloride. Salt keeps nitrite out of the gills but harms some plants.", false},
		{"filter_weak", outlook.Ammonia, func(day int) (float64, error) {
			chance, err := w.asIs.Rising(outlook.Ammonia, day, 2, 0.5)
			return float64(chance), err
		}, func(on time.Time, chance string) string {
			return fmt.Sprintf("Ammonia may more than double by %s, as if the filter could not follow: %s.", dayName(on), chance)
		}, "Feed less, clean nothing more, and test each day until it falls.", false},
		{"low_ph", outlook.Acidity, w.passes(outlook.Acidity, 6, false), func(on time.Time, chance string) string {
			return fmt.Sprintf("pH may fall below 6 on %s, where the filter slows down: %s.", dayName(on), chance)
		}, "Test alkalinity and raise it little by little. Test ammonia first: raising pH makes it poisonous.", false},
	}
	return append(list, w.warmthDangers()...)
}

// warmthDangers are heat and cold, for each kind of fish that lives here.
func (w *coming) warmthDangers() []alarm {
	var list []alarm
	for _, s := range w.species {
		if high := float64(s.FeedHigh.Value); s.FeedHigh.Source != "" {
			list = append(list, alarm{"heat", outlook.Warmth, w.passes(outlook.Warmth, high, true), func(on time.Time, chance string) string {
				return fmt.Sprintf("The water may be above %s degC on %s, where %s does not feed: %s.", show(high, 3), dayName(on), s.Name, chance)
			}, "Shade the tank, run all air, and feed in the cool of the morning or not at all.", true})
		}
		if low := float64(s.FeedLow.Value); s.FeedLow.Source != "" {
			list = append(list, alarm{"cold", outlook.Warmth, w.passes(outlook.Warmth, low, false), func(on time.Time, chance string) string {
				return fmt.Sprintf("The water may be below %s degC on %s, where %s does not feed: %s.", show(low, 3), dayName(on), s.Name, chance)
			}, "Cover the tank and feed nothing while it is that cold.", true})
		}
	}
	return list
}

// sentence says the whole.
func (w *coming) sentence(out *freshetv1.GetOutlookResponse) string {
	switch {
	case len(w.past.readings) == 0:
		return "Nothing was read in the last six weeks, so nothing can be foretold: read the water's temperature, and test ammonia and pH."
	case len(out.Alarms) > 0:
		return out.Alarms[0].Sentence
	}
	return fmt.Sprintf("Nothing that was read is likely to pass its limit in the next %d days: less than 1 in 10 for each.", w.days)
}

// changes say what would come of doing otherwise, where it would show.
func (w *coming) changes(figures []*freshetv1.OutlookFigure) []*freshetv1.Answer {
	if w.otherwise == nil {
		return nil
	}
	var list []*freshetv1.Answer
	for _, f := range figures {
		if a := changed(f, w.on); a != nil {
			list = append(list, a)
		}
	}
	if len(list) == 0 {
		list = append(list, &freshetv1.Answer{Name: "no_change", Standing: well, Sentence: "It would change nothing that shows within these days."})
	}
	return list
}

// changed tells of the day on which a figure differs most, where its middle
// moves by a quarter of its interval or the chance of its limit by a tenth.
func changed(f *freshetv1.OutlookFigure, on func(int) time.Time) *freshetv1.Answer {
	best, most := -1, 0.0
	for day, d := range f.Days {
		shift := math.Abs(d.Otherwise.Value-d.Estimate.Value) / math.Max(1e-9, d.Estimate.GetHigh()-d.Estimate.GetLow())
		risk := math.Abs(d.OtherwisePastLimit - d.ChancePastLimit)
		if shift < 0.25 && risk < 0.1 {
			continue
		}
		if size := shift + risk; size > most {
			best, most = day, size
		}
	}
	if best < 0 {
		return nil
	}
	d := f.Days[best]
	a := &freshetv1.Answer{Name: f.Name, Standing: well, Estimate: d.Otherwise}
	a.Sentence = fmt.Sprintf("%s on %s: %s instead of %s%s.", f.Title, dayName(on(best)), spanned(d.Otherwise), spanned(d.Estimate), spaced(f.Unit))
	if f.Limit != nil && math.Max(d.OtherwisePastLimit, d.ChancePastLimit) >= worthSaying {
		way := "pass"
		if f.Least {
			way = "fall below"
		}
		a.Sentence += fmt.Sprintf(" The chance to %s %s is %s instead of %s.", way, show(f.GetLimit(), 2), inTen(d.OtherwisePastLimit), inTen(d.ChancePastLimit))
		if a.Standing = watch; d.OtherwisePastLimit >= pressing {
			a.Standing = act
		}
	}
	return a
}

func spanned(e *freshetv1.Estimate) string {
	if e.GetHigh() == 0 {
		return "none"
	}
	return fmt.Sprintf("%s (%s to %s)", show(e.Value, 2), show(e.GetLow(), 2), show(e.GetHigh(), 2))
}

// cautions say what the outlook rests on and what it leaves out.
func (w *coming) cautions() []string {
	list := []string{"Oxygen and pH are each day's lowest hour, un-ionized ammonia its highest, the others the day's mean.",
		"Intervals are meant to hold 8 times in 10. They take feeding, fish and weather to go on as of late; what breaks or falls ill is not in them."}
	var unread []string
	for _, r := range readables {
		if !w.wasRead(r.figure) {
			unread = append(unread, strings.TrimPrefix(strings.TrimPrefix(testWords[r.figure], "a test of "), "a reading of "))
		}
	}
	if len(unread) > 0 {
		list = append(list, "Not foretold, since nobody read it here in six weeks: "+strings.Join(unread, ", ")+".")
	}
	if !slices.ContainsFunc(w.past.hours, func(h outlook.Hour) bool { return !math.IsNaN(h.Air) }) {
		list = append(list, "Air was not read here: the water's temperature is foretold from itself alone.")
	}
	if w.past.fed == 0 {
		list = append(list, "No feed was noted in the last week, so none is counted for the days to come.")
	}
	return list
}

// fishAhead is when each cohort is ready.
func (w *coming) fishAhead(ctx context.Context) ([]*freshetv1.Answer, error) {
	herds, err := w.herds(ctx, w.at)
	if err != nil {
		return nil, err
	}
	warmth, err := w.dailyWarmth(ctx, w.at)
	var list []*freshetv1.Answer
	for _, h := range herds {
		if h.TargetWeightG > 0 && h.tally.Alive > 0 {
			f := &forecast{herd: h, warmth: warmth, zone: w.zone, today: midnight(w.at, w.zone), share: 0.5}
			list = append(list, f.response().Answer)
		}
	}
	return list, err
}

// bedsAhead are the plantings that begin or end bearing within the days.
func (w *coming) bedsAhead(ctx context.Context) ([]*freshetv1.Answer, error) {
	g, err := w.growing(ctx, w.at)
	if err != nil {
		return nil, err
	}
	var list []*freshetv1.Answer
	for _, st := range g.stands {
		if !st.known || st.bed.SystemID != w.ID {
			continue
		}
		begins, ends := int(st.window.First-g.today), int(st.window.Last-g.today)
		if begins >= 0 && begins <= w.days || ends >= 0 && ends <= w.days {
			list = append(list, g.bears(st).Answer)
		}
	}
	return list, nil
}
