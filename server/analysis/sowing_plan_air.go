package analysis

import (
	"time"

	"freshet.example/husbandry/crop"
	"freshet.example/husbandry/plan"
	"freshet.example/husbandry/quantity"
)

func dayTime(d crop.Day) time.Time { return time.Unix(int64(d)*86400, 0).UTC() }

// yearOf holds sums of air temperature by week of the year, 0 to 52.
type yearOf struct {
	sum [53]float64
	n   [53]int64
}

func (y *yearOf) add(yearDay int, sum float64, n int64) {
	week := (yearDay - 1) / 7
	y.sum[week] += sum
	y.n[week] += n
}

// weeks are the usual means of a season's weeks; nil where fewer than half of
// the year's weeks were read.
func (y *yearOf) weeks(s plan.Season) []quantity.Celsius {
	read := 0
	for _, n := range y.n {
		if n > 0 {
			read++
		}
	}
	if read < len(y.n)/2 {
		return nil
	}
	list := make([]quantity.Celsius, s.Weeks)
	for i := range list {
		list[i] = y.near(((s.Start + crop.Day(7*i)).YearDay() - 1) / 7)
	}
	return list
}

// near is the mean of a week, or of the nearest one that was read.
func (y *yearOf) near(week int) quantity.Celsius {
	for away := range len(y.n) {
		for _, at := range []int{week - away, week + away} {
			if at = (at + len(y.n)) % len(y.n); y.n[at] > 0 {
				return quantity.Celsius(y.sum[at] / float64(y.n[at]))
			}
		}
	}
	return 0
}

// warm lists the spans between last and first frost that a plan meets; nil
// where the site's frosts are not said.
func (g *growing) warm(start crop.Day, weeks int) []crop.Span {
	last, err1 := time.Parse("01-02", g.Site.LastFrost)
	first, err2 := time.Parse("01-02", g.Site.FirstFrost)
	if err1 != nil || err2 != nil {
		return nil
	}
	var list []crop.Span
	for year := start.Year() - 1; year <= (start + crop.Day(7*weeks)).Year(); year++ {
		span := crop.Span{First: inYear(last, year) + 1, Last: inYear(first, year) - 1}
		if span.Last < span.First { // the warm season runs over New Year
			span.Last = inYear(first, year+1) - 1
		}
		list = append(list, span)
	}
	return list
}
