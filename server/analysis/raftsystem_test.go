package analysis_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
	"time"

	"google.golang.org/protobuf/types/known/fieldmaskpb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/servertest"
)

// printedFigure is a line of testdata/published/data/raft_system.csv: what the
// publication prints and how far our answer may stand from it, with the reason.
type printedFigure struct {
	value, within float64
	why           string
}

func printedFigures(t *testing.T) map[string]printedFigure {
	t.Helper()
	f, err := os.Open("../../testdata/published/data/raft_system.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	list := map[string]printedFigure{}
	for _, row := range rows[1:] {
		value, err1 := strconv.ParseFloat(row[1], 64)
		within, err2 := strconv.ParseFloat(row[3], 64)
		if err1 != nil || err2 != nil || row[5] == "" {
			t.Fatalf("a line that cannot be checked: %q", row)
		}
		list[row[0]] = printedFigure{value, within, row[5]}
	}
	return list
}

// published is the three runs in one cooperative.
type published struct {
	t       *testing.T
	runs    []*raftSite
	printed map[string]printedFigure
	met     map[string]bool
}

// sets puts our answer beside a printed figure.
func (p *published) sets(name string, ours float64) {
	p.t.Helper()
	f, ok := p.printed[name]
	if !ok {
		p.t.Errorf("%s is not among the printed figures", name)
		return
	}
	p.met[name] = true
	p.t.Logf("%-42s printed %10.4g, ours %10.4g", name, f.value, ours)
	if math.IsNaN(ours) || math.Abs(ours-f.value) > f.within {
		p.t.Errorf("%s: printed %g, ours %g, more than %g apart (%s)", name, f.value, ours, f.within, f.why)
	}
}

func TestThePublishedRaftSystemIsAnsweredAsItWasPrinted(t *testing.T) {
	s := servertest.New(t)
	p := &published{t: t, printed: printedFigures(t), met: map[string]bool{}}
	steward := s.Steward()
	steward.Push(t, smallestGroup(t, steward, 3))
	for _, run := range raftRuns {
		p.runs = append(p.runs, enterRaftSite(t, s, run))
	}
	p.yields()
	p.larder()
	p.limits()
	p.growth()
	p.nitrogen()
	for name := range p.printed {
		if !p.met[name] {
			t.Errorf("%s was never set beside an answer", name)
		}
	}
}

// yields come from the comparison, as each site's figure is recorded there.
func (p *published) yields() {
	for measure, what := range map[freshetv1.PoolMeasure]string{
		freshetv1.PoolMeasure_POOL_MEASURE_PRODUCE_KG_PER_M2_YEAR: "produce kg/m2 a year",
		freshetv1.PoolMeasure_POOL_MEASURE_FEED_CONVERSION:        "feed conversion",
		freshetv1.PoolMeasure_POOL_MEASURE_SURVIVAL_PERCENT:       "survival percent",
		freshetv1.PoolMeasure_POOL_MEASURE_WATER_L_PER_KG:         "make-up water L/kg",
	} {
		for _, r := range p.runs {
			out, err := r.p.Pool.CompareSites(p.t.Context(), &freshetv1.CompareSitesRequest{Measure: measure, SiteId: r.site})
			if err != nil {
				p.t.Fatal(err)
			}
			for _, figure := range out.GetSites() {
				if figure.GetOwn() {
					p.sets(r.name+": "+what, figure.GetAsRecorded().GetValue())
				}
			}
		}
	}
}

// larder counts the fish of seven harvests, six weeks apart, and of the last one.
func (p *published) larder() {
	for _, r := range p.runs {
		last := r.today.AddDate(0, 0, -intervalDays)
		for span, per := range map[int]struct {
			what  string
			share float64
		}{
			7 * intervalDays: {"fish t a year", 365.25 / (7 * intervalDays) / 1000},
			intervalDays:     {"density at harvest kg/m3", 1000.0 / tankL},
		} {
			out, err := r.p.Analysis.GetLarder(p.t.Context(), &freshetv1.GetLarderRequest{
				SiteId: r.site, FromOn: last.AddDate(0, 0, 1-span).Format("2006-01-02"), ToOn: last.Format("2006-01-02")})
			if err != nil {
				p.t.Fatal(err)
			}
			for _, line := range out.GetLines() {
				if line.GetProduce() == r.species {
					p.sets(r.name+": "+per.what, line.GetHarvestedKg()*per.share)
				}
			}
		}
	}
}

// limits: what the plants' share of the water is said to carry, and what is fed.
func (p *published) limits() {
	for _, r := range p.runs {
		out, err := r.p.Analysis.GetStockingLimits(p.t.Context(), &freshetv1.GetStockingLimitsRequest{SystemId: r.system})
		if err != nil {
			p.t.Fatal(err)
		}
		p.sets(r.name+": feed g/m2 a day", out.GetFeedNow().GetValue()/plantM2)
		for _, limit := range out.GetLimits() {
			switch limit.GetName() {
			case "plants":
				p.sets(r.name+": feed that the plants carry g/m2 a day", limit.GetFeed().GetValue()/plantM2)
			case "oxygen":
				p.sets(r.name+": feed that the air stones carry g/m2 a day", limit.GetFeed().GetValue()/plantM2)
			case "nitrification":
				p.sets(r.name+": feed that the rafts' bacteria carry g/m2 a day", limit.GetFeed().GetValue()/plantM2)
			case "space":
				p.sets(r.name+": fish that the tanks hold kg/m3", limit.GetBiomass().GetValue()/(4*tankL/1000.0))
			}
		}
	}
}

// growth: when the newest cohort is ready, foretold from those before it alone.
func (p *published) growth() {
	for _, r := range p.runs {
		out, err := r.p.Analysis.ForecastFishHarvest(p.t.Context(), &freshetv1.ForecastFishHarvestRequest{SystemId: r.system})
		if err != nil {
			p.t.Fatal(err)
		}
		newest := len(r.cohorts) - 1
		stocked := r.today.AddDate(0, 0, newest*intervalDays-recordedDays)
		for _, f := range out.GetForecasts() {
			if f.GetCohortId() == r.cohorts[newest] {
				ready, err := time.Parse(time.DateOnly, f.GetMiddleOn())
				if err != nil {
					p.t.Fatal(f.GetAnswer().GetSentence())
				}
				p.sets(r.name+": days from stocking to harvest", ready.Sub(stocked).Hours()/24)
			}
		}
	}
}

func (p *published) nitrogen() {
	for _, r := range p.runs {
		out, err := r.p.Analysis.GetNitrogenBudget(p.t.Context(), &freshetv1.GetNitrogenBudgetRequest{SystemId: r.system})
		if err != nil {
			p.t.Fatal(err)
		}
		for _, line := range out.GetOut() {
			if line.GetName() == "fish_gain" {
				p.sets(r.name+": nitrogen of the feed that fish keep percent", 100*line.GetShareOfFeed())
			}
		}
		if math.Abs(out.GetClosureG()) > 1e-6 {
			p.t.Errorf("%s: the budget is %g g open", r.name, out.GetClosureG())
		}
	}
}

func smallestGroup(t *testing.T, steward *servertest.Person, n uint32) *freshetv1.Operation {
	t.Helper()
	me, err := steward.Accounts.WhoAmI(t.Context(), &freshetv1.WhoAmIRequest{})
	if err != nil {
		t.Fatal(err)
	}
	return &freshetv1.Operation{Change: &freshetv1.Operation_Edit{Edit: &freshetv1.Edit{
		RecordId: me.GetCooperativeId(), Fields: &fieldmaskpb.FieldMask{Paths: []string{"name", "smallest_group"}},
		Record: &freshetv1.Edit_Cooperative{Cooperative: &freshetv1.Cooperative{Name: "Published runs", SmallestGroup: n}},
	}}}
}
