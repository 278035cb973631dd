package analysis

import (
	"fmt"
	"math"
	"strings"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/quantity"
	"freshet.example/husbandry/signs"
)

// sentence says how much there is to look at.
func (w *watched) sentence(found int) string {
	read := len(w.record.Probe) > 0
	for _, tests := range w.record.Tests {
		read = read || len(tests) > 0
	}
	switch {
	case !read:
		return "Nothing was read here in the last six weeks, so nothing can be noticed: read the water's temperature, and test ammonia and pH."
	case found == 0:
		return "Nothing in six weeks of readings wants a second look."
	case found == 1:
		return "One thing in six weeks of readings wants a second look."
	}
	return fmt.Sprintf("%d things in six weeks of readings want a second look.", found)
}

// wording is how a kind of sign is said: in a sentence, how pressing, and what to do.
type wording struct {
	sentence func(w *watched, s signs.Sign) string
	standing freshetv1.Standing
	todo     string
}

var signWords = map[signs.Kind]wording{
	signs.StillPump: {func(w *watched, s signs.Sign) string {
		return fmt.Sprintf("Oxygen fell to %s mg/L where %s is usual, %s: so it falls when pump or air stand.", show(s.Is, 2), show(s.Was, 2), w.since(s))
	}, act, "Look at the pump and the air stones now. Fish at the surface tell before any number does."},
	signs.Cooling: {func(w *watched, s signs.Sign) string {
		return fmt.Sprintf("The water is %s degC and falling, %s; it was kept at %s.", show(s.Is, 3), w.since(s), show(s.Was, 3))
	}, act, "Look at the heater, its switch and its fuse. Pull the plug before a hand goes into the water."},
	signs.WeakFilter: {func(w *watched, s signs.Sign) string {
		return fmt.Sprintf("%s is %s, %s; %s was usual: as if the filter could not follow.", capital(titleOf(s.Quantity)), withUnit(s.Quantity, s.Is), w.since(s), show(s.Was, 2))
	}, watch, "Feed less, clean nothing more, and test each day until it falls."},
	signs.Dying: {func(w *watched, s signs.Sign) string {
		return fmt.Sprintf("%d of %s died within three days; by their record it would be %s.", s.Count, w.cohorts()[s.Cohort].Name, show(s.Was, 1))
	}, act, "Look at the others now: at the surface, at their gills, whether they eat. Test oxygen, ammonia and nitrite."},
	signs.Hungerless: {func(_ *watched, s signs.Sign) string {
		words := quantity.Appetite.Words()
		return fmt.Sprintf("The fish's appetite is noted as %q, usually as %q, in water no colder.", words[int(s.Is)], words[int(math.Round(s.Was))])
	}, watch, "Fish tell before tests do: look at them, test ammonia, nitrite and oxygen, and feed less today."},
	signs.Sliding: {func(w *watched, s signs.Sign) string {
		from, to := quantity.ShowChange(s.Was, s.Is, 2)
		return fmt.Sprintf("%s slid from %s to %s%s, %s.", capital(titleOf(s.Quantity)), from, to, spaced(unitWords(s.Quantity.Unit(), s.Quantity.Basis())), w.since(s))
	}, watch, "Was base forgotten? Test alkalinity and raise it little by little. Test ammonia first: raising pH makes it poisonous."},
	signs.Adrift: {func(w *watched, s signs.Sign) string {
		return fmt.Sprintf("The %s probe reads %s than your tests, %s; before, %s.", titleOf(s.Quantity), apart(s.Quantity, s.Is), w.since(s), apart(s.Quantity, s.Was))
	}, watch, "Clean and calibrate the probe, and note that you did: freshet note upkeep. Until then believe the tests."},
	signs.Foul: {func(w *watched, s signs.Sign) string {
		way, also := "less", "the probe drifts, or less air comes in"
		if s.Is > s.Was {
			way, also = "more", "the probe drifts, or something stirs more"
		}
		return fmt.Sprintf("Oxygen reads %s mg/L %s than this loop's fish and warmth would make it, and more so each day %s: %s.", show(math.Abs(s.Is-s.Was), 1), way, w.since(s), also)
	}, watch, "Test oxygen by drops. If they disagree, clean and calibrate the probe; if not, look at the air stones."},
	signs.Misread: {(*watched).misread, watch, "Nothing was changed. If it was so, void what was noted, and note it anew: freshet void."},
	signs.Outlier: {(*watched).outlier, watch, "Nothing was changed. If it was a slip, void it: freshet void."},
	signs.Shifted: {(*watched).shifted, watch, "Was anything changed that day, or the probe moved? Note it, so that it explains what follows."},
	signs.Stuck:   {(*watched).stuckFor, watch, "Lift the probe into air and back: if it still says the same, its cable or membrane is broken."},
	signs.Silent:  {(*watched).silentFor, watch, "What nobody reads, nobody can be warned of."},
}

// words makes a sign's answer.
func (w *watched) words(s signs.Sign) *freshetv1.Answer {
	t := signWords[s.Kind]
	a := &freshetv1.Answer{Name: s.Kind.String(), Standing: t.standing, Sentence: t.sentence(w, s), Cautions: []string{t.todo}, Source: signSources[s.Kind]}
	unit := strings.TrimSpace(s.Quantity.Unit().String())
	if s.Kind == signs.Dying || s.Kind == signs.Silent {
		unit = map[signs.Kind]string{signs.Dying: "fish", signs.Silent: "hours"}[s.Kind]
	}
	a.Estimate = estimate(s.Is, unit)
	a.Inputs = []*freshetv1.InputUsed{input("what shows it", s.Is, unit, w.moment(s.Until), readBy(s)), setting("to be expected", s.Was, unit, "the weeks before")}
	return a
}

// signSources say by what method a kind is found.
var signSources = map[signs.Kind]string{
	signs.StillPump: "oxygen against the loop's own balance of breathing, warmth and light", signs.Cooling: "the colder half of two weeks",
	signs.WeakFilter: "tests of four weeks, by their median and spread (Hampel 1974)", signs.Dying: "deaths as Poisson counts",
	signs.Hungerless: "ordered words", signs.Sliding: "order of readings (Mann 1945)", signs.Adrift: "running sums (Page 1954)", signs.Foul: "the loop's own balance, and running sums (Page 1954)",
	signs.Misread: "what was typed, in each unit and basis", signs.Outlier: "neighbours that agree", signs.Shifted: "two levels by least squares", signs.Stuck: "runs (Feller 1968)", signs.Silent: "usual gaps",
}

func readBy(s signs.Sign) string {
	if s.Hand {
		return "tests by hand"
	}
	return "probe"
}

// since says from when something shows: the hour within a day, else the day.
func (w *watched) since(s signs.Sign) string {
	const day = 24
	from, until := w.moment(s.Since), w.moment(len(w.record.Hours))
	switch {
	case len(w.record.Hours)-s.Since > day:
		return "since " + from.Format("2 January")
	case from.YearDay() != until.YearDay():
		return "since yesterday " + from.Format("15:04")
	}
	return "since " + from.Format("15:04")
}

func (w *watched) on(hour int) string { return w.moment(hour).Format("2 January") }

// withUnit writes a value with its unit and basis.
func withUnit(q quantity.Quantity, v float64) string {
	figures := 2
	if q == quantity.WaterTemperature || q == quantity.Acidity || q == quantity.Conductivity {
		figures = 3
	}
	return show(v, figures) + spaced(unitWords(q.Unit(), q.Basis()))
}

func unitWords(u quantity.Unit, b quantity.Basis) string {
	words := u.String()
	if u == quantity.UnitPH {
		words = ""
	}
	if b != quantity.NoBasis && b != quantity.AsO2 {
		words += " as " + strings.TrimPrefix(b.String(), "as ")
	}
	return words
}

// apart writes how far a probe lies from tests: "0.30 more", "as much".
func apart(q quantity.Quantity, off float64) string {
	way := "more"
	if off < 0 {
		way = "less"
	}
	if v := show(math.Abs(off), 1); math.Abs(off) >= 0.05 {
		return v + spaced(unitWords(q.Unit(), quantity.NoBasis)) + " " + way
	}
	return "no other"
}

// titleOf is a quantity's name without what only a laboratory would add.
func titleOf(q quantity.Quantity) string { return strings.TrimSuffix(q.Title(), " at 25 degC") }

func capital(words string) string {
	if words == "" || strings.HasPrefix(words, "pH") {
		return words
	}
	return strings.ToUpper(words[:1]) + words[1:]
}
