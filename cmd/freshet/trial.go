package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/cmd/freshet/page"
)

func trialCommand(a *app) *cobra.Command {
	c := question{
		use: "trial [QUESTION]", short: "Did the change work?", args: cobra.ArbitraryArgs,
		examples: []string{"freshet trial", "freshet trial peppers", `freshet trial plan "melons under cover: hand pollination against none" none "by hand"`},
		work: func(q *asking, args []string) (proto.Message, func(*page.Page), error) {
			id, err := q.trial(joined(args))
			if err != nil {
				return nil, nil, err
			}
			m, err := pooled(q, freshetv1.PoolServiceClient.GetTrialResult, &freshetv1.GetTrialResultRequest{TrialId: id})
			return m, func(p *page.Page) { q.trialResult(p, m) }, err
		},
	}.command(a)
	c.AddCommand(trialPlanCommand(a))
	return c
}

func (a *asking) trialResult(p *page.Page, m *freshetv1.GetTrialResultResponse) {
	p.Say(m.GetQuestion())
	for _, arm := range m.GetArms() {
		p.Item("-", fmt.Sprintf("%s: %s over %d plantings", arm.GetName(), figure(arm.GetMean()), arm.GetCount()))
	}
	p.Gap()
	p.Say(m.GetSentence())
	for _, together := range m.GetPooled() {
		p.Gap()
		p.Say(together.GetSentence())
	}
	if a.why {
		p.Under(m.GetSource())
	}
}

// trialMeasures are what a trial can measure, by the words for it.
var trialMeasures = map[string]freshetv1.TrialMeasure{
	"harvest": freshetv1.TrialMeasure_TRIAL_MEASURE_HARVEST_KG_PER_M2, "pieces": freshetv1.TrialMeasure_TRIAL_MEASURE_PIECES_PER_PLANT,
	"days": freshetv1.TrialMeasure_TRIAL_MEASURE_DAYS_TO_BEARING,
}

func trialPlanCommand(a *app) *cobra.Command {
	var seed uint64
	var plots uint32
	var worthwhile float64
	var measure, crop string
	var beds []string
	made := &making{}
	return question{
		use: "plan QUESTION ARM ARM...", short: "Which bed gets what, and how much would so many beds tell?", args: cobra.MinimumNArgs(3),
		examples: []string{`freshet trial plan "Do peppers give more at 30 cm?" "40 cm" "30 cm"`, `freshet trial plan "Does mulch help kale?" bare mulched --beds "Raft A,Raft B" --plots 2 --crop kale`,
			`freshet trial plan "Does mulch help kale?" bare mulched --crop kale --ends 2026-09-30 --yes`},
		flags: func(c *cobra.Command) {
			c.Flags().Uint64Var(&seed, "seed", 1, "chance decides by this number; the same number gives the same layout")
			c.Flags().Uint32Var(&plots, "plots", 1, "plots of each arm in each bed")
			c.Flags().Float64Var(&worthwhile, "worthwhile", 20, "smallest difference worth knowing, percent")
			c.Flags().StringVar(&measure, "measure", "harvest", "what is measured: harvest, pieces or days")
			c.Flags().StringVar(&crop, "crop", "", "the crop whose past harvests here say how plots spread")
			c.Flags().StringSliceVar(&beds, "beds", nil, "the beds, by name (default all beds of loops)")
			made.flags(c)
		},
		work: func(q *asking, args []string) (proto.Message, func(*page.Page), error) {
			request := &freshetv1.PlanTrialRequest{Question: args[0], Arms: args[1:], PlotsCount: plots, WorthwhilePercent: worthwhile, Seed: seed, Crop: crop}
			var known bool
			if request.Measure, known = trialMeasures[measure]; !known {
				return nil, nil, wrong(measure+" is nothing that a trial measures", "harvest, pieces and days are")
			}
			var err error
			if request.SiteId, err = q.site(); err != nil {
				return nil, nil, err
			}
			for _, name := range beds {
				found, err := q.desk.Book.Find(request.SiteId, name, "bed")
				if err != nil {
					return nil, nil, err
				}
				request.BedIds = append(request.BedIds, found.ID)
			}
			return plannedAndMade(q, made, request)
		},
	}.command(a)
}

// trialPlan prints the layout, to be taken along to the beds.
func (a *asking) trialPlan(p *page.Page, question string, m *freshetv1.PlanTrialResponse) {
	p.Say(question)
	p.Gap()
	p.Say(m.GetSentence())
	p.Title("What goes where, from the inlet's end of each bed")
	var rows [][]string
	for _, plot := range m.GetPlots() {
		if n := len(rows); n > 0 && rows[n-1][0] == page.Clean(plot.GetBedName()) {
			rows[n-1][1] += ", " + page.Clean(plot.GetArm())
			continue
		}
		rows = append(rows, []string{page.Clean(plot.GetBedName()), page.Clean(plot.GetArm())})
	}
	p.Table([]page.Column{{Title: "bed"}, {Title: "in this order", Give: true}}, rows)
	p.Gap()
	for _, c := range m.GetCautions() {
		p.Item("~", c)
	}
	if a.why {
		p.Under(m.GetSource())
	}
}

// trial finds the one whose question holds the words.
func (a *asking) trial(text string) (string, error) {
	var found []string
	for _, r := range a.desk.Book.Of("", "trial") {
		question := r.Message.Get(r.Message.Descriptor().Fields().ByName("question")).String()
		if strings.Contains(strings.ToLower(question), strings.ToLower(text)) {
			found = append(found, r.ID)
		}
	}
	switch {
	case len(found) == 1:
		return found[0], nil
	case len(a.desk.Book.Of("", "trial")) == 0:
		return "", wrong("no trial is on this device", "freshet trial plan lays one out, by lot")
	}
	return "", wrong(fmt.Sprintf("%d trials on this device fit", len(found)), "give words of the question; freshet show trial lists them")
}
