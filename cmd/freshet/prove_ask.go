package main

import (
	"cmp"
	"maps"
	"math"
	"regexp"
	"strconv"
	"strings"

	"freshet.example/cmd/freshet/words"
	"freshet.example/husbandry"
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/published"
)

// noFormula is the verdict on a row that nothing of ours answers.
const noFormula = "no formula"

// A proof is one row of a file of figures, asked.
type proof struct {
	Line     int    `json:"line"`
	Quantity string `json:"quantity"`
	Inputs   string `json:"inputs,omitempty"`
	Expected string `json:"expected"`
	Unit     string `json:"unit,omitempty"`
	Within   string `json:"tolerance,omitempty"`
	Source   string `json:"source,omitempty"`
	Tag      string `json:"tag,omitempty"`
	Verdict  string `json:"verdict"` // agrees, disputed, differs, no formula, not held, not read, other words
	Formula  string `json:"formula,omitempty"`
	Ours     string `json:"ours,omitempty"` // the answer, in words
	Stands   string `json:"our_source,omitempty"`
	Why      string `json:"why,omitempty"`
}

// A prover asks the rows of one file. It remembers what the rows above held,
// since rows below may say "same data".
type prover struct {
	folder string // of the file, where its data lie
	tables map[string][][]string
	above  map[string]string            // inputs of the row above that had any
	named  map[string]map[string]string // inputs of rows above, by the data set that their source names
}

// ask puts a row to every formula that answers to its quantity. One that agrees
// is enough; else the first that was asked at all counts.
func (p *prover) ask(row figureRow) proof {
	best := proof{Verdict: noFormula}
	for _, e := range answering(row.Quantity) {
		asked := p.askOne(row, e)
		if best.Verdict == noFormula || rank(asked.Verdict) < rank(best.Verdict) {
			best = asked
		}
	}
	if best.Verdict == noFormula {
		best.Why = whyNone(row.Quantity)
	}
	best.Line, best.Quantity, best.Inputs, best.Expected, best.Unit = row.line, row.Quantity, row.Inputs, row.Expected, row.Unit
	best.Within, best.Source, best.Tag = row.Tolerance, row.Source, row.Tag
	p.remember(row)
	if strings.Contains(strings.ToUpper(row.Tag), "TRAP") && best.Verdict == published.Differs.String() {
		best.Verdict, best.Why = published.Agrees.String(), "the row is a trap, and our answer is another"
	}
	return best
}

func rank(verdict string) int {
	for v := published.Agrees; v <= published.OtherText; v++ {
		if v.String() == verdict {
			return int(v)
		}
	}
	return math.MaxInt
}

// An answerer is a formula that answers to a quantity, and the inputs that the
// quantity's name itself holds.
type answerer struct {
	husbandry.Entry
	held map[string]string
}

// answering finds every formula that goes by a quantity's name; where none
// does, those that go by it when spelt as we spell, or by the same words.
func answering(quantity string) []answerer {
	var found []answerer
	for _, spelt := range []string{quantity, words.Snake(quantity)} {
		for _, e := range husbandry.Catalogue() {
			if held, ok := e.Matches(spelt); ok {
				found = append(found, answerer{e, held})
			}
		}
		if found != nil {
			return found
		}
	}
	return alike(quantity)
}

// whyNone says why nothing answers to a quantity, and what comes near.
func whyNone(quantity string) string {
	if _, why := knownWhy(quantity); why != "" {
		return why
	}
	if names := near(quantity); len(names) > 0 {
		return "no formula or table of ours goes by this name; near it: " + strings.Join(names, ", ")
	}
	return "no formula or table of ours goes by this name"
}

func knownWhy(quantity string) (start, why string) {
	for start, why := range unanswered {
		if strings.HasPrefix(quantity, start) {
			return start, why
		}
	}
	return "", ""
}

// unanswered are quantities that are no formula's, by how they begin.
var unanswered = map[string]string{
	"outlook.yardstick": "how another method's forecasts did, a bar for ours and no figure: make coverage measures ours on the same data into testdata/bench/coverage.md",
}

func (p *prover) askOne(row figureRow, e answerer) proof {
	typed := maps.Clone(e.held)
	given, err := p.inputs(row, e)
	if err != nil {
		return proof{Verdict: published.NotRead.String(), Formula: e.Name, Why: err.Error()}
	}
	maps.Copy(typed, given)
	answer, err := e.Ask(typed)
	verdict, answer := published.Judge(row.Row, e.Formula, answer, err)
	for _, o := range answer.Others { // a row stands on the publication that it names
		if err != nil || verdict != published.Differs || !namesIt(row.Source, o.Source) {
			continue
		}
		other := formula.Number(o.Value)
		other.Unit, other.Source = cmp.Or(o.Unit, answer.Unit), o.Source
		if v, judged := published.Judge(row.Row, e.Formula, other, nil); v == published.Agrees {
			verdict, answer = v, judged
		}
	}
	out := proof{Verdict: verdict.String(), Formula: e.Name, Stands: answer.Source}
	if d, found := published.DisputeOf(row.Row, answer.Value); found && verdict == published.Disputed {
		out.Why = d.How
	}
	if err != nil {
		out.Why = strings.TrimPrefix(err.Error(), e.Name+": ")
	} else {
		out.Ours = exactFigure(answer)
		if verdict == published.NotRead {
			out.Why = "no figure is printed to hold the answer against, " + out.Ours
		}
	}
	return out
}

var sourceYear = regexp.MustCompile(`\b(1[89]|20)\d\d\b`)

// namesIt tells whether a row stands on a publication: it has the name that this
// begins with, and its year.
func namesIt(said, publication string) bool {
	name, _, _ := strings.Cut(publication, " ")
	name = strings.TrimRight(name, ",.;:")
	year := sourceYear.FindString(publication)
	return year != "" && strings.Contains(said, year) && strings.Contains(said, name)
}

// exactFigure writes an answer with the digits that a comparison needs.
func exactFigure(a formula.Answer) string {
	var parts []string
	if !math.IsNaN(a.Value) {
		parts = append(parts, tenDigits(a.Value))
	}
	if !math.IsNaN(a.Low) && math.IsNaN(a.Value) {
		parts = append(parts, tenDigits(a.Low)+" to "+tenDigits(a.High))
	}
	if a.Text != "" {
		parts = append(parts, `"`+a.Text+`"`)
	}
	return strings.TrimSpace(strings.Join(parts, ", ") + " " + a.Unit)
}

func tenDigits(v float64) string { return strconv.FormatFloat(v, 'g', 10, 64) }
