package analysis

import (
	"time"

	"freshet.example/husbandry/crop"
)

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
