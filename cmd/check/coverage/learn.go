package coverage

import (
	"os"
	"slices"

	"freshet.example/husbandry/outlook"
)

// firstLearnt is the first season that is learnt from: those before it are for
// trying, so that no forecast is tried on what it learnt from.
const firstLearnt = 2000

// strayed is how far what came strayed from each forecast, by figure and days ahead.
type strayed [outlook.Figures][len(outlook.StrayDays)][]outlook.Stray

// Learn finds by how much guesses must be drawn so that intervals hold as often as
// they say, and how far they must lean towards how it was of late, on seasons that are
// never tried, and writes the table that the forecasts read. It is all that they learn
// of the demo's simulator: not which way what came lay, nor what it was.
func Learn(o Options) error {
	each := make([]strayed, o.Seasons)
	err := forEach(o.Seasons, func(i int) error {
		return forecast(firstLearnt+i, o.Forecasts, each[i].note)
	})
	if err != nil {
		return err
	}
	table := outlook.WriteStrays(func(f outlook.Figure, days int) outlook.Straying {
		var all []outlook.Stray
		for i := range each {
			all = append(all, each[i][f][slices.Index(outlook.StrayDays[:], days)]...)
		}
		return outlook.LearnStrays(all)
	})
	return os.WriteFile(o.Table, []byte(table), 0o644) //nolint:gosec // for everybody to read
}

func (s *strayed) note(c cut) error {
	for _, what := range tried {
		if len(readingsOf(c.season.Readings, needed(what.figure))) == 0 {
			continue
		}
		for d, days := range outlook.StrayDays {
			one, err := c.ahead.Strayed(what.figure, what.side, days-1, c.season.Came[days-1][what.figure][what.side])
			if err != nil {
				return err
			}
			if one.Heed > 0 {
				s[what.figure][d] = append(s[what.figure][d], one)
			}
		}
	}
	return nil
}
