package trial

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"freshet.example/husbandry/formula/formulatest"
)

const published = "../../testdata/published/"

// TestPublishedStatistics asks every row that R 4.2.2 and NIST answer.
func TestPublishedStatistics(t *testing.T) {
	rows := formulatest.Rows(t, published+"statistics_trial.csv")
	formulatest.Check(t, Formulas, rows, func(r formulatest.Row) map[string]string { return described(t, r) })
}

var (
	twoCounts = regexp.MustCompile(`^deaths (\d+)/(\d+) versus (\d+)/(\d+) conf ([\d.]+)$`)
	twoRates  = regexp.MustCompile(`^events (\d+) in exposure ([\d.]+); events (\d+) in exposure ([\d.]+)$`)
)

// described turns inputs told in words, or by the name of a file, into inputs.
func described(t *testing.T, r formulatest.Row) map[string]string {
	if m := twoCounts.FindStringSubmatch(r.Inputs); m != nil {
		return map[string]string{"events_a": m[1], "n_a": m[2], "events_b": m[3], "n_b": m[4], "confidence": m[5]}
	}
	if m := twoRates.FindStringSubmatch(r.Inputs); m != nil {
		return map[string]string{"events1": m[1], "exposure1": m[2], "events2": m[3], "exposure2": m[4]}
	}
	file, rest, _ := strings.Cut(r.Inputs, " ")
	file, isFile := strings.CutPrefix(file, "data/")
	if !isFile {
		return nil
	}
	if strings.HasSuffix(file, ".dat") {
		return nistGroups(t, published+"data/"+file)
	}
	c := formulatest.Columns(t, published+"data/"+file, nil)
	switch file {
	case "plantgrowth.csv":
		return map[string]string{"value": c["weight"], "group": c["group"]}
	case "chickwts.csv":
		return map[string]string{"value": c["weight"], "group": c["feed"]}
	case "aml.csv":
		return map[string]string{"time": c["time"], "event": c["event"], "arm": c["group"]}
	}
	return fertiliser(c, strings.Contains(r.Quantity, "main effect"), rest == "without data row 5")
}

// fertiliser is npk with the factors of the model that a row names: block+N+K
// for main effects, all for the table and for the missing cell.
func fertiliser(c map[string]string, mainEffect, missing bool) map[string]string {
	g := map[string]string{"value": c["yield"], "block": c["block"], "a": c["N"], "b": c["P"], "c": c["K"], "names": "block N P K"}
	if mainEffect {
		g["b"], g["names"] = c["K"], "block N K"
		delete(g, "c")
	}
	for name, list := range g {
		if words := strings.Fields(list); missing && name != "names" {
			g[name] = strings.Join(append(words[:4:4], words[5:]...), " ")
		}
	}
	return g
}

// nistGroups reads a file of NIST: pairs of treatment and response below the
// line that starts with "Data:" for the second time.
func nistGroups(t *testing.T, path string) map[string]string {
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var value, group []string
	_, body, _ := strings.Cut(string(text), "Data:  Treatment   Response")
	if body == "" {
		_, body, _ = strings.Cut(string(text), "Data:  Instrument   Resistance")
	}
	for _, line := range strings.Split(body, "\n") {
		if words := strings.Fields(line); len(words) == 2 {
			group, value = append(group, words[0]), append(value, words[1])
		}
	}
	return map[string]string{"value": strings.Join(value, " "), "group": strings.Join(group, " ")}
}

// TestPublishedBiology asks the rows of the biology references.
func TestPublishedBiology(t *testing.T) {
	formulatest.Check(t, Formulas, formulatest.Rows(t, published+"trial.csv"), nil)
}
