package analysis

import (
	"context"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"time"

	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/quantity"
	"freshet.example/husbandry/water"
	"freshet.example/store"
)

// figure is a derived figure that can be split among its inputs.
type figure struct {
	title  string
	unit   string
	inputs []figureInput
	work   func(s *site) water.Derived
	source string
	// Where an input is not what was read, reads are, and of makes inputs of them.
	reads []figureInput
	of    func(read []float64) ([]float64, error)
}

type figureInput struct {
	quantity freshetv1.Quantity
	name     string
	unit     string
}

var (
	inTAN         = figureInput{tan, "total ammonia", "mg/L as N"}
	inPH          = figureInput{acidity, "pH", ""}
	inTemperature = figureInput{temperature, "water temperature", "degC"}
	inAlkalinity  = figureInput{alkalinity, "alkalinity", "mg/L as CaCO3"}
)

// itself is the work of a figure that is one test.
func itself(*site) water.Derived { return func(in []float64) (float64, error) { return in[0], nil } }

// figures are the derived ones that ExplainChange knows, beside balances.
var figures = map[string]figure{
	"unionized_ammonia": {title: "Un-ionized ammonia", unit: "mg/L as N", inputs: []figureInput{inTAN, inPH, inTemperature}, work: func(*site) water.Derived {
		return func(in []float64) (float64, error) {
			v, err := water.UnionizedAmmonia(quantity.AmmoniaN(in[0]), quantity.PH(in[1]), quantity.Celsius(in[2]))
			return float64(v), err
		}
	}, source: "Emerson, Russo, Lund & Thurston 1975; split by Shapley 1953"},
	"oxygen_saturation": {title: "Oxygen saturation", unit: "percent", inputs: []figureInput{{oxygen, "dissolved oxygen", "mg/L"}, inTemperature}, work: func(s *site) water.Derived {
		return func(in []float64) (float64, error) {
			v, err := water.OxygenPercent(quantity.MgPerL(in[0]), quantity.Celsius(in[1]), 0, s.pressure())
			return float64(v), err
		}
	}, source: "Benson & Krause 1984; split by Shapley 1953"},
	"carbon_dioxide": {title: "Carbon dioxide", unit: "mg/L", inputs: []figureInput{inPH, inTemperature, inAlkalinity}, work: func(*site) water.Derived {
		return carbonDioxideOf
	}, source: "Plummer & Busenberg 1982; split by Shapley 1953"},
	"ph": {title: "pH", inputs: []figureInput{{name: "carbon dioxide", unit: "mg/L"}, inTemperature, inAlkalinity}, work: func(*site) water.Derived {
		return func(in []float64) (float64, error) {
			v, err := water.PHOfCarbonDioxide(quantity.MgPerL(in[0]), quantity.Celsius(in[1]), quantity.AlkalinityCaCO3(in[2]))
			return float64(v), err
		}
	}, source: "Plummer & Busenberg 1982; split by Shapley 1953", reads: []figureInput{inPH, inTemperature, inAlkalinity},
		of: func(read []float64) ([]float64, error) {
			v, err := carbonDioxideOf(read)
			return []float64{v, read[1], read[2]}, err
		}},
}

// carbonDioxideOf works out carbon dioxide from pH, temperature and alkalinity.
func carbonDioxideOf(in []float64) (float64, error) {
	v, err := water.CarbonDioxide(quantity.PH(in[0]), quantity.Celsius(in[1]), quantity.AlkalinityCaCO3(in[2]))
	return float64(v), err
}

// ExplainChange splits the change of a figure among its inputs and lists what happened before it.
func (s *Service) ExplainChange(ctx context.Context, in *freshetv1.ExplainChangeRequest) (*freshetv1.ExplainChangeResponse, error) {
	name := in.GetFigure()
	if name == "" {
		name = "unionized_ammonia"
	}
	f, derived := figures[name]
	b, tested := balances[name]
	if !derived && !tested {
		return nil, &FieldError{"figure", "is not one that can be explained: " + strings.Join(slices.Sorted(maps.Keys(figures)), ", ") + ", " + strings.Join(slices.Sorted(maps.Keys(balances)), ", ")}
	}
	l, err := s.loop(ctx, in.GetSystemId())
	if err != nil {
		return nil, err
	}
	to := s.at(in.GetTo())
	from := to.AddDate(0, 0, -7)
	if in.GetFrom() != nil {
		from = in.GetFrom().AsTime()
	}
	if tested {
		return l.balanced(ctx, name, b, from, to)
	}
	return l.explain(ctx, name, f, from, to)
}

func (l *loop) explain(ctx context.Context, name string, f figure, from, to time.Time) (*freshetv1.ExplainChangeResponse, error) {
	before, err := l.observe(ctx, from)
	if err != nil {
		return nil, err
	}
	after, err := l.observe(ctx, to)
	if err != nil {
		return nil, err
	}
	was, err := f.values(before)
	if err != nil {
		return nil, err
	}
	is, err := f.values(after)
	if err != nil {
		return nil, err
	}
	work := f.work(l.site)
	shares, err := water.Split(work, was, is)
	if err != nil {
		return nil, err
	}
	out := &freshetv1.ExplainChangeResponse{Before: l.stateOf(name, f, work, before, was), After: l.stateOf(name, f, work, after, is)}
	for i, in := range f.inputs {
		out.Parts = append(out.Parts, &freshetv1.ChangePart{Input: in.name, Before: estimate(was[i], in.unit), After: estimate(is[i], in.unit), Share: shares[i]})
	}
	out.Happenings, err = l.happenings(ctx, from.AddDate(0, 0, -2), to)
	out.Sentence = changeWords(f, out)
	return out, err
}

// read are the inputs that are read.
func (f figure) read() []figureInput {
	if f.reads != nil {
		return f.reads
	}
	return f.inputs
}

func (f figure) values(seen observed) ([]float64, error) {
	var values []float64
	for _, in := range f.read() {
		v, ok := seen.value(in.quantity)
		if !ok {
			return nil, &TooLittleError{in.name + " was not read before the change", "test it, and look again in some days"}
		}
		values = append(values, v)
	}
	if f.of != nil {
		return f.of(values)
	}
	return values, nil
}

func (l *loop) stateOf(name string, f figure, work water.Derived, seen observed, values []float64) *freshetv1.Answer {
	v, err := work(values)
	if err != nil {
		return lacking(name, err.Error())
	}
	a := &freshetv1.Answer{Name: name, Estimate: estimate(v, f.unit), Source: f.source, Sentence: fmt.Sprintf("%s is %s%s.", f.title, show(v, 2), spaced(f.unit))}
	for _, in := range f.read() {
		a.Inputs = append(a.Inputs, l.used(seen, in.quantity, in.name, in.unit))
	}
	return a
}

// changeWords tells the change, what carried it, and what came before it.
func changeWords(f figure, out *freshetv1.ExplainChangeResponse) string {
	words := []string{roseOrFell(f, out, "")}
	largest := slices.MaxFunc(out.Parts, func(a, b *freshetv1.ChangePart) int { return cmpAbs(a.Share, b.Share) })
	if out.Before.Estimate.GetValue() != out.After.Estimate.GetValue() {
		first, last := quantity.ShowChange(largest.Before.Value, largest.After.Value, 2)
		words = append(words, fmt.Sprintf("Most of it came with %s, %s to %s.", largest.Input, first, last))
	}
	return strings.Join(append(words, beforeWords(out)...), " ")
}

// roseOrFell tells the change itself, and within which time where that is said.
func roseOrFell(f figure, out *freshetv1.ExplainChangeResponse, within string) string {
	was, is := out.Before.Estimate.GetValue(), out.After.Estimate.GetValue()
	figures := 2
	if f.unit == inTemperature.unit {
		figures = 3
	}
	if was == is {
		return fmt.Sprintf("%s stands at %s%s, as it did before.", f.title, show(is, figures), spaced(f.unit))
	}
	verb := "rose"
	if is < was {
		verb = "fell"
	}
	if within != "" {
		within = " within " + within
	}
	first, last := quantity.ShowChange(was, is, figures)
	return fmt.Sprintf("%s %s from %s to %s%s%s.", f.title, verb, first, last, spaced(f.unit), within)
}

// beforeWords tells the weightiest of what came before.
func beforeWords(out *freshetv1.ExplainChangeResponse) []string {
	if len(out.Happenings) == 0 {
		return nil
	}
	return []string{"Before it: " + strings.Join(firstSentences(out.Happenings, 3), "; ") + "."}
}

func cmpAbs(a, b float64) int {
	switch d := math.Abs(a) - math.Abs(b); {
	case d < 0:
		return -1
	case d > 0:
		return 1
	}
	return 0
}

// firstSentences gives the weightiest happenings with their day.
func firstSentences(list []*freshetv1.Happening, most int) []string {
	ordered := slices.Clone(list)
	slices.SortStableFunc(ordered, func(a, b *freshetv1.Happening) int { return weightOf(b) - weightOf(a) })
	var words []string
	for _, h := range ordered[:min(most, len(ordered))] {
		words = append(words, fmt.Sprintf("%s (%s)", h.Sentence, h.OccurredAt.AsTime().Format("2 Jan")))
	}
	return words
}

// weightOf puts what upsets a filter before what upsets little.
func weightOf(h *freshetv1.Happening) int {
	for i, word := range []string{"Water added", "put in", "died", "Feed", "Power cut", "Pump stopped", "cleaned"} {
		if strings.Contains(h.Sentence, word) {
			return i + 1
		}
	}
	return 0
}

// happenings are the events that may explain a change, latest first.
func (l *loop) happenings(ctx context.Context, from, to time.Time) ([]*freshetv1.Happening, error) {
	var list []*freshetv1.Happening
	add := func(h store.Header, sentence string) {
		list = append(list, &freshetv1.Happening{Sentence: sentence, OccurredAt: timestamppb.New(h.OccurredAt), EventId: h.ID.String()})
	}
	for _, gather := range []func(context.Context, time.Time, time.Time, func(store.Header, string)) error{
		l.upkeepWords, l.incidentWords, l.deathWords, l.doseWords, l.waterWords, l.feedWords,
	} {
		if err := gather(ctx, from, to, add); err != nil {
			return nil, err
		}
	}
	slices.SortStableFunc(list, func(a, b *freshetv1.Happening) int {
		return b.OccurredAt.AsTime().Compare(a.OccurredAt.AsTime())
	})
	return list, nil
}

var upkeepNames = map[freshetv1.UpkeepKind]string{
	freshetv1.UpkeepKind_UPKEEP_KIND_FILTER_CLEANED:   "cleaned",
	freshetv1.UpkeepKind_UPKEEP_KIND_PUMP_SERVICED:    "pump serviced",
	freshetv1.UpkeepKind_UPKEEP_KIND_CYCLE_CHANGED:    "timer or siphon changed",
	freshetv1.UpkeepKind_UPKEEP_KIND_COVER_CHANGED:    "shade, cover or vents changed",
	freshetv1.UpkeepKind_UPKEEP_KIND_PROBE_CALIBRATED: "probe calibrated",
}

func (l *loop) upkeepWords(ctx context.Context, from, to time.Time, add func(store.Header, string)) error {
	done, err := store.History[store.Upkeep](ctx, l.store, l.Site.ID, from, to)
	for _, u := range done {
		name, matters := upkeepNames[freshetv1.UpkeepKind(u.Kind)]
		if !matters || !l.holds(u.VesselID) {
			continue
		}
		sentence := strings.TrimSpace(l.placeName(u.VesselID) + " " + name)
		if u.Words != "" {
			sentence += ` ("` + u.Words + `")`
		}
		add(u.Header, sentence)
	}
	return err
}

var incidentNames = map[freshetv1.IncidentKind]string{
	freshetv1.IncidentKind_INCIDENT_KIND_POWER_CUT: "Power cut", freshetv1.IncidentKind_INCIDENT_KIND_PUMP_STOPPED: "Pump stopped",
	freshetv1.IncidentKind_INCIDENT_KIND_LEAK: "Leak", freshetv1.IncidentKind_INCIDENT_KIND_HEATER_FAILED: "Heater failed",
	freshetv1.IncidentKind_INCIDENT_KIND_FISH_DISTRESS: "Fish in distress", freshetv1.IncidentKind_INCIDENT_KIND_WEATHER: "Storm, frost or heat",
	freshetv1.IncidentKind_INCIDENT_KIND_PESTS: "Pests", freshetv1.IncidentKind_INCIDENT_KIND_OTHER: "Incident",
}

func (l *loop) incidentWords(ctx context.Context, from, to time.Time, add func(store.Header, string)) error {
	list, err := store.History[store.Incident](ctx, l.store, l.Site.ID, from, to)
	for _, i := range list {
		sentence := incidentNames[freshetv1.IncidentKind(i.Kind)]
		if !i.EndedAt.IsZero() {
			sentence += fmt.Sprintf(" for %.1f hours", i.EndedAt.Sub(i.OccurredAt).Hours())
		}
		add(i.Header, sentence)
	}
	return err
}

func (l *loop) deathWords(ctx context.Context, from, to time.Time, add func(store.Header, string)) error {
	deaths, err := store.History[store.Death](ctx, l.store, l.Site.ID, from, to)
	for _, d := range deaths {
		if c := l.cohort(d.CohortID); c.SystemID == l.ID {
			add(d.Header, fmt.Sprintf("%d of %s died", d.Count, c.Name))
		}
	}
	return err
}

func (l *loop) doseWords(ctx context.Context, from, to time.Time, add func(store.Header, string)) error {
	doses, err := store.History[store.Dosing](ctx, l.store, l.Site.ID, from, to)
	for _, d := range doses {
		if l.holds(d.VesselID) {
			add(d.Header, fmt.Sprintf("%s g of %s put in", show(d.MassG, 2), substanceName(d.Substance)))
		}
	}
	return err
}

func substanceName(number int16) string {
	name := strings.TrimPrefix(freshetv1.Substance(number).String(), "SUBSTANCE_")
	return strings.ToLower(strings.ReplaceAll(name, "_", " "))
}

// waterWords tells only of water that changes the loop: a twentieth of it or more.
func (l *loop) waterWords(ctx context.Context, from, to time.Time, add func(store.Header, string)) error {
	added, err := store.History[store.WaterIn](ctx, l.store, l.Site.ID, from, to)
	for _, w := range added {
		if (w.SystemID == l.ID || l.holds(w.VesselID)) && w.VolumeL >= l.litres()/20 {
			add(w.Header, fmt.Sprintf("Water added, %.0f L, %.0f %% of the loop", w.VolumeL, w.VolumeL/l.litres()*100))
		}
	}
	return err
}

// feedWords tells of feed that changed by a quarter against the fortnight before.
func (l *loop) feedWords(ctx context.Context, from, to time.Time, add func(store.Header, string)) error {
	was, err := l.fed(ctx, from.AddDate(0, 0, -14), from)
	if err != nil {
		return err
	}
	is, err := l.fed(ctx, from, to)
	days := int(math.Ceil(to.Sub(from).Hours() / 24))
	before, now := was.aDay(14), is.aDay(days)
	if before == 0 || math.Abs(now/before-1) < 0.25 {
		return err
	}
	direction := "raised"
	if now < before {
		direction = "cut"
	}
	add(store.Header{OccurredAt: from}, fmt.Sprintf("Feed %s from %.0f to %.0f g a day", direction, before, now))
	return err
}
