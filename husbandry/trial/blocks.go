package trial

import (
	"math"
	"slices"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/fit"
	"freshet.example/husbandry/quantity"
)

// A Factor is what was varied: the level that each value had. A block (the
// north bench, the first week) is a factor too.
type Factor struct {
	Name   string
	Levels []string // one a value
}

// A Term is one line of an analysis of variance.
type Term struct {
	Name       string
	DF, SS, MS float64
	F, P       float64
}

// Factorial splits the spread of values among factors in the order given, each
// after those before it: blocks come first. With interactions every
// combination of the later factors is a term too, twos before threes; a term
// that earlier ones already hold (confounded with blocks) has no line. The last
// line, "Residuals", has F and P of NaN. Where cells are missing the split
// depends on the order: use Adjusted.
func Factorial(values []float64, factors []Factor, interactions bool) ([]Term, error) {
	if err := arranged(values, factors); err != nil {
		return nil, err
	}
	columns := [][]float64{ones(len(values))}
	before, err := fit.LeastSquares(columns, values)
	var terms []Term
	for _, set := range sets(len(factors), interactions) {
		columns = append(columns, termColumns(factors, set)...)
		after, fault := fit.LeastSquares(columns, values)
		if err = fault; err != nil {
			break
		}
		if df := float64(after.Rank - before.Rank); df > 0 {
			ss := before.RSS - after.RSS
			terms = append(terms, Term{Name: termName(factors, set), DF: df, SS: ss, MS: ss / df})
		}
		before = after
	}
	if err != nil {
		return nil, err
	}
	return withTests(terms, before)
}

// withTests fills F and P from the residual left by the last fit.
func withTests(terms []Term, last fit.Linear) ([]Term, error) {
	df := float64(last.DF)
	if df < 1 || !(last.RSS > 0) {
		return nil, ErrNoSpread
	}
	ms := last.RSS / df
	for i, t := range terms {
		terms[i].F = t.MS / ms
		terms[i].P = chance.FSurvival(terms[i].F, t.DF, df)
	}
	return append(terms, Term{"Residuals", df, last.RSS, ms, math.NaN(), math.NaN()}), nil
}

// An Effect is what one factor does when all the others are allowed for.
type Effect struct {
	Test        FTest        // of the factor, after all the others
	Levels      []string     // in the order of the alphabet
	Means       []float64    // of each level, as if all others were balanced (least-squares means)
	Differences []Comparison // of each level but the first, against the first
}

// Adjusted tells what the named factor does, allowing for all others, by least
// squares without interactions: the same whether or not cells are missing.
// Confidence 0.5 to 0.9999. (Yates 1933, Empire J. Exp. Agric. 1:129)
func Adjusted(values []float64, factors []Factor, name string, confidence quantity.Fraction) (Effect, error) {
	if err := arranged(values, factors); err != nil {
		return Effect{}, err
	}
	if err := sensible(confidence); err != nil {
		return Effect{}, err
	}
	which := slices.IndexFunc(factors, func(f Factor) bool { return f.Name == name })
	if err := quantity.Within("place of the factor asked for", float64(which), 0, float64(len(factors)-1), "", "by definition: it must be among the factors"); err != nil {
		return Effect{}, err
	}
	others := [][]float64{ones(len(values))}
	balance := []float64{1}
	for i, f := range factors {
		if i != which {
			columns := termColumns(factors, []int{i})
			others = append(others, columns...)
			for range columns {
				balance = append(balance, 1/float64(len(levels(f))))
			}
		}
	}
	return adjusted(values, others, balance, factors[which], confidence)
}

func adjusted(values []float64, others [][]float64, balance []float64, f Factor, confidence quantity.Fraction) (Effect, error) {
	without, err := fit.LeastSquares(others, values)
	if err != nil {
		return Effect{}, err
	}
	columns := slices.Concat(others, termColumns([]Factor{f}, []int{0}))
	with, err := fit.LeastSquares(columns, values)
	if err != nil {
		return Effect{}, err
	}
	df1, df2 := float64(with.Rank-without.Rank), float64(with.DF)
	if df1 < 1 || df2 < 1 || !(with.RSS > 0) {
		return Effect{}, ErrNoSpread
	}
	e := Effect{Levels: levels(f)}
	e.Test = FTest{F: (without.RSS - with.RSS) / df1 / (with.RSS / df2), DF1: df1, DF2: df2}
	e.Test.P = chance.FSurvival(e.Test.F, df1, df2)
	for i := range e.Levels {
		weights := append(slices.Clone(balance), make([]float64, len(e.Levels)-1)...)
		only := make([]float64, len(weights))
		if i > 0 {
			weights[len(balance)+i-1], only[len(balance)+i-1] = 1, 1
			c, err := combined(with, only, confidence)
			if err != nil {
				return Effect{}, err
			}
			e.Differences = append(e.Differences, c)
		}
		m, _ := with.Combine(weights)
		e.Means = append(e.Means, m)
	}
	return e, nil
}

func combined(l fit.Linear, weights []float64, confidence quantity.Fraction) (Comparison, error) {
	d, se := l.Combine(weights)
	return compared(d, se, float64(l.DF), confidence)
}

func arranged(values []float64, factors []Factor) error {
	if err := enough("values", values, 3); err != nil {
		return err
	}
	if err := quantity.Within("number of factors", float64(len(factors)), 1, 6, "", quantity.OwnBounds); err != nil {
		return err
	}
	n := float64(len(values))
	for _, f := range factors {
		if err := quantity.Within("levels of factor "+f.Name, float64(len(f.Levels)), n, n, "", "by definition: one a value"); err != nil {
			return err
		}
		if err := quantity.Within("different levels of factor "+f.Name, float64(len(levels(f))), 2, 200, "", quantity.OwnBounds); err != nil {
			return err
		}
	}
	return nil
}

func levels(f Factor) []string {
	l := slices.Clone(f.Levels)
	slices.Sort(l)
	return slices.Compact(l)
}

func ones(n int) []float64 {
	one := make([]float64, n)
	for i := range one {
		one[i] = 1
	}
	return one
}

// sets lists the terms as sets of factor places: each factor, then, with
// interactions, every set of the factors after the first.
func sets(factors int, interactions bool) [][]int {
	var all [][]int
	for i := range factors {
		all = append(all, []int{i})
	}
	if !interactions {
		return all
	}
	last := all[1:]
	for last != nil {
		var next [][]int
		for _, s := range last {
			for i := s[len(s)-1] + 1; i < factors; i++ {
				next = append(next, append(slices.Clone(s), i))
			}
		}
		all = append(all, next...)
		last = next
	}
	return all
}

// termColumns marks, for each choice of levels but the first of each factor,
// the values that have it.
func termColumns(factors []Factor, set []int) [][]float64 {
	columns := [][]float64{ones(len(factors[set[0]].Levels))}
	for _, place := range set {
		var next [][]float64
		for _, column := range columns {
			for _, level := range levels(factors[place])[1:] {
				marked := make([]float64, len(column))
				for i, v := range column {
					if factors[place].Levels[i] == level {
						marked[i] = v
					}
				}
				next = append(next, marked)
			}
		}
		columns = next
	}
	return columns
}

func termName(factors []Factor, set []int) string {
	name := factors[set[0]].Name
	for _, place := range set[1:] {
		name += ":" + factors[place].Name
	}
	return name
}
