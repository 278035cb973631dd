package pool

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// An Intercept is the random-intercept model of raw values in groups: every
// group has its own true mean, the means spread with variance Between about
// Mu, and values spread with variance Within about their group's mean.
type Intercept struct {
	Summary              // Mu, SE, Tau2 (= Between) and the shrinking of the group means
	Between      float64 // variance between groups
	Within       float64 // variance within a group, common to all
	Criterion    float64 // -2 log restricted likelihood at the estimate
	Undetectable bool    // Between is 0: no difference between groups can be told
}

// RandomIntercept fits the model by restricted maximum likelihood (Patterson &
// Thompson 1971, Biometrika 58:545); maximum likelihood would make Between too
// small below about ten groups. Two groups or more, each with one value or
// more, one at least with two; the values must differ within a group. Between is
// at most 1e8 times Within.
func RandomIntercept(groups [][]float64) (Intercept, error) {
	g, err := counted(groups)
	if err != nil {
		return Intercept{}, err
	}
	const most = 1e8 // variance between over variance within
	ratio := lowest(most, g.criterion)
	within := g.squaresAt(ratio) / (g.total - 1)
	m := Intercept{Within: within, Between: ratio * within,
		Criterion: g.criterion(ratio), Undetectable: ratio == 0}
	m.Summary = Summary{Method: REML, Tau2: m.Between, y: g.mean, v: make([]float64, len(g.n))}
	for i, n := range g.n {
		m.v[i] = within / n
	}
	m.Mu, m.SE = weightedMean(m.y, m.v, m.Tau2)
	return m, nil
}

// tally is what the likelihood needs of the groups.
type tally struct {
	n, mean []float64
	inside  float64 // squares about the group means
	total   float64 // number of values
}

func counted(groups [][]float64) (tally, error) {
	var t tally
	if err := quantity.Within("number of groups", float64(len(groups)), 2, 1e5, "", quantity.OwnBounds); err != nil {
		return t, err
	}
	for _, values := range groups {
		if err := quantity.Within("number of values in a group", float64(len(values)), 1, 1e7, "", quantity.OwnBounds); err != nil {
			return t, err
		}
		sum, n := 0.0, float64(len(values))
		for _, v := range values {
			if err := quantity.Within("value", v, -1e150, 1e150, "", quantity.OwnBounds); err != nil {
				return t, err
			}
			sum += v
		}
		for _, v := range values {
			t.inside += (v - sum/n) * (v - sum/n)
		}
		t.n, t.mean, t.total = append(t.n, n), append(t.mean, sum/n), t.total+n
	}
	return t, quantity.Within("squares within groups", t.inside, 1e-300, math.MaxFloat64, "", "by definition: values in some group must differ")
}

// at weighs the groups for a given ratio of the variance between to within.
func (t tally) at(ratio float64) (mu, weights, logs float64) {
	for i, n := range t.n {
		w := n / (1 + n*ratio)
		mu += w * t.mean[i]
		weights += w
		logs += math.Log1p(n * ratio)
	}
	return mu / weights, weights, logs
}

func (t tally) squaresAt(ratio float64) float64 {
	mu, _, _ := t.at(ratio)
	sum := t.inside
	for i, n := range t.n {
		sum += n / (1 + n*ratio) * (t.mean[i] - mu) * (t.mean[i] - mu)
	}
	return sum
}

// criterion is -2 log restricted likelihood with the variance within profiled out.
func (t tally) criterion(ratio float64) float64 {
	_, weights, logs := t.at(ratio)
	df := t.total - 1
	return df*(math.Log(2*math.Pi*t.squaresAt(ratio)/df)+1) + logs + math.Log(weights)
}
