package main

import (
	"maps"
	"regexp"
	"strings"
)

// tellings are inputs told in words, and the names of what the words hold.
var tellings = []struct {
	form  *regexp.Regexp
	names []string
}{
	{regexp.MustCompile(`^deaths (\d+)/(\d+) versus (\d+)/(\d+) conf ([\d.]+)$`), []string{"events_a", "n_a", "events_b", "n_b", "confidence"}},
	{regexp.MustCompile(`^events (\d+) in exposure ([\d.]+); events (\d+) in exposure ([\d.]+)$`), []string{"events1", "exposure1", "events2", "exposure2"}},
	{regexp.MustCompile(`^y=([-\d.]+); log y ~ N\(mu=([-\d.]+),sd=([\d.]+)\)`), []string{"y", "mu", "sd"}},
	{regexp.MustCompile(`^W0=([\d.]+) g TGC=([\d.]+) \(.*per 1000.*\) (\d+) days each at (\[.*\]) degC$`), []string{"start_g", "coefficient_x1000", "days_each", "temperatures"}},
	{regexp.MustCompile(`^W0=([\d.]+) W=([\d.]+) degree days=([\d.]+)$`), []string{"start_g", "end_g", "degree_days"}},
}

var (
	chickForm   = regexp.MustCompile(`^Time=0\.\.21;weight=([\d,]+)$`)
	datasetForm = regexp.MustCompile(`^R datasets (\w+), \d+ rows`)
	modelForm   = regexp.MustCompile(`\blm\((\w+)~(\w+(?:[+*]\w+)+)\)`)
	groupsForm  = regexp.MustCompile(`\[([a-z]+?)(\d*) (?:means|slopes)\]$`)
	yearForm    = regexp.MustCompile(`^(data/\S+) year (\d+) \(\d+ days\) lat ([\d.]+) N$`)
)

// told reads inputs that are not written as pairs: "same data", data named by
// a row above, a file of data, and a few tellings. Nil where the row is none.
func (p *prover) told(row figureRow, e answerer) map[string]string {
	for _, t := range tellings {
		if m := t.form.FindStringSubmatch(row.Inputs); m != nil {
			given := map[string]string{}
			for i, name := range t.names {
				if takes(e.Formula, name) { // words may hold more than is asked for
					given[name] = m[i+1]
				}
			}
			return given
		}
	}
	if m := chickForm.FindStringSubmatch(row.Inputs); m != nil {
		return p.chick(strings.Split(m[1], ","), e)
	}
	if m := datasetForm.FindStringSubmatch(row.Inputs); m != nil {
		return p.wholeFile("data/"+strings.ToLower(m[1])+".csv", "", e)
	}
	if m := yearForm.FindStringSubmatch(row.Inputs); m != nil {
		return p.year(m[1], m[2], m[3], e)
	}
	words := strings.FieldsFunc(row.Inputs, func(r rune) bool { return r == ' ' || r == ';' || r == ',' })
	switch {
	case len(words) == 0:
		return nil
	case strings.EqualFold(words[0], "same"):
		given := maps.Clone(p.above)
		if openSet(row.Source) != nil { // the row above may have asked something else of the set
			maps.DeleteFunc(given, func(name, _ string) bool { return !takes(e.Formula, name) })
		}
		return given
	case p.named[words[0]] != nil:
		return maps.Clone(p.named[words[0]])
	case strings.HasPrefix(words[0], "data/") && !strings.Contains(words[0], ":"):
		rest := strings.TrimPrefix(row.Inputs, words[0])
		if m := modelForm.FindStringSubmatch(row.Source); m != nil && takes(e.Formula, "block") {
			return blocks(words[0], rest, m[1], strings.FieldsFunc(m[2], func(r rune) bool { return r == '+' || r == '*' }))
		}
		return p.wholeFile(words[0], rest, e)
	}
	return nil
}
