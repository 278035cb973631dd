package main

import (
	"fmt"
	"time"

	"github.com/spf13/cobra"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/types/known/fieldmaskpb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/cmd/freshet/page"
	"freshet.example/cmd/freshet/words"
)

// making is a planned trial that is to stand in the records: a planting for each
// plot, and the trial whose arms they are.
type making struct {
	yes          bool
	starts, ends string
	stopping     string
	plants       uint32          // of each plot
	plantings    []device.Record // made, in the order of the layout
}

func (m *making) flags(c *cobra.Command) {
	c.Flags().BoolVar(&m.yes, "yes", false, "make the plantings and the trial; without it nothing is written")
	c.Flags().StringVar(&m.starts, "starts", "", "with --yes: the trial's first day, as 2026-05-31 (default today)")
	c.Flags().StringVar(&m.ends, "ends", "", "with --yes: its last day, set now: looks before it tell little")
	c.Flags().StringVar(&m.stopping, "stopping", "", "with --yes: when to stop, in words")
	c.Flags().Uint32Var(&m.plants, "plants", 0, "with --yes: plants in each plot (default: the plot's share of its bed's area is written instead)")
}

// check refuses what no trial can be made of, before anything is asked or written.
func (m *making) check(request *freshetv1.PlanTrialRequest, today time.Time) error {
	if !m.yes {
		return nil
	}
	if m.starts == "" {
		m.starts = today.Format(time.DateOnly)
	}
	first, err := time.Parse(time.DateOnly, m.starts)
	if err != nil {
		return wrong(m.starts+" is not a day", "write it as 2026-05-31")
	}
	switch last, err := time.Parse(time.DateOnly, m.ends); {
	case request.GetCrop() == "":
		return wrong("it is not said what is planted", "say the crop with --crop")
	case m.ends == "":
		return wrong("the trial has no last day", "set it now with --ends: who stops when it looks well finds differences that are not there")
	case err != nil:
		return wrong(m.ends+" is not a day", "write it as 2026-05-31")
	case !last.After(first):
		return wrong("the last day is not after the first", "set another with --ends")
	case request.GetMeasure() == freshetv1.TrialMeasure_TRIAL_MEASURE_PIECES_PER_PLANT && m.plants == 0:
		return wrong("pieces a plant are measured, and it is not said how many plants a plot holds", "say it with --plants")
	}
	return nil
}

// write enters the plantings and the trial, whole or not at all.
func (m *making) write(q *asking, request *freshetv1.PlanTrialRequest, planned *freshetv1.PlanTrialResponse) error {
	var ids []string
	err := q.dev.Enter(q.ctx, func(t *device.Draft) error {
		return t.Together(func() (err error) {
			if ids, err = m.plant(t, q.desk.Book, request.GetCrop(), planned.GetPlots()); err != nil {
				return err
			}
			planned.TrialId, err = t.Set(m.trial(request, planned.GetPlots(), ids))
			return err
		})
	})
	if err != nil {
		return err
	}
	if err := q.sendFirst(q.ctx); err != nil {
		return err
	}
	return m.read(q, ids)
}

// plant enters a planting for each plot.
func (m *making) plant(t *device.Draft, book *words.Book, crop string, plots []*freshetv1.TrialPlot) (ids []string, err error) {
	shares := map[string]float64{}
	for _, p := range plots {
		shares[p.GetBedId()]++
	}
	for _, p := range plots {
		planting, err := m.planting(book, crop, p, shares[p.GetBedId()])
		if err != nil {
			return nil, err
		}
		id, err := t.Set(planting)
		if err != nil {
			return nil, err
		}
		ids, p.PlantingId = append(ids, id), id
	}
	return ids, nil
}

// trial is the record that holds the plots' plantings as its arms.
func (m *making) trial(request *freshetv1.PlanTrialRequest, plots []*freshetv1.TrialPlot, ids []string) *freshetv1.Edit {
	trial := &freshetv1.Trial{Question: request.GetQuestion(), Measure: request.GetMeasure(), FromOn: m.starts, ToOn: m.ends,
		StoppingRule: m.stopping, WorthwhilePercent: request.GetWorthwhilePercent()}
	for _, name := range request.GetArms() {
		arm := &freshetv1.TrialArm{Name: name}
		for i, p := range plots {
			if p.GetArm() == name {
				arm.PlantingIds = append(arm.PlantingIds, ids[i])
			}
		}
		trial.Arms = append(trial.Arms, arm)
	}
	fields := []string{"question", "measure", "arms", "from_on", "to_on", "worthwhile_percent"}
	if m.stopping != "" {
		fields = append(fields, "stopping_rule")
	}
	return &freshetv1.Edit{SiteId: request.GetSiteId(), Fields: &fieldmaskpb.FieldMask{Paths: fields}, Record: &freshetv1.Edit_Trial{Trial: trial}}
}

// read finds the plantings as they stand once the co-op took them.
func (m *making) read(q *asking, ids []string) (err error) {
	if q.desk, err = q.app.desk(q.ctx); err != nil {
		return err
	}
	for _, id := range ids {
		r, ok := q.desk.Book.ByID(id)
		if !ok {
			return wrong("the co-op did not take what was made", "freshet sync says why")
		}
		m.plantings = append(m.plantings, r)
	}
	return nil
}

// planting is one plot's, by its plants or by its share of the bed.
func (m *making) planting(book *words.Book, crop string, p *freshetv1.TrialPlot, plots float64) (*freshetv1.Edit, error) {
	bed, ok := book.ByID(p.GetBedId())
	if !ok {
		return nil, wrong("this device does not know bed "+p.GetBedName(), "freshet sync fetches it")
	}
	planting, last := &freshetv1.Planting{Crop: words.Snake(crop), BedId: bed.ID, PlantsCount: m.plants}, "plants_count"
	if m.plants == 0 {
		area := bed.Message.Get(bed.Message.Descriptor().Fields().ByName("area_m2")).Float()
		if area == 0 {
			return nil, wrong("the area of "+book.Label(bed)+" is not known", "freshet set bed \""+book.Label(bed)+"\" area=6m2, or say with --plants how many plants a plot holds")
		}
		planting.AreaM2, last = area/plots, "area_m2"
	}
	return &freshetv1.Edit{SiteId: bed.SiteID, Fields: &fieldmaskpb.FieldMask{Paths: []string{"crop", "bed_id", last}}, Record: &freshetv1.Edit_Planting{Planting: planting}}, nil
}

// tell says what was made, or that nothing was.
func (m *making) tell(p *page.Page, book *words.Book, planned *freshetv1.PlanTrialResponse) {
	p.Gap()
	if !m.yes {
		p.Say("Nothing is written. With --yes the plantings and the trial are made as they stand here.")
		return
	}
	p.Title("Made")
	var rows [][]string
	for i, plot := range planned.GetPlots() {
		rows = append(rows, []string{page.Clean(plot.GetBedName()), fmt.Sprint(plot.GetPlace()), page.Clean(plot.GetArm()), book.Short(m.plantings[i])})
	}
	p.Table([]page.Column{{Title: "bed"}, {Title: "plot", Right: true}, {Title: "arm", Give: true}, {Title: "planting", Right: true}}, rows)
	p.Gap()
	p.Say("Name a plot by its number when you note its sowing and its harvests: freshet note bed-harvest 850g of=" + book.Short(m.plantings[0]) + ". The trial runs from " + on(m.starts) + " to " + on(m.ends) + ".")
}

// plannedAndMade asks for the layout and, with --yes, makes it.
func plannedAndMade(q *asking, m *making, request *freshetv1.PlanTrialRequest) (proto.Message, func(*page.Page), error) {
	if err := m.check(request, q.desk.Now); err != nil {
		return nil, nil, err
	}
	planned, err := pooled(q, freshetv1.PoolServiceClient.PlanTrial, request)
	if err == nil && m.yes {
		err = m.write(q, request, planned)
	}
	return planned, func(p *page.Page) {
		q.trialPlan(p, request.GetQuestion(), planned)
		m.tell(p, q.desk.Book, planned)
	}, err
}
