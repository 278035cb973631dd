package analysis

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strconv"

	"github.com/google/uuid"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/store"
)

// What a comparison shows must not let anybody work out one member. Its sites
// are a cast that changes only by as many members as the smallest group
// (store.CastOf). When one went, at once, what is left is told coarsely: figures
// before and after would differ by the one. And figures of sites that are not
// named are told to two digits, with the record in whole spans, so that a site
// is not known again by them, nor by what was entered yesterday.

// ownSpan refuses spans of the caller's choosing: the difference of two that
// hold a site and hold it not would be the site.
func (p *Pool) ownSpan(in *freshetv1.CompareSitesRequest) error {
	yesterday := p.now().UTC().AddDate(0, 0, -1).Format("2006-01-02")
	if on := in.GetToOn(); on != "" && on != yesterday {
		return &FieldError{"to_on", "is always yesterday: answers for days of one's own choosing would tell one site from the others"}
	}
	if in.GetFromOn() != "" {
		return &FieldError{"from_on", "is always twelve whole months ago: answers for days of one's own choosing would tell one site from the others"}
	}
	return nil
}

// chosen keeps the rows of the cast.
func (c *comparison) chosen(ctx context.Context, measure freshetv1.PoolMeasure, smallest int) (store.Cast, error) {
	cast, err := c.store.CastOf(ctx, int16(measure), keys(c.rows), smallest) //nolint:gosec // few
	in := make(map[uuid.UUID]bool, len(cast.Sites))
	for _, id := range cast.Sites {
		in[id] = true
	}
	for id := range c.rows {
		if !in[id] {
			delete(c.rows, id)
		}
	}
	return cast, err
}

// waits says which sites are not counted yet, and why.
func waits(cast store.Cast, own string, smallest int) string {
	if cast.Waiting == 0 {
		return ""
	}
	who := "A member's sites wait"
	if cast.Waiting > 1 {
		who = fmt.Sprintf("The sites of %d members wait", cast.Waiting)
	}
	if id, err := uuid.Parse(own); err == nil && !slices.Contains(cast.Sites, id) {
		who += ", yours perhaps among them,"
	}
	return fmt.Sprintf(" %s until those of %d have come: so nobody can tell a newcomer's figure from what was shown before.", who, smallest)
}

// coarse tells only the caller's own site and the group to one digit.
func (c *comparison) coarse(out *freshetv1.CompareSitesResponse, smallest int) {
	out.Sites = slices.DeleteFunc(out.Sites, func(f *freshetv1.SiteFigure) bool { return !f.Own })
	for _, f := range out.Sites {
		f.Adjusted, f.Pulled, f.RankLow, f.RankHigh = f.AsRecorded, f.AsRecorded, 0, 0
	}
	value, step := digits(out.Group.Value, 1)
	out.Group, out.BetweenSd = between(value, value-step/2, value+step/2, out.Group.Confidence, c.unit), 0
	out.Coarse, out.LeftOut, out.ApartCount = true, nil, nil
	out.Sentence = fmt.Sprintf("The group's mean is about %s %s. A member's site went from this comparison lately: until those of %d members have come or gone, or a year has passed, only this and your own site are shown, so that nobody can work out whose figure went.",
		show(value, 1), c.unit, smallest)
}

// blunted tells a figure of a site that is not named to two digits.
func blunted(e *freshetv1.Estimate) *freshetv1.Estimate {
	value, _ := digits(e.Value, 2)
	low, _ := digits(e.GetLow(), 2)
	high, _ := digits(e.GetHigh(), 2)
	return between(value, low, high, e.Confidence, e.Unit)
}

// digits rounds to so many significant digits, and tells the step.
func digits(v float64, n int) (rounded, step float64) {
	if v == 0 {
		return 0, 0
	}
	step = math.Pow(10, math.Floor(math.Log10(math.Abs(v)))-float64(n-1))
	rounded, _ = strconv.ParseFloat(strconv.FormatFloat(v, 'g', n, 64), 64) // what was written reads
	return rounded, step
}
