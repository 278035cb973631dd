package analysis

import (
	"context"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/outlook"
	"freshet.example/husbandry/quantity"
)

const (
	usualAhead = 7
	mostAhead  = 14
	// outlookLevel is how often an interval of the outlook should hold.
	outlookLevel = 0.8
	outlookSeed  = 1
)

// GetOutlook says what the loop will do in the days to come, going on as in the
// last week and otherwise.
func (s *Service) GetOutlook(ctx context.Context, in *freshetv1.GetOutlookRequest) (*freshetv1.GetOutlookResponse, error) {
	l, err := s.loop(ctx, in.GetSystemId())
	if err != nil {
		return nil, err
	}
	w, err := l.coming(ctx, s.at(in.GetAt()), in)
	if err != nil {
		return nil, err
	}
	out := &freshetv1.GetOutlookResponse{}
	if out.Figures, err = w.figures(); err != nil {
		return nil, err
	}
	if out.Alarms, err = w.alarms(); err != nil {
		return nil, err
	}
	out.Changes = w.changes(out.Figures)
	out.Sentence = w.sentence(out)
	out.Cautions, out.Kept = w.cautions(), kept(out.Figures)
	if out.Fish, err = w.fishAhead(ctx); err != nil {
		return nil, err
	}
	out.Beds, err = w.bedsAhead(ctx)
	return out, err
}

// coming is a loop's days to come.
type coming struct {
	*glass
	past      *past
	learnt    *outlook.Outlook
	days      int
	asIs      *outlook.Ahead
	otherwise *outlook.Ahead // nil where nothing is asked
	asked     *freshetv1.Otherwise
}

func (l *loop) coming(ctx context.Context, at time.Time, in *freshetv1.GetOutlookRequest) (*coming, error) {
	w := &coming{days: int(in.GetDays()), asked: in.GetOtherwise()}
	if w.days == 0 {
		w.days = usualAhead
	}
	if w.days > mostAhead {
		return nil, &FieldError{"days", "is more than 14: what weather does later nobody knows"}
	}
	var err error
	if w.glass, err = l.glass(ctx, at); err != nil {
		return nil, err
	}
	if w.past, err = l.past(ctx, at); err != nil {
		return nil, err
	}
	if l.litres() < 1 {
		return nil, &TooLittleError{"no vessel of this loop has a volume", "note the vessels of the loop with their litres"}
	}
	if w.learnt, err = outlook.Learn(l.outlookLoop(), w.past.hours, w.past.readings, outlookSeed); err != nil {
		return nil, err
	}
	rest := w.rest()
	plan := w.learnt.Usual(rest + w.days*24)
	if w.asIs, err = w.learnt.Ahead(plan, rest); err != nil || w.asked == nil {
		return w, err
	}
	other, err := w.planned(w.learnt.Usual(rest+w.days*24), rest)
	if err != nil {
		return nil, err
	}
	w.otherwise, err = w.learnt.Ahead(other, rest)
	return w, err
}

// rest is how many hours of today are left.
func (w *coming) rest() int {
	tomorrow := midnight(w.past.to, w.zone).AddDate(0, 0, 1)
	return int(tomorrow.Sub(w.past.to).Hours()) % 24
}

// on is a day ahead, counted from 0 for tomorrow, or for today at midnight itself.
func (w *coming) on(day int) time.Time {
	return midnight(w.past.to.Add(time.Duration(w.rest())*time.Hour), w.zone).AddDate(0, 0, day)
}

// planned is the plan with what is asked done otherwise.
func (w *coming) planned(plan []outlook.Hour, rest int) ([]outlook.Hour, error) {
	o := w.asked
	share := 1.0
	if o.FeedShare != nil {
		share = o.GetFeedShare()
	}
	for _, err := range []error{
		quantity.Within("otherwise.feed_share", share, 0, 5, "", ""), quantity.Within("otherwise.unfed_days", float64(o.GetUnfedDays()), 0, mostAhead, "d", ""),
		quantity.Within("otherwise.added_fish_kg", o.GetAddedFishKg(), 0, 1e5, "kg", ""), quantity.Within("otherwise.still_hours", float64(o.GetStillHours()), 0, 72, "h", ""),
		quantity.Within("otherwise.air_warmer_kelvin", o.GetAirWarmerKelvin(), -30, 30, "K", ""), quantity.Within("otherwise.replaced_share", o.GetReplacedShare(), 0, 1, "", ""),
	} {
		if err != nil {
			return nil, err
		}
	}
	if kg := plan[0].Fish; kg > 0 {
		share *= (kg + o.GetAddedFishKg()) / kg
	}
	for i := range plan {
		h := &plan[i]
		h.Feed *= share
		h.Fish += o.GetAddedFishKg()
		h.Warmer = o.GetAirWarmerKelvin()
		h.Changed += o.GetReplacedShare() * w.litres() / 24
		if i < rest+24*int(o.GetUnfedDays()) && o.GetUnfedDays() > 0 {
			h.Feed = 0
		}
		h.Still = i >= rest && i < rest+int(o.GetStillHours())
	}
	return plan, nil
}
