package coverage

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/sync/errgroup"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/fit"
	"freshet.example/husbandry/outlook"
	"freshet.example/husbandry/quantity"
)

// set is a published set of growth curves.
type set struct {
	title, file, who, age, size, column, keep string
	logged                                    bool // sizes are logarithms
	first                                     int  // points of each curve that are known
	score, alone                              score
	crps, interval                            float64 // of the yardstick; 0 where none is published with the data
}

// sets as the yardstick asks them: a sound simple method, empirical Bayes on
// polynomials of the logarithm, widened by nested errors, in R 4.2.2.
func sets() []*set {
	var list []*set
	for i, yard := range [][2]float64{{24.766, 177.84}, {21.146, 186.69}, {}, {}} {
		diet := strconv.Itoa(i + 1)
		list = append(list, &set{title: "chicks, diet " + diet, file: "chickweight.csv", who: "chick", age: "x", size: "y", column: "diet", keep: diet, first: 6, crps: yard[0], interval: yard[1]})
	}
	return append(list,
		&set{title: "Sitka spruce, control", file: "sitka.csv", who: "tree", age: "Time", size: "size", column: "treat", keep: "control", logged: true, first: 3, crps: 30.470, interval: 245.90},
		&set{title: "Sitka spruce, ozone", file: "sitka.csv", who: "tree", age: "Time", size: "size", column: "treat", keep: "ozone", logged: true, first: 3},
	)
}

// tryGrowth forecasts the rest of each curve from its first points and the others.
func tryGrowth(folder string) ([]*set, error) {
	list := sets()
	for _, s := range list {
		curves, err := s.read(folder)
		if err != nil {
			return nil, err
		}
		each, alone := make([]score, len(curves)), make([]score, len(curves))
		var group errgroup.Group
		group.SetLimit(runtime.NumCPU())
		for i := range curves {
			if len(curves[i].At) > s.first {
				group.Go(func() error { return s.try(curves, i, &each[i], &alone[i]) })
			}
		}
		if err := group.Wait(); err != nil {
			return nil, err
		}
		for i := range curves {
			s.score.join(&each[i])
			s.alone.join(&alone[i])
		}
	}
	return list, nil
}

func (s *set) try(curves []outlook.Curve, i int, with, alone *score) error {
	own := curves[i]
	kin, err := outlook.LearnKin(slices.Delete(slices.Clone(curves), i, i+1))
	if err != nil {
		return err
	}
	known := outlook.Curve{At: own.At[:s.first], Size: own.Size[:s.first]}
	list, err := kin.Ahead(known, own.At[s.first:])
	if err != nil {
		return err
	}
	line, err := fit.LogLine(known.At, known.Size)
	if err != nil {
		return err
	}
	for j, p := range list {
		came := own.Size[s.first+j]
		with.count(func(below float64) float64 {
			q, err := p.Quantile(quantity.Fraction(below))
			if err != nil {
				return math.NaN()
			}
			return q
		}, came)
		carried, err := lineAhead(line, p.At, s.first)
		if err != nil {
			return err
		}
		alone.count(carried, came)
	}
	return nil
}

// lineAhead is one's own line of logarithms carried on, spread as Student's t.
func lineAhead(line fit.Line, at float64, points int) (spread, error) {
	const level = 0.9
	value, _, high, err := line.Predict(at, level)
	free := float64(points - 2)
	unit := (high - value) / chance.TQuantile((1+level)/2, free)
	return func(p float64) float64 { return math.Exp(value + unit*chance.TQuantile(p, free)) }, err
}

// read gathers the set's curves, one for each animal or tree.
func (s *set) read(folder string) ([]outlook.Curve, error) {
	f, err := os.Open(filepath.Join(folder, s.file)) //nolint:gosec // a file of ours
	if err != nil {
		return nil, err
	}
	defer func() { _ = f.Close() }()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		return nil, err
	}
	at := func(row []string, column string) string { return row[slices.Index(rows[0], column)] }
	var curves []outlook.Curve
	index := map[string]int{}
	for _, row := range rows[1:] {
		if at(row, s.column) != s.keep {
			continue
		}
		i, known := index[at(row, s.who)]
		if !known {
			i, curves = len(curves), append(curves, outlook.Curve{})
			index[at(row, s.who)] = i
		}
		age, err := strconv.ParseFloat(at(row, s.age), 64)
		if err != nil {
			return nil, err
		}
		size, err := strconv.ParseFloat(at(row, s.size), 64)
		if err != nil {
			return nil, err
		}
		if s.logged {
			size = math.Exp(size)
		}
		curves[i].At, curves[i].Size = append(curves[i].At, age), append(curves[i].Size, size)
	}
	return curves, nil
}

func writeGrowth(b *strings.Builder, list []*set) {
	b.WriteString(`## Growth: the rest of a curve

Each animal or tree in turn: its first points and all of the others are known, the rest is forecast. The yardstick is a sound simple method computed in R 4.2.2; ` + "`own line`" + ` carries on a line through the logarithms of its own points.

| set | forecasts | held 50 | held 80 | held 90 | CRPS | yardstick | own line | interval score 90 | yardstick |
| --- | --: | --: | --: | --: | --: | --: | --: | --: | --: |
`)
	var all score
	for _, s := range list {
		r := &s.score
		all.add(r)
		fmt.Fprintf(b, "| %s, first %d | %.0f | %.0f | %.0f | %.0f | %.1f | %s | %.1f | %.0f | %s |\n", s.title, s.first, r.n, r.share(half), r.share(eight), r.share(nine),
			r.crps/r.n, orNone(s.crps), s.alone.crps/s.alone.n, r.interval/r.n, orNone(s.interval))
	}
	fmt.Fprintf(b, "| all | %.0f | %.0f | %.0f | %.0f | | | | | |\n", all.n, all.share(half), all.share(eight), all.share(nine))
	least, most := math.Inf(1), 0.0
	for _, s := range list {
		d := s.score.doubt(half)
		least, most = math.Min(least, d), math.Max(most, d)
	}
	fmt.Fprintf(b, "\nPoints of one animal go together. Counted so, the standard error at 50 %% is %.0f to %.0f points for a set, and %.1f for all.\n\n![held against meant, growth](coverage_growth.svg)\n", least, most, all.doubt(half))
}
