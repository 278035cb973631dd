package main

import (
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/cmd/freshet/page"
)

func planCommand(a *app) *cobra.Command {
	var weeks uint32
	var whole bool
	return question{
		use: "plan", short: "What do I sow through the season?", args: noArguments, examples: []string{"freshet plan", "freshet plan --weeks 26 --whole"},
		flags: func(c *cobra.Command) {
			c.Flags().Uint32Var(&weeks, "weeks", 52, "how many weeks ahead, 4 to 104")
			c.Flags().BoolVar(&whole, "whole", false, "write every sowing, not the next weeks' alone")
		},
		work: func(q *asking, _ []string) (proto.Message, func(*page.Page), error) {
			site, err := q.site()
			if err != nil {
				return nil, nil, err
			}
			m, err := analysis(q, freshetv1.AnalysisServiceClient.PlanSowing, &freshetv1.PlanSowingRequest{SiteId: site, Weeks: weeks})
			return m, func(p *page.Page) { q.plan(p, m, whole) }, err
		},
	}.command(a)
}

// soon is for how many weeks sowings are written where not all are asked for.
const soon = 4

// plan writes how each crop would bear, then what to do week by week.
func (a *asking) plan(p *page.Page, m *freshetv1.PlanSowingResponse, whole bool) {
	p.Say(m.GetSentence())
	start, err := time.Parse(time.DateOnly, m.GetFromOn())
	if err != nil || len(m.GetCrops()) == 0 {
		return
	}
	strips(p, m, start)
	until := start.AddDate(0, 0, 7*soon).Format(time.DateOnly)
	week := ""
	for i, s := range m.GetSowings() {
		if !whole && s.GetWeekOn() >= until {
			p.Gap()
			later := fmt.Sprintf("%d more later", len(m.GetSowings())-i)
			if i == 0 {
				later = fmt.Sprintf("Nothing to sow in %d weeks; %d later, the first in the week of %s", soon, len(m.GetSowings()), on(s.GetWeekOn()))
			}
			p.Under(later + ": freshet plan --whole. What really happens moves them; ask again each week.")
			break
		}
		if s.GetWeekOn() != week {
			week = s.GetWeekOn()
			p.Title("Week of " + on(week))
		}
		p.Item("-", sowingLine(s))
	}
	if len(m.GetCautions())+len(m.GetMissing()) > 0 {
		p.Gap()
	}
	for _, c := range m.GetCautions() {
		p.Item("~", c)
	}
	for _, missing := range m.GetMissing() {
		p.Item("?", missing+".")
	}
	if a.why {
		p.Under(m.GetSource())
	}
}

func sowingLine(s *freshetv1.PlannedSowing) string {
	line := fmt.Sprintf("sow %s in %s, %s m2", s.GetCrop(), page.Clean(s.GetBedName()), brief(s.GetArea().GetValue()))
	if s.GetSetOut() {
		line = strings.Replace(line, "sow", "set out", 1)
	}
	if s.GetPlantsCount() > 0 {
		line += fmt.Sprintf(", %d plants", s.GetPlantsCount())
	}
	if s.GetTrayOn() != "" {
		line += ", from seed sown in a tray on " + on(s.GetTrayOn())
	}
	return line + ": bears from about " + on(s.GetBearsFromOn()) + " to " + on(s.GetEndsOn()) + "."
}

// strips draws a mark a week for each crop, under the months; where the page is
// narrow a mark stands for several weeks, and shows the worst of them.
func strips(p *page.Page, m *freshetv1.PlanSowingResponse, start time.Time) {
	name := 0
	for _, c := range m.GetCrops() {
		name = max(name, page.Columns(c.GetCrop()))
	}
	weeks := len(m.GetCrops()[0].GetBorneShares())
	step := 1
	for weeks/step > p.Width()-name-6 {
		step++
	}
	span := "A mark a week"
	if step > 1 {
		span = fmt.Sprintf("A mark for %d weeks, the worst of them", step)
	}
	p.Title(span + ": = bears enough, - less, . nothing; blank where no sowing can bear")
	rows := [][]string{{"", months(start, weeks, step)}}
	for _, c := range m.GetCrops() {
		rows = append(rows, []string{c.GetCrop(), strip(c, step)})
	}
	p.Table([]page.Column{{}, {}}, rows)
}

// months writes a month's first letters where it begins, unless they would run
// into those before.
func months(start time.Time, weeks, step int) string {
	line, last, marks := "", time.Month(0), (weeks+step-1)/step
	for at := range marks {
		month := start.AddDate(0, 0, 7*step*at).Month()
		if month != last && (line == "" || len(line) < at) {
			line += strings.Repeat(" ", at-len(line)) + month.String()[:3]
		}
		last = month
	}
	return line[:min(len(line), marks)]
}

func strip(c *freshetv1.PlannedCrop, step int) string {
	marks := ""
	for week := 0; week < len(c.GetBorneShares()); week += step {
		worst := byte('=')
		for i := week; i < min(week+step, len(c.GetBorneShares())); i++ {
			if mark := shareMark(c.GetBorneShares()[i], c.GetReachable()[i]); strings.IndexByte(" .-=", mark) < strings.IndexByte(" .-=", worst) {
				worst = mark
			}
		}
		marks += string(worst)
	}
	return marks
}

func shareMark(share float64, reachable bool) byte {
	switch {
	case !reachable:
		return ' '
	case share <= 0.01:
		return '.'
	case share < 0.75-1e-9:
		return '-'
	}
	return '='
}
