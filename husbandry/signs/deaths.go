package signs

import (
	"freshet.example/husbandry/chance"
)

// dying finds more deaths in three days than a cohort's own record lets chance
// make. Half a death is added to the record, so that none in it still leaves
// one to chance. Of fish kept to show trouble early one death too many is
// enough where two of others are.
func dying(r *Record) (list []Sign) {
	const (
		recent = 3 * Day
		rare   = 0.002 // that chance makes so many; common practice, no source
		early  = 0.02  // of fish kept to show trouble early; common practice, no source
		least  = 7 * Day
		added  = 0.5 // Jeffreys' prior of a rate
	)
	from := len(r.Hours) - recent
	if from < least {
		return nil
	}
	for _, c := range cohortsOf(r.Deaths) {
		var now, before, until int
		var sentinel bool
		since := r.now()
		for _, d := range r.Deaths {
			switch {
			case d.Cohort != c:
			case d.Hour < from:
				before += d.Count
			default:
				now, since, until, sentinel = now+d.Count, min(since, d.Hour), d.Hour, d.Sentinel
			}
		}
		usual := (float64(before) + added) * recent / float64(from)
		bound, fewest := rare, 2
		if sentinel {
			bound, fewest = early, 1
		}
		if now >= fewest && 1-chance.PoissonCDF(float64(now-1), usual) < bound {
			list = append(list, Sign{Kind: Dying, Since: since, Until: until, Is: float64(now), Was: usual, Count: now, Cohort: c})
		}
	}
	return list
}

// cohortsOf lists cohorts in the order of their first death.
func cohortsOf(deaths []Death) (list []int) {
	seen := map[int]bool{}
	for _, d := range deaths {
		if !seen[d.Cohort] {
			seen[d.Cohort] = true
			list = append(list, d.Cohort)
		}
	}
	return list
}
