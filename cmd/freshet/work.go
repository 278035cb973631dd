package main

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"

	"github.com/spf13/cobra"

	"freshet.example/cmd/freshet/page"
	"freshet.example/cmd/freshet/words"
	"freshet.example/husbandry"
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

func workCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "work [FORMULA name=value...]",
		Short: "Work out a formula; without one, list them",
		Long: "Work out a formula on this device, with its source and the range it holds for. Without one, list\n" +
			"them; with words that are no formula's name, list those that hold the words; with a formula alone,\n" +
			"say what it needs. Values may carry units: temperature=78F, volume=500gal.",
		Example: example("freshet work", "freshet work ammonia",
			"freshet work uia_fraction ph=7.5 temperature_celsius=25",
			"freshet work uia_fraction ph=7.5 temperature=78F"),
		ValidArgsFunction: completeFrom(formulaNames()),
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return listFormulas(a, husbandry.Catalogue())
			}
			entry, ok := husbandry.Find(words.Snake(args[0]))
			if !ok {
				return searchFormulas(a, args)
			}
			if len(args) == 1 && needsInputs(entry.Formula) {
				return explainFormula(a, entry)
			}
			return work(a, entry, args[1:])
		},
	}
}

func formulaNames() []string {
	var names []string
	for _, e := range husbandry.Catalogue() {
		names = append(names, e.Name)
	}
	return names
}

// needsInputs tells whether something must be given.
func needsInputs(f *formula.Formula) bool {
	for _, in := range f.Inputs {
		if in.Default == "" {
			return true
		}
	}
	return false
}

func searchFormulas(a *app, args []string) error {
	var found []husbandry.Entry
	for _, e := range husbandry.Catalogue() {
		text := strings.ToLower(strings.ReplaceAll(e.Name, "_", " ") + " " + e.Name + " " + e.Title + " " + e.Room)
		fits := true
		for _, w := range args {
			fits = fits && strings.Contains(text, strings.ToLower(w))
		}
		if fits {
			found = append(found, e)
		}
	}
	if len(found) == 0 {
		return wrong("no formula is called or holds \""+strings.Join(args, " ")+"\"", "freshet work lists all of them")
	}
	return listFormulas(a, found)
}

type shownFormula struct {
	Name   string   `json:"name"`
	Room   string   `json:"room"`
	Title  string   `json:"title"`
	Unit   string   `json:"unit,omitempty"`
	Source string   `json:"source"`
	Inputs []string `json:"inputs"`
}

func listFormulas(a *app, entries []husbandry.Entry) error {
	if a.json {
		list := make([]shownFormula, len(entries))
		for i, e := range entries {
			list[i] = shownFormula{Name: e.Name, Room: e.Room, Title: e.Title, Unit: e.Unit, Source: e.Source}
			for _, in := range e.Inputs {
				list[i].Inputs = append(list[i].Inputs, in.Name)
			}
		}
		return printJSON(a.out, list)
	}
	p := a.page()
	room := ""
	var pairs [][2]string
	flush := func() {
		if len(pairs) > 0 {
			p.Pairs(pairs)
		}
		pairs = nil
	}
	for _, e := range entries {
		if e.Room != room {
			flush()
			if room != "" {
				p.Gap()
			}
			room = e.Room
			p.Say(strings.ToUpper(room[:1]) + room[1:])
		}
		pairs = append(pairs, [2]string{e.Name, e.Title})
	}
	flush()
	return p.Err()
}

func explainFormula(a *app, e husbandry.Entry) error {
	if a.json {
		return listFormulas(a, []husbandry.Entry{e})
	}
	p := a.page()
	p.Say(sentence(e.Title))
	p.Gap()
	pairs := make([][2]string, len(e.Inputs))
	for i, in := range e.Inputs {
		pairs[i] = [2]string{in.Name, inputWords(in)}
	}
	p.Pairs(pairs)
	p.Gap()
	sayGrounds(p, e.Source, e.Range, nil)
	return p.Err()
}

func inputWords(in formula.Input) string {
	s := in.Meaning
	if in.Unit != "" {
		s += ", " + words.Degrees(in.Unit)
	}
	switch {
	case len(in.Choices) > 0:
		s += ": " + strings.Join(in.Choices, ", ")
	case in.Low != 0 || in.High != 0:
		s += fmt.Sprintf(", %s to %s", short(in.Low), short(in.High))
	}
	if in.Default != "" {
		s += "; " + in.Default + " if not given"
	}
	return s
}

func work(a *app, e husbandry.Entry, args []string) error {
	typed, err := workInputs(e.Formula, args)
	if err != nil {
		return err
	}
	answer, err := e.Ask(typed)
	if err != nil {
		return err
	}
	if a.json {
		return workJSON(a, e, answer)
	}
	p := a.page()
	p.Say(sentence(e.Title))
	p.Gap()
	p.Under(answerFigure(answer))
	p.Gap()
	sayGrounds(p, answer.Source, e.Range, answer.Cautions)
	if len(answer.Others) > 0 {
		p.Title("By other publications")
		pairs := make([][2]string, len(answer.Others))
		for i, o := range answer.Others {
			pairs[i] = [2]string{strings.TrimSpace(short(o.Value) + " " + words.Degrees(o.Unit)), o.Basis + " (" + o.Source + ")"}
		}
		p.Pairs(pairs)
	}
	return p.Err()
}

func answerFigure(a formula.Answer) string {
	unit := words.Degrees(a.Unit)
	switch {
	case a.Text != "":
		return sentence(a.Text)
	case math.IsNaN(a.Value):
		return short(a.Low) + " to " + short(a.High) + " " + unit
	case !math.IsNaN(a.Low):
		return short(a.Value) + " " + unit + "   (" + short(a.Low) + " to " + short(a.High) + ")"
	}
	return short(a.Value) + " " + unit
}

// short writes a figure with four digits, which is more than any of these
// formulas deserves.
func short(v float64) string { return quantity.Show(v, 4) }

// sayGrounds writes what an answer stands on and what to beware of.
func sayGrounds(p *page.Page, source, validRange string, cautions []string) {
	for _, c := range cautions {
		p.Item("!", sentence(page.Clean(c)))
	}
	if validRange != "" {
		p.Say("Holds for: " + page.Clean(validRange) + ".")
	}
	if source != "" {
		p.Say("Source: " + page.Clean(strings.TrimSuffix(source, ".")) + ".")
	}
}

func workJSON(a *app, e husbandry.Entry, answer formula.Answer) error {
	out := map[string]any{"name": e.Name, "unit": answer.Unit, "source": answer.Source, "valid_range": e.Range, "cautions": answer.Cautions}
	for name, v := range map[string]float64{"value": answer.Value, "low": answer.Low, "high": answer.High} {
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			out[name] = v
		}
	}
	if answer.Text != "" {
		out["text"] = answer.Text
	}
	if len(answer.Others) > 0 {
		raw, err := json.Marshal(answer.Others)
		if err != nil {
			return err
		}
		out["others"] = json.RawMessage(raw)
	}
	return printJSON(a.out, out)
}
