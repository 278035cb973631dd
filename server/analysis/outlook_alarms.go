package analysis

import (
	"fmt"
	"math"
	"slices"
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

// passes gives the chance that a figure goes beyond a limit, day by day.
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
		w.ammoniaDanger(ammoniaHigh),
		{"high_nitrite", outlook.Nitrite, w.passes(outlook.Nitrite, 1, true), func(on time.Time, chance string) string {
			now, _ := w.value(nitrite)
			return above("Nitrite", "1 mg/L as N", now > 1, on, chance)
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

// ammoniaDanger is ammonia beyond what fish bear, in the days to come or already.
func (w *coming) ammoniaDanger(limit float64) alarm {
	already := w.unionized().Standing == act
	todo := "Test ammonia and pH before that day and feed less until then. Do not raise pH while ammonia is high."
	if already {
		todo = "Feed nothing, and test ammonia and pH each day until it is safe. Do not raise pH while ammonia is high."
	}
	return alarm{"high_ammonia", outlook.Unionized, w.passes(outlook.Unionized, limit, true), func(on time.Time, chance string) string {
		return above("Un-ionized ammonia", show(limit, 2)+" mg/L", already, on, chance)
	}, todo, false}
}

// above says that a figure may pass its limit, or stay beyond it.
func above(figure, limit string, already bool, on time.Time, chance string) string {
	if already {
		return fmt.Sprintf("%s is above %s now and may still be on %s: %s.", figure, limit, dayName(on), chance)
	}
	return fmt.Sprintf("%s may pass %s on %s: %s.", figure, limit, dayName(on), chance)
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
