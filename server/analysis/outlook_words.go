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

// sentence says the whole.
func (w *coming) sentence(out *freshetv1.GetOutlookResponse) string {
	switch {
	case len(w.past.readings) == 0:
		return "Nothing was read in the last six weeks, so nothing can be foretold: read the water's temperature, and test ammonia and pH."
	case len(out.Alarms) > 0:
		return w.besides(out.Alarms) + out.Alarms[0].Sentence
	}
	if now := w.amiss(); now != nil {
		return fmt.Sprintf("%s Yet no limit is likely to be passed in the next %d days, on each less than 1 in 10: the forecast takes the last test for a slip, or the water to get over it. Test again before leaning on that.", now.Sentence, w.days)
	}
	return fmt.Sprintf("Nothing that was read is likely to pass its limit in the next %d days: on each day less than 1 in 10 for each.", w.days)
}

// dangerOf is the alarm of the days to come for what the last tests say.
var dangerOf = map[string]string{"unionized_ammonia": "high_ammonia", "oxygen_saturation": "low_oxygen", "nitrite": "high_nitrite"}

// besides is what is not well now where the alarms are of something else: they must not
// seem to be all there is.
func (w *coming) besides(alarms []*freshetv1.Answer) string {
	now := w.amiss()
	if now == nil || slices.ContainsFunc(alarms, func(a *freshetv1.Answer) bool { return a.Name == dangerOf[now.Name] }) {
		return ""
	}
	return now.Sentence + " "
}

// amiss is what the water's last tests say of figures with a limit, where they say that
// one is not well: the days to come must not seem to take that back. Nil where all is well.
func (w *coming) amiss() *freshetv1.Answer {
	now := []*freshetv1.Answer{w.unionized(), w.dissolvedOxygen(), w.nitriteAnswer()}
	worst := slices.MaxFunc(now, func(a, b *freshetv1.Answer) int { return urgency(a.Standing) - urgency(b.Standing) })
	if worst.Standing == watch || worst.Standing == act {
		return worst
	}
	return nil
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
		"Intervals are meant to hold 8 times in 10. They take feeding, fish and weather to go on as of late; what breaks or falls ill is not in them.",
		"The farther ahead, the more a figure is taken to stay as it was in the last week."}
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

// kept says how forecasts of the past weeks did, of all figures that are read themselves.
func kept(figures []*freshetv1.OutlookFigure) string {
	const fewer, more = 0.75, 0.87 // of which eight in ten should hold, as far as some dozens can tell; common practice, no source
	const dozens = 36
	held, asked := uint32(0), uint32(0)
	for _, f := range figures {
		if f.Name != "unionized_ammonia" {
			held, asked = held+f.HeldCount, asked+f.AskedCount
		}
	}
	if asked == 0 {
		return "No forecast of this loop could be tried yet: that takes some weeks of readings."
	}
	verdict := "as they should"
	switch share := float64(held) / float64(asked); {
	case asked < dozens:
		verdict = "too few to tell by whether they hold"
	case share < fewer:
		verdict = "fewer than they should"
	case share > more:
		verdict = "more than they should"
	}
	return fmt.Sprintf("Tried on the past six weeks: of %s forecast up to two weeks ahead with 8 in 10, %d came within, %s. How far they were off makes the intervals here wider or narrower.", counted(int(asked), "reading"), held, verdict)
}
