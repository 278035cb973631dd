package analysis

import (
	"context"
	"fmt"
	"math"

	"github.com/google/uuid"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/pool"
)

// falseShare is the share of the sites told apart that may be so by chance alone.
const falseShare = 0.1

// words says what may be said, and what not.
func (c *comparison) words(ids []uuid.UUID, out *freshetv1.CompareSitesResponse, own string) (string, error) {
	s := fmt.Sprintf("%d sites; the group's mean is %s %s, between %s and %s, 9 in 10.", len(out.Sites), show(out.Group.Value, 2), c.unit, show(out.Group.GetLow(), 2), show(out.Group.GetHigh(), 2))
	if out.BetweenSd == 0 {
		return s + " What the sites differ by is no more than chance alone would bring: no ranking can be told.", nil
	}
	for _, f := range out.Sites {
		switch {
		case !f.Own || f.RankHigh == 0:
		case f.RankHigh > f.RankLow:
			s += fmt.Sprintf(" Yours stands anywhere from %d to %d of %d: too few data to say closer.", f.RankLow, f.RankHigh, len(out.Sites))
		default:
			s += fmt.Sprintf(" Yours stands at %d of %d.", f.RankLow, len(out.Sites))
		}
	}
	var err error
	if out.ApartCount, err = c.apart(ids, own); err != nil || out.ApartCount == nil {
		return s, err
	}
	others := len(out.Sites) - 1
	if out.GetApartCount() == 0 {
		return s + fmt.Sprintf(" It cannot be told apart from any of the %d others.", others), nil
	}
	return s + fmt.Sprintf(" It can be told apart from %d of the %d others; of sites told apart so, up to 1 in 10 may be so by chance.", out.GetApartCount(), others), nil
}

// apart counts the others from which the caller's own can be told, with false
// discoveries bounded however many are compared; nil without an own site.
func (c *comparison) apart(ids []uuid.UUID, own string) (*uint32, error) {
	id, err := uuid.Parse(own)
	mine := c.rows[id]
	if err != nil || mine == nil {
		return nil, nil //nolint:nilerr,nilnil // no own site is pointed out
	}
	var ps []float64
	for _, other := range ids {
		if r := c.rows[other]; r != mine {
			ps = append(ps, chance.TTwoSided((mine.figure.value-r.figure.value)/math.Hypot(mine.figure.se, r.figure.se), float64(min(len(mine.months()), len(r.months()))-1)))
		}
	}
	found, err := pool.Discoveries(ps, falseShare)
	if err != nil {
		return nil, err
	}
	n := uint32(0)
	for _, told := range found {
		if told {
			n++
		}
	}
	return &n, nil
}

// ownSoil puts the caller's soil beds beside, on the same definition, and a
// common claim to the test on the two.
func (c *comparison) ownSoil(ctx context.Context, own string, out *freshetv1.CompareSitesResponse) error {
	id, err := uuid.Parse(own)
	if err != nil {
		return nil //nolint:nilerr // no own site is pointed out
	}
	loop := c.rows[id]
	if loop == nil || loop.SoilM2 == 0 {
		return nil
	}
	months, err := c.store.ProduceMonths(ctx, []uuid.UUID{id}, true, c.from, c.to)
	if err != nil {
		return err
	}
	soil := &row{Ground: loop.Ground, span: loop.span}
	for j, span := range soil.span {
		soil.den[j] = soil.SoilM2 * span
	}
	for _, m := range months {
		if at := c.season(soil, m.Month); soil.span[at] > 0 {
			soil.num[at] += m.Sum() / 1000
		}
	}
	if sum(soil.num) == 0 {
		out.OwnSoil = &freshetv1.Answer{Name: "own_soil", Standing: unknown, Source: "own record",
			Sentence: fmt.Sprintf("From your %s m2 of soil beds no harvest was noted.", show(soil.SoilM2, 2))}
		return nil
	}
	soil.ratio()
	out.OwnSoil = soilAnswer(loop, soil, c.unit)
	out.Claims = append(out.Claims, tenfold(loop, soil))
	return nil
}

// wholeYear is the least record on which soil, which bears in its season, is
// set beside a loop, days.
const wholeYear = 330

func soilAnswer(loop, soil *row, unit string) *freshetv1.Answer {
	a := &freshetv1.Answer{Name: "own_soil", Estimate: estimate(soil.plain.value, unit), Source: "own record", Standing: well,
		Sentence: fmt.Sprintf("Your own soil beds gave %s %s on %s m2; your loop %s.", show(soil.plain.value, 2), unit, show(soil.SoilM2, 2), show(loop.plain.value, 2))}
	if soil.days() < wholeYear {
		a.Standing, a.Missing = unknown, []string{"a whole year: soil bears in its season only"}
	}
	return a
}

// tenfold asks whether a loop gives ten times what soil gives (common practice,
// no source), by the ratio of the two with an interval on its logarithm.
func tenfold(loop, soil *row) *freshetv1.Answer {
	const claim, confidence = 10, 0.9
	loopPlain, soilPlain := loop.plain, soil.plain
	ratio := loopPlain.value / soilPlain.value
	reach := math.Exp(chance.TQuantile((1+confidence)/2, float64(len(loop.months())-1)) * math.Hypot(loopPlain.se/loopPlain.value, soilPlain.se/soilPlain.value))
	low, high := ratio/reach, ratio*reach
	a := &freshetv1.Answer{Name: "ten_times_the_produce", Estimate: between(ratio, low, high, confidence, "times"), Standing: well,
		Source:   "own record; ratio of sums of months (Cochran 1977)",
		Cautions: []string{"Crops in the loop and in soil were not the same, and the ground that tanks and paths take is not counted."}}
	a.Sentence = fmt.Sprintf("Ten times the produce of soil, as is often said? On each m2 of bed your loop gave %s times what your soil beds gave, between %s and %s, 9 in 10: ", show(ratio, 2), show(low, 2), show(high, 2))
	switch {
	case loop.days() < wholeYear:
		a.Standing, a.Missing = unknown, []string{"a whole year: soil bears in its season only"}
		a.Sentence += "a whole year is needed to tell."
	case high < claim:
		a.Sentence += "not here."
	case low > claim:
		a.Sentence += "here it is so."
	default:
		a.Standing = unknown
		a.Sentence += "it cannot be told."
	}
	return a
}
