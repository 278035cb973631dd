package plan

// cover finds the options that serve one want best at given prices: each week
// served counts 1, each option costs its price. Since an option bears in weeks
// that follow one another, whole options are as good as any mixture of parts
// (their matrix has consecutive ones and is totally unimodular: Fulkerson &
// Gross 1965, Pacific J. Math. 15:835), and the best are found by going back
// from the last week: best[w] is the most that weeks w and later can give.
type cover struct {
	best   []float64
	chosen []int // by week: the option to take from there, -1 to leave the week
	needed []int // needed weeks before each week
	price  []float64
}

func newCover(t Task, w Want) *cover {
	c := &cover{chosen: make([]int, t.Weeks), needed: make([]int, 1), price: make([]float64, len(w.Options))}
	for i, needed := range w.Needed {
		before := c.needed[i]
		if needed {
			before++
		}
		c.needed = append(c.needed, before)
	}
	c.best = make([]float64, len(c.needed))
	return c
}

// byWeek lists the options that bear in each week.
func byWeek(t Task, w Want) [][]int {
	lists := make([][]int, t.Weeks)
	for i, o := range w.Options {
		for week := o.From; week < o.gone(t.Weeks); week++ {
			lists[week] = append(lists[week], i)
		}
	}
	return lists
}

// solve fills in best and chosen for options whose prices are set; options for
// which use says no are left out.
func (c *cover) solve(t Task, w Want, bearing [][]int, use func(int) bool) {
	for week := t.Weeks - 1; week >= 0; week-- {
		c.best[week], c.chosen[week] = c.best[week+1], -1
		for _, i := range bearing[week] {
			to := w.Options[i].gone(t.Weeks)
			value := float64(c.needed[to]-c.needed[week]) - c.price[i] + c.best[to]
			if value > c.best[week] && use(i) {
				c.best[week], c.chosen[week] = value, i
			}
		}
	}
}

// picked lists the options that solve chose, in order of bearing.
func (c *cover) picked(t Task, w Want) []int {
	var list []int
	for week := 0; week < t.Weeks; {
		i := c.chosen[week]
		if i < 0 {
			week++
			continue
		}
		list = append(list, i)
		week = w.Options[i].gone(t.Weeks)
	}
	return list
}
