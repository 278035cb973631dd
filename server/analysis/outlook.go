package analysis

import (
	"cmp"
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
	usualSeed    = 1
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
	w := &coming{days: cmp.Or(int(in.GetDays()), usualAhead), asked: in.GetOtherwise()}
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
	if w.learnt, err = outlook.Learn(l.outlookLoop(), w.past.hours, w.past.readings, cmp.Or(in.GetSeed(), usualSeed)); err != nil {
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
	o := outlook.Otherwise{
		FeedShare: 1, UnfedDays: int(w.asked.GetUnfedDays()), AddedFish: quantity.Kilograms(w.asked.GetAddedFishKg()), StillHours: int(w.asked.GetStillHours()),
		AirWarmer: w.asked.GetAirWarmerKelvin(), Replaced: quantity.Fraction(w.asked.GetReplacedShare()),
	}
	if w.asked.FeedShare != nil {
		o.FeedShare = quantity.Fraction(w.asked.GetFeedShare())
	}
	return o.Plan(plan, rest, quantity.Litres(w.litres()))
}
