package main

import (
	"fmt"

	"github.com/spf13/cobra"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/cmd/freshet/page"
)

// compared is what sites are compared on, by the words for it.
var compared = map[string]freshetv1.PoolMeasure{
	"produce":  freshetv1.PoolMeasure_POOL_MEASURE_PRODUCE_KG_PER_M2_YEAR,
	"feed":     freshetv1.PoolMeasure_POOL_MEASURE_FEED_CONVERSION,
	"survival": freshetv1.PoolMeasure_POOL_MEASURE_SURVIVAL_PERCENT,
	"water":    freshetv1.PoolMeasure_POOL_MEASURE_WATER_L_PER_KG,
	"energy":   freshetv1.PoolMeasure_POOL_MEASURE_ENERGY_KWH_PER_KG,
	"labour":   freshetv1.PoolMeasure_POOL_MEASURE_LABOUR_H_PER_KG,
}

func compareCommand(a *app) *cobra.Command {
	return question{
		use: "compare MEASURE", short: "How do we do beside the others?", long: "MEASURE is one of produce, feed, survival, water, energy, labour.", args: oneArgument("what to compare: produce, feed, survival, water, energy or labour"),
		examples: []string{"freshet compare produce", "freshet compare feed --json"},
		work: func(q *asking, args []string) (proto.Message, func(*page.Page), error) {
			measure, known := compared[args[0]]
			if !known {
				return nil, nil, wrong("sites are not compared on "+args[0], "on produce, feed, survival, water, energy and labour they are")
			}
			m, err := pooled(q, freshetv1.PoolServiceClient.CompareSites, &freshetv1.CompareSitesRequest{Measure: measure, SiteId: q.desk.SiteID})
			return m, func(p *page.Page) { q.compare(p, m) }, err
		},
	}.command(a)
}

// compare tells how one's own site stands among the others, and on what ground.
func (a *asking) compare(p *page.Page, m *freshetv1.CompareSitesResponse) {
	p.Say(m.GetSentence())
	if m.GetMatched() != nil {
		p.Gap()
		p.Say(m.GetMatched().GetSentence())
	}
	comparedBars(p, m)
	comparedTable(p, m.GetSites())
	comparedClaims(p, m)
	a.comparedHow(p, m)
}

// comparedBars draws the sites as intervals on one scale; own is starred.
func comparedBars(p *page.Page, m *freshetv1.CompareSitesResponse) {
	p.Title(m.GetGroup().GetUnit() + ", pulled towards the group as far as a record is thin, 9 in 10")
	var bars []page.Bar
	for _, s := range m.GetSites() {
		b := bar(page.Clean(s.GetName()), s.GetPulled(), "")
		b.Mark = "  "
		if s.GetOwn() {
			b.Mark = "* "
		}
		bars = append(bars, b)
	}
	group := bar("the group", m.GetGroup(), "")
	group.Mark = "  "
	p.Spans(append(bars, group), brief)
}

func comparedTable(p *page.Page, sites []*freshetv1.SiteFigure) {
	p.Title("As recorded, and over one and the same year")
	var rows [][]string
	for _, s := range sites {
		rows = append(rows, []string{page.Clean(s.GetName()), brief(s.GetAsRecorded().GetValue()), brief(s.GetAdjusted().GetValue()), place(s),
			fmt.Sprintf("%d of 12", s.GetMonthsCount()), fmt.Sprintf("%.0f %%", s.GetCompleteness()*100)})
	}
	p.Table([]page.Column{{Title: "site", Give: true}, {Title: "recorded", Right: true}, {Title: "one year", Right: true},
		{Title: "stands at", Right: true}, {Title: "months", Right: true}, {Title: "days noted", Right: true}}, rows)
}

// comparedClaims puts what is often said to the test of one's own records.
func comparedClaims(p *page.Page, m *freshetv1.CompareSitesResponse) {
	if m.GetOwnSoil() != nil {
		p.Gap()
		p.Say(m.GetOwnSoil().GetSentence())
	}
	for _, c := range m.GetClaims() {
		p.Gap()
		p.Say(c.GetSentence())
		for _, caution := range c.GetCautions() {
			p.Item("~", caution)
		}
	}
}

// comparedHow says what was reckoned, over which months and without whom.
func (a *asking) comparedHow(p *page.Page, m *freshetv1.CompareSitesResponse) {
	p.Gap()
	p.Under(m.GetDefinition())
	p.Under(fmt.Sprintf("Months from %s to %s. %s", m.GetFromOn(), m.GetToOn(), m.GetAdjustment()))
	for _, l := range m.GetLeftOut() {
		p.Under(fmt.Sprintf("Left out: %d, %s.", l.GetCount(), l.GetReason()))
	}
	if a.why {
		p.Under(m.GetSource())
		if m.GetMatched().GetSource() != "" {
			p.Under(m.GetMatched().GetSource())
		}
	}
}

func place(s *freshetv1.SiteFigure) string {
	if s.GetRankHigh() == 0 {
		return "not told"
	}
	return fmt.Sprintf("%d to %d", s.GetRankLow(), s.GetRankHigh())
}
