package coverage

import (
	"fmt"
	"math"
	"runtime"
	"strings"

	"golang.org/x/sync/errgroup"

	"freshet.example/cmd/freshetd/demo"
	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/outlook"
	"freshet.example/husbandry/quantity"
)

// tried are the figures as growers are shown them, and the days ahead.
var (
	tried = []struct {
		title  string
		figure outlook.Figure
		side   outlook.Side
	}{
		{"water, degC", outlook.Warmth, outlook.Mean}, {"ammonia, mg/L as N", outlook.Ammonia, outlook.Mean}, {"nitrite, mg/L as N", outlook.Nitrite, outlook.Mean},
		{"nitrate, mg/L as N", outlook.Nitrate, outlook.Mean}, {"alkalinity, mg/L as CaCO3", outlook.Alkalinity, outlook.Mean}, {"pH, lowest", outlook.Acidity, outlook.Lowest},
		{"oxygen, lowest, mg/L", outlook.Oxygen, outlook.Lowest}, {"un-ionized ammonia, mg/L as N", outlook.Unionized, outlook.Highest},
	}
	daysAhead = []int{1, 3, 7, 14}
)

// seasons are the scores by figure and by days ahead, and of all together.
type seasons struct {
	by  [8][4]score
	all score
}

func trySeasons(n, forecasts int) (*seasons, error) {
	each := make([]seasons, n)
	err := forEach(n, func(i int) error {
		return forecast(i, forecasts, each[i].note)
	})
	if err != nil {
		return nil, err
	}
	all := &seasons{}
	for i := range each {
		var together score
		for f := range all.by {
			for d := range all.by[f] {
				all.by[f][d].join(&each[i].by[f][d])
				together.add(&each[i].by[f][d])
			}
		}
		all.all.join(&together)
	}
	return all, nil
}

// forEach does something for each season, on all cores.
func forEach(n int, do func(i int) error) error {
	var group errgroup.Group
	group.SetLimit(runtime.NumCPU())
	for i := range n {
		group.Go(func() error { return do(i) })
	}
	return group.Wait()
}

// cut is a season up to a day, and what was forecast from there.
type cut struct {
	season *demo.Season
	ahead  *outlook.Ahead
}

// forecast lives a season and forecasts from as many of its days.
func forecast(number, forecasts int, note func(cut) error) error {
	list, err := demo.LiveSeasons(number, forecasts)
	if err != nil {
		return err
	}
	for _, season := range list {
		learnt, err := outlook.Learn(season.Loop, season.Past, season.Readings, 1)
		if err != nil {
			return err
		}
		ahead, err := learnt.Ahead(learnt.Usual(14*24), 0)
		if err != nil {
			return err
		}
		if err := note(cut{season, ahead}); err != nil {
			return err
		}
	}
	return nil
}

func (s *seasons) note(c cut) error {
	season, ahead := c.season, c.ahead
	for f, what := range tried {
		read, seen := readingsOf(season.Readings, what.figure), readingsOf(season.Readings, needed(what.figure))
		if len(seen) == 0 {
			continue // growers are shown only what they read
		}
		for d, days := range daysAhead {
			came := season.Came[days-1][what.figure][what.side]
			s.by[f][d].count(func(p float64) float64 { return quantileOf(ahead, what.figure, what.side, days-1, p) }, came)
			if len(read) > 0 {
				s.by[f][d].naive += math.Abs(came - read[len(read)-1])
				s.by[f][d].usual += crpsOf(always(read), came)
			}
		}
	}
	return nil
}

// needed is the figure that must be read for another to be told.
func needed(f outlook.Figure) outlook.Figure {
	if f == outlook.Unionized {
		return outlook.Ammonia
	}
	return f
}

// readingsOf are the values read of a figure.
func readingsOf(readings []outlook.Reading, f outlook.Figure) []float64 {
	var list []float64
	for _, r := range readings {
		if r.Figure == f {
			list = append(list, r.Value)
		}
	}
	return list
}

// quantileOf reads a forecast's quantile off its fans.
func quantileOf(a *outlook.Ahead, f outlook.Figure, s outlook.Side, day int, p float64) float64 {
	level := math.Max(0.01, math.Abs(1-2*p))
	fan, err := a.Fan(f, s, day, quantity.Fraction(level))
	if err != nil {
		return math.NaN()
	}
	if p < 0.5 {
		return fan.Low
	}
	return fan.High
}

// always is the forecast that it will be as it always was.
func always(read []float64) spread {
	mean, squares := 0.0, 0.0
	for _, v := range read {
		mean += v / float64(len(read))
	}
	for _, v := range read {
		squares += (v - mean) * (v - mean)
	}
	sd := math.Sqrt(squares / math.Max(1, float64(len(read)-1)))
	return func(p float64) float64 { return mean + sd*chance.NormalQuantile(p) }
}

func writeSeasons(b *strings.Builder, s *seasons, o Options) {
	fmt.Fprintf(b, `## Water: %d forecasts, of %d invented site-seasons

Each is one of the demo's six growers with climate, fish and filter scattered about theirs, at some time of the year. Six weeks are seen as that grower sees them (four have probes, two test by hand), a fortnight is forecast as `+"`freshet outlook`"+` does, where there are several of a season from days %d apart. What came is the truth of the demo's simulator, whose equations are not the forecaster's. Figures that the grower does not read are left out.

How far forecasts lean towards how a figure was in the last week, and by how much intervals of 25, 50, 80, 90 and 98 %% are then drawn out or in, is learnt from other such seasons (`+"`go run ./cmd/check coverage --learn`, `husbandry/outlook/strays.csv`"+`), never from those tried here, and heeded the more the more forecasts of a loop's own past were tried. That table is all that the forecaster was told of the simulator; growers' waters may stray otherwise, and then their own past counts.

`+"`held`"+`: how many of 100 intervals held, meant to be 50, 80 and 90. `+"`width`"+`: mean width of the 80 %% interval. `+"`CRPS`"+`: continuous ranked probability score, less is better; beside it the last reading carried on, and a normal spread of all that was read.

| figure | days ahead | held 50 | held 80 | held 90 | width | CRPS | last reading | as always |
| --- | --: | --: | --: | --: | --: | --: | --: | --: |
`, o.Seasons*o.Forecasts, o.Seasons, demo.CutsApart)
	for f, what := range tried {
		for d, days := range daysAhead {
			r := &s.by[f][d]
			if r.n > 0 {
				fmt.Fprintf(b, "| %s | %d | %.0f | %.0f | %.0f | %.3g | %.3g | %s | %s |\n",
					what.title, days, r.share(half), r.share(eight), r.share(nine), r.width/r.n, r.crps/r.n, orNone(r.naive/r.n), orNone(r.usual/r.n))
			}
		}
	}
	s.writeWord(b)
	b.WriteString("\n![held against meant, water](coverage_seasons.svg)\n\n")
}

// near is how many of 100 a share may lie from what was meant.
const near = 3.0

// verdict is how many shares lie near what was meant, and how many of a forecaster
// would that always keeps its word, tried on as few.
type verdict struct {
	shares, kept int
	perfect      float64 // how many of a perfect forecaster's would lie near
	beyond       []string
	least, most  float64 // standard errors at 50 %
}

// judge looks at each figure, day and level.
func (s *seasons) judge() verdict {
	v := verdict{least: math.Inf(1)}
	for f, what := range tried {
		for d, days := range daysAhead {
			of := &s.by[f][d]
			if of.n == 0 {
				continue
			}
			for _, level := range told {
				off, doubt := of.share(level)-100*levels[level], of.doubt(level)
				v.shares++
				if math.Abs(off) <= near {
					v.kept++
				}
				v.perfect += within(near, doubt)
				if most := near + sure*doubt; math.Abs(off) > most {
					v.beyond = append(v.beyond, fmt.Sprintf("%s at %d days: %.1f of %.0f", what.title, days, of.share(level), 100*levels[level]))
				}
			}
			v.least, v.most = math.Min(v.least, of.doubt(half)), math.Max(v.most, of.doubt(half))
		}
	}
	return v
}

// told are the levels of the tables. sure is how many standard errors are left to chance: 95 in 100.
var told = []int{half, eight, nine}

const sure = 1.96

// within is the chance that a number about 0 with so large a standard error is no further off.
func within(off, doubt float64) float64 {
	if doubt == 0 {
		return 1
	}
	return math.Erf(off / doubt / math.Sqrt2)
}

// writeWord says how many shares are near what was meant, how many a perfect
// forecaster's would be, and how all of them together did.
func (s *seasons) writeWord(b *strings.Builder) {
	v := s.judge()
	fmt.Fprintf(b, "\nOf %d shares %d lie within %g points of what was meant. Forecasts of one season go together; counted so, the standard error at 50 %% is %.1f to %.1f points, and of a forecaster that always keeps its word %.0f would lie so near.", v.shares, v.kept, near, v.least, v.most, v.perfect)
	if len(v.beyond) == 0 {
		fmt.Fprintf(b, " No share lies further off than %g points and its own sampling error (%.2f standard errors) together.\n", near, sure)
	} else {
		fmt.Fprintf(b, " Further off than %g points and their own sampling error (%.2f standard errors) together: %s.\n", near, sure, strings.Join(v.beyond, "; "))
	}
	all := &s.all
	fmt.Fprintf(b, "\nAll figures and days together held %.1f, %.1f and %.1f of 100, meant to be 50, 80 and 90, with standard errors of %.1f, %.1f and %.1f.\n",
		all.share(half), all.share(eight), all.share(nine), all.doubt(half), all.doubt(eight), all.doubt(nine))
	s.writeWorse(b)
}

// writeWorse names the forecasts that a simpler one beats.
func (s *seasons) writeWorse(b *strings.Builder) {
	var worse []string
	for f, what := range tried {
		for d, days := range daysAhead {
			of := &s.by[f][d]
			for _, other := range []struct {
				name  string
				score float64
			}{{"the last reading", of.naive}, {"as always", of.usual}} {
				if other.score > 0 && of.crps > other.score {
					worse = append(worse, fmt.Sprintf("%s at %d days than %s", what.title, days, other.name))
				}
			}
		}
	}
	if len(worse) == 0 {
		b.WriteString("\nBy CRPS no forecast is worse than the last reading or than what always was.\n")
		return
	}
	fmt.Fprintf(b, "\nWorse by CRPS: %s.\n", strings.Join(worse, "; "))
}

// orNone writes a score; nothing where there was nothing to score.
func orNone(v float64) string {
	if v == 0 {
		return ""
	}
	return fmt.Sprintf("%.3g", v)
}
