package analysis

import (
	"context"
	"fmt"
	"math"
	"slices"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/fish"
	"freshet.example/husbandry/quantity"
	"freshet.example/husbandry/water"
)

const (
	tan         = freshetv1.Quantity_QUANTITY_TOTAL_AMMONIA
	acidity     = freshetv1.Quantity_QUANTITY_PH
	temperature = freshetv1.Quantity_QUANTITY_WATER_TEMPERATURE
	oxygen      = freshetv1.Quantity_QUANTITY_DISSOLVED_OXYGEN
	alkalinity  = freshetv1.Quantity_QUANTITY_ALKALINITY
	nitrite     = freshetv1.Quantity_QUANTITY_NITRITE
	nitrate     = freshetv1.Quantity_QUANTITY_NITRATE
	chloride    = freshetv1.Quantity_QUANTITY_CHLORIDE

	well    = freshetv1.Standing_STANDING_WELL
	watch   = freshetv1.Standing_STANDING_WATCH
	act     = freshetv1.Standing_STANDING_ACT
	unknown = freshetv1.Standing_STANDING_UNKNOWN
)

// tested is how old a hand test may be, read how old a probe's value may be.
const (
	tested = 4 * 24 * time.Hour
	read   = 12 * time.Hour
)

// DescribeWater judges the loop's water, most pressing figure first.
func (s *Service) DescribeWater(ctx context.Context, in *freshetv1.DescribeWaterRequest) (*freshetv1.DescribeWaterResponse, error) {
	l, err := s.loop(ctx, in.GetSystemId())
	if err != nil {
		return nil, err
	}
	answers, err := l.describe(ctx, s.at(in.GetAt()))
	return &freshetv1.DescribeWaterResponse{Answers: answers}, err
}

// glass is a loop's water looked at at one moment.
type glass struct {
	*loop
	observed
	at      time.Time
	species []fish.Species
}

func (l *loop) glass(ctx context.Context, at time.Time) (*glass, error) {
	seen, err := l.observe(ctx, at)
	if err != nil {
		return nil, err
	}
	g := &glass{loop: l, observed: seen, at: at}
	for _, c := range l.cohorts() {
		if s, err := speciesOf(c.Species); err == nil && !slices.ContainsFunc(g.species, func(o fish.Species) bool { return o.Name == s.Name }) {
			g.species = append(g.species, s)
		}
	}
	return g, nil
}

func (l *loop) describe(ctx context.Context, at time.Time) ([]*freshetv1.Answer, error) {
	g, err := l.glass(ctx, at)
	if err != nil {
		return nil, err
	}
	answers := []*freshetv1.Answer{
		g.unionized(), g.dissolvedOxygen(), g.nitriteAnswer(), g.warmth(), g.ph(), g.carbonDioxide(), g.nitrateAnswer(),
	}
	slices.SortStableFunc(answers, func(a, b *freshetv1.Answer) int { return urgency(b.Standing) - urgency(a.Standing) })
	return answers, nil
}

// lacking answers where readings are missing.
func lacking(name, words string, quantities ...string) *freshetv1.Answer {
	a := &freshetv1.Answer{Name: name, Standing: unknown, Sentence: words}
	for _, q := range quantities {
		a.Missing = append(a.Missing, q+" was never read here")
	}
	return a
}

// ammoniaLimit is the un-ionized ammonia wanted at most, mg/L as N, and who says so.
func (g *glass) ammoniaLimit() (float64, string) {
	if g.UnionizedHigh != nil {
		return *g.UnionizedHigh, "set for this loop"
	}
	limit, from := float64(water.HarmfulUnionized), "IFAS FA-16"
	for _, s := range g.species {
		if v := float64(s.AmmoniaLimit.Value); v > 0 && v < limit {
			limit, from = v, "species table, "+s.Name
		}
	}
	return limit, from
}

func (g *glass) unionized() *freshetv1.Answer {
	total, ok1 := g.value(tan)
	ph, ok2 := g.value(acidity)
	t, ok3 := g.value(temperature)
	if !ok1 || !ok2 || !ok3 {
		return lacking("unionized_ammonia", "Whether ammonia is safe cannot be told.", g.absent(tan, acidity, temperature)...)
	}
	limit, from := g.ammoniaLimit()
	j, err := water.JudgeAmmonia(quantity.AmmoniaN(total), quantity.PH(ph), quantity.Celsius(t), water.UnionizedN(limit))
	if err != nil {
		return lacking("unionized_ammonia", "Whether ammonia is safe cannot be told: "+err.Error()+".")
	}
	a := &freshetv1.Answer{
		Name: "unionized_ammonia", Estimate: estimate(float64(j.Unionized), "mg/L as N"), Sentence: ammoniaWords(j),
		Inputs: []*freshetv1.InputUsed{
			g.used(g.observed, tan, "total ammonia", "mg/L as N"), g.used(g.observed, acidity, "pH", ""),
			g.used(g.observed, temperature, "water temperature", "degC"), setting("limit", limit, "mg/L as N", from),
		},
		Source:     "Emerson, Russo, Lund & Thurston 1975",
		ValidRange: "fresh water, 0 to 50 degC; reads 10 to 12 % high in a working loop, which errs on the careful side",
		Cautions:   []string{"Test when pH is highest, in the afternoon. While ammonia is high: stop feeding, add clean water without chlorine, do not raise pH."},
		Standing:   ammoniaStanding(float64(j.Unionized) / limit),
	}
	stale(a, "Ammonia", g.observed[tan].OccurredAt, g.at, tested)
	stale(a, "pH", g.observed[acidity].OccurredAt, g.at, tested)
	return a
}

func ammoniaStanding(share float64) freshetv1.Standing {
	switch {
	case share > 1:
		return act
	case share > 0.5:
		return watch
	}
	return well
}

// ammoniaWords says how it stands and which single change would turn it.
func ammoniaWords(j water.Judgement) string {
	now := fmt.Sprintf("%s mg/L un-ionized, limit %s", show(float64(j.Unionized), 2), show(float64(j.Limit), 2))
	if !j.Safe {
		s := "Ammonia is not safe: " + now + "."
		if !math.IsNaN(float64(j.Ammonia)) {
			s += fmt.Sprintf(" Below %s mg/L of total ammonia it would be safe.", show(float64(j.Ammonia), 2))
		}
		return s
	}
	s := "Ammonia is safe: " + now + "."
	if !math.IsNaN(float64(j.PH)) {
		s += fmt.Sprintf(" It would not be if pH passed %.1f.", float64(j.PH))
	}
	return s
}

func (g *glass) absent(quantities ...freshetv1.Quantity) []string {
	var names []string
	for _, q := range quantities {
		if _, ok := g.value(q); !ok {
			names = append(names, map[freshetv1.Quantity]string{
				tan: "Total ammonia", acidity: "pH", temperature: "Water temperature", alkalinity: "Alkalinity", oxygen: "Dissolved oxygen",
			}[q])
		}
	}
	return names
}

// oxygenLimit is the least oxygen wanted, mg/L.
func (g *glass) oxygenLimit() (float64, string) {
	if g.OxygenLow != nil {
		return *g.OxygenLow, "set for this loop"
	}
	limit, from := 5.0, "FAO TP 589, for all kinds"
	for i, s := range g.species {
		if v := float64(s.OxygenMinimum.Value); v > limit || i == 0 && v > 0 {
			limit, from = v, "species table, "+s.Name
		}
	}
	return limit, from
}

func (g *glass) dissolvedOxygen() *freshetv1.Answer {
	o, ok1 := g.value(oxygen)
	t, ok2 := g.value(temperature)
	if !ok1 || !ok2 {
		return lacking("oxygen_saturation", "Oxygen is not measured here.", g.absent(oxygen, temperature)...)
	}
	limit, from := g.oxygenLimit()
	percent, err := water.OxygenPercent(quantity.MgPerL(o), quantity.Celsius(t), 0, g.pressure())
	if err != nil {
		return lacking("oxygen_saturation", "Oxygen cannot be judged: "+err.Error()+".")
	}
	full, _ := water.OxygenSaturation(quantity.Celsius(t), 0, g.pressure())
	a := &freshetv1.Answer{
		Name: "oxygen_saturation", Estimate: estimate(float64(percent), "percent"),
		Inputs: []*freshetv1.InputUsed{
			g.used(g.observed, oxygen, "dissolved oxygen", "mg/L"), g.used(g.observed, temperature, "water temperature", "degC"),
			setting("air pressure by height", float64(g.pressure()), "atm", "site"), setting("least wanted", limit, "mg/L", from),
		},
		Source: "Benson & Krause 1984; Standard Methods 4500-O", ValidRange: "0 to 40 degC, station pressure",
		Cautions: []string{"Oxygen is lowest before dawn and after feeding."},
		Sentence: fmt.Sprintf("Oxygen is %s mg/L, %.0f %% of what this water holds at this height (%s mg/L).", show(o, 2), float64(percent), show(float64(full), 2)),
	}
	a.Standing = well
	if o < limit {
		a.Standing = act
		a.Sentence += fmt.Sprintf(" The fish want at least %s: aerate now and do not feed.", show(limit, 2))
	} else if o < limit*1.15 {
		a.Standing = watch
		a.Sentence += fmt.Sprintf(" It is close to the %s that the fish want at least.", show(limit, 2))
	}
	stale(a, "Oxygen", g.observed[oxygen].OccurredAt, g.at, read)
	return a
}

func (g *glass) carbonDioxide() *freshetv1.Answer {
	ph, ok1 := g.value(acidity)
	t, ok2 := g.value(temperature)
	alk, ok3 := g.value(alkalinity)
	if !ok1 || !ok2 || !ok3 {
		return lacking("carbon_dioxide", "Carbon dioxide cannot be told.", g.absent(acidity, temperature, alkalinity)...)
	}
	co2, err := water.CarbonDioxide(quantity.PH(ph), quantity.Celsius(t), quantity.AlkalinityCaCO3(alk))
	if err != nil {
		return lacking("carbon_dioxide", "Carbon dioxide cannot be told: "+err.Error()+".")
	}
	a := &freshetv1.Answer{
		Name: "carbon_dioxide", Estimate: estimate(float64(co2), "mg/L"), Standing: well,
		Inputs: []*freshetv1.InputUsed{
			g.used(g.observed, acidity, "pH", ""), g.used(g.observed, temperature, "water temperature", "degC"),
			g.used(g.observed, alkalinity, "alkalinity", "mg/L as CaCO3"),
		},
		Source: "Plummer & Busenberg 1982", ValidRange: "fresh water below about pH 8.4; reads up to 20 % high in a working loop",
		Sentence: fmt.Sprintf("Carbon dioxide is about %s mg/L; below 20 is a common target.", show(float64(co2), 2)),
	}
	if co2 > 20 {
		a.Standing = watch
		a.Sentence += " Aerate more."
	}
	stale(a, "Alkalinity", g.observed[alkalinity].OccurredAt, g.at, 14*24*time.Hour)
	return a
}

func (g *glass) warmth() *freshetv1.Answer {
	t, ok := g.value(temperature)
	if !ok {
		return lacking("water_temperature", "Water temperature is not measured here.", "Water temperature")
	}
	a := &freshetv1.Answer{
		Name: "water_temperature", Estimate: estimate(t, "degC"), Standing: well, Source: "species table",
		Inputs:   []*freshetv1.InputUsed{g.used(g.observed, temperature, "water temperature", "degC")},
		Sentence: fmt.Sprintf("The water is %s degC.", show(t, 3)),
	}
	for _, s := range g.species {
		g.warmthFor(a, s, t)
	}
	stale(a, "Water temperature", g.observed[temperature].OccurredAt, g.at, read)
	return a
}

func (g *glass) warmthFor(a *freshetv1.Answer, s fish.Species, t float64) {
	low, high := float64(s.LethalLow.Value), float64(s.LethalHigh.Value)
	switch {
	case s.LethalLow.Source != "" && t <= low+1 || s.LethalHigh.Source != "" && t >= high-1:
		a.Standing = worse(a.Standing, act)
		a.Sentence += fmt.Sprintf(" That is near what kills %s.", s.Name)
	case s.FeedLow.Source != "" && t < float64(s.FeedLow.Value):
		a.Standing = worse(a.Standing, watch)
		a.Sentence += fmt.Sprintf(" %s does not feed below %s: give nothing.", s.Name, show(float64(s.FeedLow.Value), 2))
	case s.FeedHigh.Source != "" && t > float64(s.FeedHigh.Value):
		a.Standing = worse(a.Standing, watch)
		a.Sentence += fmt.Sprintf(" %s does not feed above %s: give nothing.", s.Name, show(float64(s.FeedHigh.Value), 2))
	}
}

// ranged judges a plain reading against a range.
func (g *glass) ranged(q freshetv1.Quantity, name, title, unit string, low, high float64, from string) *freshetv1.Answer {
	v, ok := g.value(q)
	if !ok {
		return lacking(name, title+" is not measured here.", title)
	}
	a := &freshetv1.Answer{
		Name: name, Estimate: estimate(v, unit), Standing: well, Source: from,
		Inputs:   []*freshetv1.InputUsed{g.used(g.observed, q, title, unit)},
		Sentence: fmt.Sprintf("%s is %s%s.", title, show(v, 2), spaced(unit)),
	}
	switch {
	case v < low:
		a.Standing = watch
		a.Sentence = fmt.Sprintf("%s is %s%s, below the %s wanted.", title, show(v, 2), spaced(unit), show(low, 2))
	case v > high:
		a.Standing = watch
		a.Sentence = fmt.Sprintf("%s is %s%s, above the %s wanted.", title, show(v, 2), spaced(unit), show(high, 2))
	}
	stale(a, title, g.observed[q].OccurredAt, g.at, 2*tested)
	return a
}

func spaced(unit string) string {
	if unit == "" {
		return ""
	}
	return " " + unit
}

func (g *glass) ph() *freshetv1.Answer {
	low, high, from := 6.0, 7.5, "FAO TP 589: bacteria want 6 to 8.5, plants 5.5 to 7.5"
	if g.PHLow != nil {
		low, from = *g.PHLow, "set for this loop"
	}
	if g.PHHigh != nil {
		high, from = *g.PHHigh, "set for this loop"
	}
	a := g.ranged(acidity, "ph", "pH", "", low, high, from)
	if v, ok := g.value(acidity); ok {
		a.Sentence = fmt.Sprintf("pH is %.1f.", v)
		if a.Standing = well; math.Abs(v-high) < 0.05 || math.Abs(v-low) < 0.05 {
			return a // at the bound, to the digits a person reads
		}
		switch {
		case v < low:
			a.Standing = watch
			a.Sentence += fmt.Sprintf(" Below %.1f bacteria slow down: raise alkalinity little by little, and test ammonia first, since raising pH makes it poisonous.", low)
		case v > high:
			a.Standing = watch
			a.Sentence += fmt.Sprintf(" Above %.1f plants take up iron poorly; do not force it down, it falls as bacteria work.", high)
		}
	}
	return a
}

func (g *glass) nitrateAnswer() *freshetv1.Answer {
	// FAO TP 589 prints 5 to 150 mg/L for all kinds together, counted as ion.
	span, err := water.Tolerance(water.Compromise, water.NitrateMgPerL)
	if err != nil {
		return lacking("nitrate", "Nitrate cannot be judged.")
	}
	asN := func(ion float64) float64 { return float64(quantity.NitrateIon(ion).N()) }
	return g.ranged(nitrate, "nitrate", "Nitrate", "mg/L as N", asN(span.Low), asN(span.High), "FAO TP 589, 5 to 150 mg/L as ion")
}

func (g *glass) nitriteAnswer() *freshetv1.Answer {
	v, ok := g.value(nitrite)
	if !ok {
		return lacking("nitrite", "Nitrite is not tested here.", "Nitrite")
	}
	a := g.ranged(nitrite, "nitrite", "Nitrite", "mg/L as N", 0, 0.3, "FAO TP 589: below 1 mg/L as ion for warm-water fish")
	cl, known := g.value(chloride)
	if known {
		a.Inputs = append(a.Inputs, g.used(g.observed, chloride, "chloride", "mg/L"))
		if ratio, err := water.ChlorideToNitrite(water.ChlorideCl(cl), quantity.NitriteN(v)); err == nil {
			a.Sentence += fmt.Sprintf(" Chloride is %s times the nitrite.", show(ratio, 2))
		}
	} else if a.Standing != well {
		a.Missing = append(a.Missing, "Chloride was not measured; enough of it keeps nitrite out of the gills")
	}
	if v > 1 {
		a.Standing = act
	}
	return a
}
