package main

import (
	"time"

	"github.com/spf13/cobra"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/cmd/freshet/page"
	"freshet.example/husbandry/quantity"
)

// instead are the flags that say what would be done otherwise.
type instead struct {
	feed, stock, warmer, replace float64
	unfed, still                 uint32
}

func (i *instead) flags(c *cobra.Command) {
	f := c.Flags()
	f.Float64Var(&i.feed, "feed", 1, "what if: times the feed of the last week")
	f.Uint32Var(&i.unfed, "unfed", 0, "what if: so many days without feed")
	f.Float64Var(&i.stock, "stock", 0, "what if: kg of fish more")
	f.Uint32Var(&i.still, "still", 0, "what if: pump and air stand so many hours, from midnight")
	f.Float64Var(&i.warmer, "warmer", 0, "what if: air warmer by so many degC, below 0 colder")
	f.Float64Var(&i.replace, "replace", 0, "what if: share of the water replaced each day")
}

// asked is the plan; nothing where no flag was given.
func (i *instead) asked() *freshetv1.Otherwise {
	o := &freshetv1.Otherwise{UnfedDays: i.unfed, AddedFishKg: i.stock, StillHours: i.still, AirWarmerKelvin: i.warmer, ReplacedShare: i.replace}
	if i.feed != 1 {
		o.FeedShare = proto.Float64(i.feed)
	}
	if proto.Size(o) == 0 {
		return nil
	}
	return o
}

func outlookCommand(a *app) *cobra.Command {
	var days uint32
	var seed uint64
	var otherwise instead
	return question{
		use: "outlook", short: "What will the loop do next, and what if I do otherwise?", args: noArguments,
		examples: []string{"freshet outlook", "freshet outlook --days 14 --why", "freshet outlook --feed 0.5", "freshet outlook --still 4 --warmer 5"},
		flags: func(c *cobra.Command) {
			c.Flags().Uint32Var(&days, "days", 7, "how many days ahead, up to 14")
			c.Flags().Uint64Var(&seed, "seed", 1, "chance decides by this number; the same number and record give the same forecast")
			otherwise.flags(c)
		},
		work: func(q *asking, _ []string) (proto.Message, func(*page.Page), error) {
			system, err := q.system()
			if err != nil {
				return nil, nil, err
			}
			m, err := analysis(q, freshetv1.AnalysisServiceClient.GetOutlook, &freshetv1.GetOutlookRequest{SystemId: system, Days: days, Otherwise: otherwise.asked(), Seed: seed})
			return m, func(p *page.Page) { q.outlook(p, m) }, err
		},
	}.command(a)
}

// outlook writes what presses, the figures, what doing otherwise would change,
// then fish and beds, and how far all of it may be believed.
func (a *asking) outlook(p *page.Page, m *freshetv1.GetOutlookResponse) {
	if len(m.GetAlarms()) == 0 {
		p.Say(m.GetSentence())
	}
	for _, alarm := range m.GetAlarms() {
		p.Item(mark(alarm.GetStanding()), alarm.GetSentence())
		for _, todo := range alarm.GetCautions() {
			p.Item(" ", todo)
		}
	}
	if len(m.GetFigures()) > 0 {
		a.outlookFigures(p, m.GetFigures())
	}
	if len(m.GetChanges()) > 0 {
		p.Title("What that would change")
		for _, c := range m.GetChanges() {
			p.Item(mark(c.GetStanding()), c.GetSentence())
		}
	}
	a.outlookOf(p, "Fish", m.GetFish())
	a.outlookOf(p, "Beds that begin or end bearing", m.GetBeds())
	p.Title("How far to believe it")
	p.Under(m.GetKept())
	if a.why {
		for _, f := range m.GetFigures() {
			if f.GetNarrowedBy() != "" {
				p.Under(f.GetTitle() + ": " + f.GetNarrowedBy() + ".")
			}
		}
	} else if best := narrowed(m.GetFigures()); best != "" {
		p.Under(best)
	}
	for _, c := range m.GetCautions() {
		p.Under(c)
	}
}

func (a *asking) outlookOf(p *page.Page, title string, answers []*freshetv1.Answer) {
	if len(answers) == 0 {
		return
	}
	p.Title(title)
	for _, answer := range answers {
		p.Item(mark(answer.GetStanding()), answer.GetSentence())
	}
}

// outlookFigures is a table of the first day and the last; with --why each
// figure's days as intervals on one scale.
func (a *asking) outlookFigures(p *page.Page, figures []*freshetv1.OutlookFigure) {
	if a.why {
		for _, f := range figures {
			p.Title(joinUnit(f.GetTitle(), f.GetUnit()) + ", 8 in 10")
			var bars []page.Bar
			for _, d := range f.GetDays() {
				bars = append(bars, bar(weekday(d.GetOn()), d.GetEstimate(), ""))
			}
			p.Spans(bars, brief)
		}
		return
	}
	days := figures[0].GetDays()
	p.Title("The water, 8 in 10 (degC; mg/L, nitrogen as N)")
	var rows [][]string
	for _, f := range figures {
		first, last := f.GetDays()[0], f.GetDays()[len(days)-1]
		rows = append(rows, []string{f.GetTitle(), within(first.GetEstimate()), within(last.GetEstimate())})
	}
	p.Table([]page.Column{{Title: "", Give: true}, {Title: weekday(days[0].GetOn()), Right: true}, {Title: weekday(days[len(days)-1].GetOn()), Right: true}}, rows)
}

func joinUnit(title, unit string) string {
	if unit == "" {
		return title
	}
	return title + ", " + unit
}

// within writes an interval, or beneath what it stays.
func within(e *freshetv1.Estimate) string {
	low, high := quantity.ShowChange(e.GetLow(), e.GetHigh(), 2)
	if e.GetLow() <= 0 {
		return "below " + high
	}
	return low + " to " + high
}

func weekday(day string) string {
	t, err := time.Parse(time.DateOnly, day)
	if err != nil {
		return day
	}
	return t.Format("Mon 2 Jan")
}

// narrowed names the one reading that would help most.
func narrowed(figures []*freshetv1.OutlookFigure) string {
	for _, f := range figures {
		if f.GetNarrowedBy() != "" {
			return f.GetTitle() + ": " + f.GetNarrowedBy() + "."
		}
	}
	return ""
}
