package main

import (
	"fmt"
	"math"
	"strings"

	"github.com/spf13/cobra"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/cmd/freshet/page"
	"freshet.example/cmd/freshet/words"
)

func joined(args []string) string { return strings.Join(args, " ") }

func bearingCommand(a *app) *cobra.Command {
	return question{
		use: "bearing", short: "What bears when?", args: noArguments, examples: []string{"freshet bearing"},
		work: func(q *asking, _ []string) (proto.Message, func(*page.Page), error) {
			site, err := q.site()
			if err != nil {
				return nil, nil, err
			}
			m, err := analysis(q, freshetv1.AnalysisServiceClient.ForecastBearing, &freshetv1.ForecastBearingRequest{SiteId: site})
			return m, func(p *page.Page) { q.bearing(p, m) }, err
		},
	}.command(a)
}

// bearing writes the windows, then for each wanted crop a column a week.
func (a *asking) bearing(p *page.Page, m *freshetv1.ForecastBearingResponse) {
	for _, w := range m.GetWindows() {
		p.Item(mark(w.GetAnswer().GetStanding()), w.GetAnswer().GetSentence())
		for _, c := range w.GetAnswer().GetCautions() {
			p.Under("    " + c)
		}
	}
	if len(m.GetGapsAndGluts()) == 0 {
		return
	}
	p.Title("Weeks to come: . nothing bears, - less than is used, = enough, + more than twice")
	rows, order := map[string]string{}, []string{}
	for _, w := range m.GetGapsAndGluts() {
		if rows[w.GetCrop()] == "" {
			order = append(order, w.GetCrop())
		}
		rows[w.GetCrop()] += weekMark(w.GetSurplusKg(), a.uses(w.GetCrop()))
	}
	var table [][]string
	for _, crop := range order {
		table = append(table, []string{crop, rows[crop]})
	}
	p.Table([]page.Column{{Title: "", Give: true}, {Title: "from " + on(m.GetGapsAndGluts()[0].GetWeekOn())}}, table)
}

func weekMark(surplus, use float64) string {
	switch {
	case use > 0 && surplus <= -use*0.999:
		return "."
	case surplus < 0:
		return "-"
	case surplus > use:
		return "+"
	}
	return "="
}

// uses is what the household uses of a crop, from the device's own copy.
func (a *asking) uses(crop string) float64 {
	for _, r := range a.desk.Book.Of(a.desk.SiteID, "crop") {
		fields := r.Message.Descriptor().Fields()
		if r.Message.Get(fields.ByName("crop")).String() == crop {
			return r.Message.Get(fields.ByName("use_kg_per_week")).Float()
		}
	}
	return math.NaN()
}

func sowCommand(a *app) *cobra.Command {
	return question{
		use: "sow", short: "What do I sow this week?", args: noArguments, examples: []string{"freshet sow"},
		work: func(q *asking, _ []string) (proto.Message, func(*page.Page), error) {
			site, err := q.site()
			if err != nil {
				return nil, nil, err
			}
			m, err := analysis(q, freshetv1.AnalysisServiceClient.SuggestSowing, &freshetv1.SuggestSowingRequest{SiteId: site})
			return m, func(p *page.Page) {
				head, rest, _ := strings.Cut(m.GetSentence(), "\n")
				p.Say(head)
				for _, s := range m.GetSuggestions() {
					p.Item("-", fmt.Sprintf("%s in %s, %s m2, %d seeds: bears from about %s to %s.", s.GetCrop(), page.Clean(s.GetBedName()), brief(s.GetArea().GetValue()), s.GetSeedsCount(), on(s.GetBearsFromOn()), on(s.GetBearsToOn())))
				}
				if rest != "" {
					p.Title("Not this week")
					for _, line := range strings.Split(rest, "\n") {
						p.Item("-", line)
					}
				}
				for _, c := range m.GetCautions() {
					p.Item("~", c)
				}
			}, err
		},
	}.command(a)
}

func larderCommand(a *app) *cobra.Command {
	return question{
		use: "larder", short: "Where did the harvest go?", args: noArguments, examples: []string{"freshet larder"},
		work: func(q *asking, _ []string) (proto.Message, func(*page.Page), error) {
			site, err := q.site()
			if err != nil {
				return nil, nil, err
			}
			m, err := analysis(q, freshetv1.AnalysisServiceClient.GetLarder, &freshetv1.GetLarderRequest{SiteId: site})
			return m, func(p *page.Page) { q.larder(p, m) }, err
		},
	}.command(a)
}

func (a *asking) larder(p *page.Page, m *freshetv1.GetLarderResponse) {
	p.Say("What a year's harvest became.")
	for _, l := range m.GetLines() {
		text := fmt.Sprintf("%s: %s kg harvested", strings.ReplaceAll(l.GetProduce(), "_", " "), brief(l.GetHarvestedKg()))
		for _, u := range l.GetUses() {
			text += fmt.Sprintf("; %s kg %s", brief(u.GetMassKg()), words.EnumWord(u.GetUse().Descriptor(), u.GetUse().Number()))
			if u.GetPiecesCount() > 0 {
				text += fmt.Sprintf(" (%d pieces)", u.GetPiecesCount())
			}
			if len(u.GetHadForIt()) > 0 {
				text += " for " + page.Clean(strings.Join(u.GetHadForIt(), ", "))
			}
		}
		switch left := l.GetOnHandKg(); {
		case left > 0:
			text += fmt.Sprintf("; %s kg on hand or not told.", brief(left))
		case left < 0:
			text += fmt.Sprintf("; %s kg more were used than harvested: a harvest was not noted.", brief(-left))
		default:
			text += "; none left."
		}
		p.Item("-", text)
	}
	for _, c := range m.GetCautions() {
		p.Gap()
		p.Under(c)
	}
}
