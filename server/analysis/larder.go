package analysis

import (
	"context"
	"math"
	"slices"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/store"
)

// GetLarder adds up what harvests became.
func (s *Service) GetLarder(ctx context.Context, in *freshetv1.GetLarderRequest) (*freshetv1.GetLarderResponse, error) {
	place, err := s.picture(ctx, in.GetSiteId())
	if err != nil {
		return nil, err
	}
	toOn := in.GetToOn()
	if toOn == "" {
		toOn = s.now().In(place.zone).Format(time.DateOnly)
	}
	from, last, err := s.days(in.GetFromOn(), toOn, place.zone, 365)
	if err != nil {
		return nil, err
	}
	shelf := &larder{site: place, lines: map[string]*freshetv1.LarderLine{}}
	if err := shelf.fill(ctx, from, last.AddDate(0, 0, 1)); err != nil {
		return nil, err
	}
	return shelf.response(), nil
}

// larder is harvests and uses by produce.
type larder struct {
	*site
	lines map[string]*freshetv1.LarderLine
}

func (l *larder) line(produce string) *freshetv1.LarderLine {
	if l.lines[produce] == nil {
		l.lines[produce] = &freshetv1.LarderLine{Produce: produce}
	}
	return l.lines[produce]
}

func (l *larder) fill(ctx context.Context, from, to time.Time) error {
	harvests, err := store.History[store.BedHarvest](ctx, l.store, l.Site.ID, from, to)
	if err != nil {
		return err
	}
	for _, h := range harvests {
		if name := l.planting(h.PlantingID).Crop; name != "" {
			l.line(name).HarvestedKg += h.MassG / 1000
		}
	}
	fish, err := store.History[store.FishHarvest](ctx, l.store, l.Site.ID, from, to)
	if err != nil {
		return err
	}
	for _, h := range fish {
		if name := l.cohort(h.CohortID).Species; name != "" {
			l.line(name).HarvestedKg += h.MassG / 1000
		}
	}
	used, err := store.History[store.Disposition](ctx, l.store, l.Site.ID, from, to)
	for _, d := range used {
		l.use(d)
	}
	return err
}

func (l *larder) use(d store.Disposition) {
	line, use := l.line(d.Crop+d.Species), freshetv1.Use(d.Use)
	i := slices.IndexFunc(line.Uses, func(u *freshetv1.LarderUse) bool { return u.Use == use })
	if i < 0 {
		i = len(line.Uses)
		line.Uses = append(line.Uses, &freshetv1.LarderUse{Use: use})
	}
	line.Uses[i].MassKg += d.MassG / 1000
	line.Uses[i].PiecesCount += uint32(max(0, d.PiecesCount))
	if d.HadForIt != "" && !slices.Contains(line.Uses[i].HadForIt, d.HadForIt) {
		line.Uses[i].HadForIt = append(line.Uses[i].HadForIt, d.HadForIt)
	}
}

// toTheGram is a mass in kg without the dust that sums of fractions leave: what
// is all used up leaves nothing.
func toTheGram(kg float64) float64 { return math.Round(kg*1000) / 1000 }

func (l *larder) response() *freshetv1.GetLarderResponse {
	out := &freshetv1.GetLarderResponse{}
	canned := false
	for _, line := range l.lines {
		line.OnHandKg = line.HarvestedKg
		for _, u := range line.Uses {
			line.OnHandKg -= u.MassKg
			canned = canned || u.Use == freshetv1.Use_USE_CANNED
		}
		line.OnHandKg = toTheGram(line.OnHandKg)
		slices.SortFunc(line.Uses, func(a, b *freshetv1.LarderUse) int { return cmpAbs(b.MassKg, a.MassKg) })
		out.Lines = append(out.Lines, line)
	}
	slices.SortFunc(out.Lines, func(a, b *freshetv1.LarderLine) int { return cmpAbs(b.HarvestedKg, a.HarvestedKg) })
	if canned {
		out.Cautions = append(out.Cautions, "Canned food can hold botulinum toxin without smell or taste: use only tested processes of the current public guide, acid for tomatoes, pressure for all low-acid food; when in doubt, throw it out.")
	}
	return out
}
