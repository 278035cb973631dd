package analysis

import (
	"context"
	"strings"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/nitrogen"
	"freshet.example/husbandry/quantity"
	"freshet.example/store"
)

// balance is a figure that is tested, and changes by what comes into the water
// and leaves it. What no record tells of is the rest, so that the parts add up.
type balance struct {
	figure
	flows func(*span) []flow
	rest  string // what it holds
}

// flow is what came into each litre between two tests, in the figure's unit;
// below nought, what went.
type flow struct {
	name  string
	value float64
}

// span is the time between two tests of a figure, and what is known of it.
type span struct {
	*loop
	before, after observed
	from, to      time.Time
	made          float64 // ammonia of the feed, mg N to each litre of the loop
	base          float64 // alkalinity of what was put in
	in, out       float64 // water, as share of the loop
}

// balances are the figures of tests that ExplainChange knows.
var balances = map[string]balance{
	"total_ammonia": {ofTests(tan, "Total ammonia", "mg/L as N"), func(p *span) []flow {
		return []flow{{"made of feed", p.made}, {"water let go", -p.out * p.mean(tan)}}
	}, "what filter and plants took, and errors of the tests"},
	"nitrite": {ofTests(nitrite, "Nitrite", "mg/L as N"), func(p *span) []flow {
		return []flow{{"made of ammonia", p.made - p.change(tan)}, {"water let go", -p.out * p.mean(nitrite)}}
	}, "what turned to nitrate, and errors of the tests"},
	"nitrate": {ofTests(nitrate, "Nitrate", "mg/L as N"), func(p *span) []flow {
		return []flow{{"made of ammonia", p.nitrified()}, {"water added", p.in * p.Site.SourceNitrate}, {"water let go", -p.out * p.mean(nitrate)}}
	}, "what plants took and what went to the air, and errors of the tests"},
	"alkalinity": {ofTests(alkalinity, "Alkalinity", "mg/L as CaCO3"), func(p *span) []flow {
		return []flow{{"base put in", p.base}, {"used by nitrification", -p.nitrified() * nitrogen.EbelingSlides.Alkalinity},
			{"water added", p.in * p.sourceAlkalinity()}, {"water let go", -p.out * p.mean(alkalinity)}}
	}, "what plants and stone gave back, and errors of the tests"},
	"water_temperature": {ofTests(temperature, "The water", "degC"), func(*span) []flow { return nil }, "warmth of air, sun and heater"},
}

// ofTests is a figure that is what its test says.
func ofTests(q freshetv1.Quantity, title, unit string) figure {
	return figure{title: title, unit: unit, inputs: []figureInput{{q, strings.ToLower(title), unit}}, work: itself,
		source: "tests; ammonia by Timmons & Ebeling (0.092 of protein), nitrification by " + nitrogen.EbelingSlides.Source}
}

// balanced tells what came and went between the last tests before two moments.
func (l *loop) balanced(ctx context.Context, name string, b balance, from, to time.Time) (*freshetv1.ExplainChangeResponse, error) {
	p := &span{loop: l}
	if err := p.tests(ctx, b, from, to); err != nil {
		return nil, err
	}
	if err := p.fill(ctx); err != nil {
		return nil, err
	}
	was, is := p.values(b)
	out := &freshetv1.ExplainChangeResponse{
		Before: l.stateOf(name, b.figure, itself(l.site), p.before, []float64{was}), After: l.stateOf(name, b.figure, itself(l.site), p.after, []float64{is}),
	}
	rest := is - was
	for _, f := range b.flows(p) {
		if f.value != 0 {
			out.Parts = append(out.Parts, &freshetv1.ChangePart{Input: f.name, Share: f.value})
			rest -= f.value
		}
	}
	out.Parts = append(out.Parts, &freshetv1.ChangePart{Input: "the rest", Share: rest})
	var err error
	out.Happenings, err = l.happenings(ctx, p.from.AddDate(0, 0, -2), to)
	out.Sentence = balanceWords(b, out, p.to.Sub(p.from))
	return out, err
}

// tests finds the two tests, which are to be different ones.
func (p *span) tests(ctx context.Context, b balance, from, to time.Time) (err error) {
	if p.before, err = p.observe(ctx, from); err != nil {
		return err
	}
	if p.after, err = p.observe(ctx, to); err != nil {
		return err
	}
	first, had := p.before[b.inputs[0].quantity]
	last, has := p.after[b.inputs[0].quantity]
	if !had || !has || !last.OccurredAt.After(first.OccurredAt) {
		return &TooLittleError{b.inputs[0].name + " was not read before the change and after it", "test it, and look again in some days"}
	}
	p.from, p.to = first.OccurredAt, last.OccurredAt
	return nil
}

// fill adds up what was fed, put in, added and let go.
func (p *span) fill(ctx context.Context) error {
	fed, err := p.fed(ctx, p.from, p.to)
	if err != nil {
		return err
	}
	if p.made, err = p.ammoniaOf(fed); err != nil {
		return err
	}
	doses, err := store.History[store.Dosing](ctx, p.store, p.Site.ID, p.from, p.to)
	if err != nil {
		return err
	}
	for _, d := range doses {
		if p.holds(d.VesselID) {
			p.base += p.baseOf(d)
		}
	}
	in, out, err := p.poured(ctx, p.from, p.to)
	p.in, p.out = in/p.litres(), out/p.litres()
	return err
}

// ammoniaOf is what feed becomes, mg N to each litre of the loop.
func (p *span) ammoniaOf(fed fed) (float64, error) {
	if fed.grams == 0 {
		return 0, nil
	}
	made, err := nitrogen.TANFromProtein(quantity.Kilograms(fed.grams/1000), quantity.Fraction(fed.share()))
	return float64(made) * 1e6 / p.litres(), err
}

func (p *span) values(b balance) (was, is float64) {
	was, _ = p.before.value(b.inputs[0].quantity)
	is, _ = p.after.value(b.inputs[0].quantity)
	return was, is
}

// nitrified is the ammonia that went all the way: what was made and does not
// stand in the water as more ammonia or nitrite than before.
func (p *span) nitrified() float64 { return max(0, p.made-p.change(tan)-p.change(nitrite)) }

// change is nought for what was not tested at both ends.
func (p *span) change(q freshetv1.Quantity) float64 {
	was, had := p.before.value(q)
	is, has := p.after.value(q)
	if !had || !has {
		return 0
	}
	return is - was
}

func (p *span) mean(q freshetv1.Quantity) float64 {
	was, _ := p.before.value(q)
	is, _ := p.after.value(q)
	return (was + is) / 2
}

func (p *span) sourceAlkalinity() float64 {
	if p.Site.SourceAlk == nil {
		return 0
	}
	return *p.Site.SourceAlk
}

// balanceWords tells the change, what is known to have come and gone, and what came before it.
func balanceWords(b balance, out *freshetv1.ExplainChangeResponse, took time.Duration) string {
	words := []string{roseOrFell(b.figure, out, dayCount(took))}
	if len(out.Parts) > 1 {
		var parts []string
		for _, part := range out.Parts {
			parts = append(parts, part.Input+" "+signed(part.Share))
		}
		words = append(words, "Reckoned from what was noted: "+strings.Join(parts, "; ")+", which is "+b.rest+".")
	}
	return strings.Join(append(words, beforeWords(out)...), " ")
}

func signed(v float64) string {
	if v < 0 {
		return show(v, 2)
	}
	return "+" + show(v, 2)
}

// dayCount tells how long something took, to the day.
func dayCount(took time.Duration) string {
	return counted(max(1, int(took.Hours()/24+0.5)), "day")
}
