package main

import (
	"cmp"
	"encoding/json"
	"math"
	"regexp"
	"strconv"
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
		Long: "Work out a formula on this device, with its source and the range it holds for. Without one, say\n" +
			"where they are; with words that are no formula's name, list those that hold the words; with a\n" +
			"formula alone, say what it needs. Values may carry units: temperature=78F, volume=500gal.",
		Example: example("freshet work", "freshet work water", "freshet work degree days",
			"freshet work uia_fraction ph=7.5 temperature_celsius=25",
			"freshet work uia_fraction ph=7.5 temperature=78F"),
		ValidArgsFunction: completeFrom(formulaNames()),
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return listRooms(a)
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
	p.Say("Written: " + writtenAs(e.Formula))
	sayGrounds(p, e.Source, e.Range, e.Cautions)
	return p.Err()
}

func inputWords(in formula.Input) string {
	s := in.Meaning
	if in.Unit != "" {
		s += ", " + words.Degrees(in.Unit)
	}
	if len(in.Choices) > 0 {
		s += ": " + strings.Join(in.Choices, ", ")
	} else if span := spanWords(in.Low, in.High); span != "" {
		s += ", " + span
	}
	switch in.Default {
	case "":
	case "-", "not given":
		s += "; may be left out"
	default:
		s += "; " + in.Default + " if not given"
	}
	return s
}

// Bounds beyond these only keep arithmetic from running over.
const nearNothing, nearEndless = 1e-6, 1e12

// spanWords says between which values an input may lie.
func spanWords(low, high float64) string {
	least, most := bound(low), bound(high)
	if low > 0 && low < nearNothing {
		least = "above 0"
	}
	switch {
	case low == 0 && high == 0, low <= -nearEndless && high >= nearEndless:
		return ""
	case high >= nearEndless && least == "above 0":
		return least
	case high >= nearEndless:
		return least + " or more"
	case low <= -nearEndless:
		return "up to " + most
	case least == "above 0":
		return "above 0, up to " + most
	}
	return least + " to " + most
}

// bound writes the end of a range without zeros that say nothing.
func bound(v float64) string {
	text := quantity.Show(v, 6)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}

// writtenAs shows a formula with the inputs that must be given.
func writtenAs(f *formula.Formula) string {
	line := "freshet work " + f.Name
	for _, in := range f.Inputs {
		if in.Default == "" {
			line += " " + in.Name + "=..."
		}
	}
	return line
}

func work(a *app, e husbandry.Entry, args []string) error {
	typed, american, err := workInputs(e.Formula, args)
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
	figures := figuresOf(e, answer)
	sayParts(p, answerFigure(answer, figures, american))
	p.Gap()
	sayGrounds(p, answer.Source, e.Range, answer.Cautions)
	if len(answer.Others) > 0 {
		p.Title("By other publications")
		pairs := make([][2]string, len(answer.Others))
		for i, o := range answer.Others {
			pairs[i] = [2]string{strings.TrimSpace(inUnit(formula.Answer{Value: o.Value, Low: math.NaN()}, cmp.Or(o.Unit, answer.Unit), figures)), words.Degrees(o.Basis + " (" + o.Source + ")")}
		}
		p.Pairs(pairs)
	}
	return p.Err()
}

// partName begins a part of an answer in words: "Fish: ... Filter: ...".
var partName = regexp.MustCompile(`\. ([A-Z][a-z]+): `)

// sayParts writes an answer; in words that name their parts, one below the other.
func sayParts(p *page.Page, text string) {
	at := partName.FindAllStringSubmatchIndex(text, -1)
	if len(at) < 2 {
		p.Under(text)
		return
	}
	p.Under(text[:at[0][0]+1])
	p.Gap()
	pairs := make([][2]string, len(at))
	for i, m := range at {
		end := len(text)
		if i+1 < len(at) {
			end = at[i+1][0] + 1
		}
		pairs[i] = [2]string{text[m[2]:m[3]], sentence(text[m[1]:end])}
	}
	p.Pairs(pairs)
}

// answerFigure writes an answer, beside it in US customary units where she
// wrote in those.
func answerFigure(a formula.Answer, figures formula.Figures, american bool) string {
	if a.Text != "" {
		return sentence(words.Degrees(inFahrenheitToo(a.Text, american)))
	}
	text := inUnit(a, a.Unit, figures)
	if to, change := americanOf(a); american && change != nil {
		for _, v := range []*float64{&a.Value, &a.Low, &a.High} {
			*v = change(*v)
		}
		text += " = " + inUnit(a, to, figures)
	}
	return text
}

var celsius = regexp.MustCompile(`(-?[0-9.]*[0-9]) degC`)

// inFahrenheitToo writes each temperature in words a second time, for whoever wrote
// in US customary units.
func inFahrenheitToo(text string, american bool) string {
	if !american {
		return text
	}
	return celsius.ReplaceAllStringFunc(text, func(said string) string {
		c, err := strconv.ParseFloat(strings.TrimSuffix(said, " degC"), 64)
		if err != nil {
			return said
		}
		return said + " (" + shown(float64(quantity.Celsius(c).Fahrenheit()), formula.Rough) + " degF)"
	})
}

func inUnit(a formula.Answer, unit string, figures formula.Figures) string {
	short := func(v float64) string { return shown(v, figures) }
	if unit == "fraction" { // of something: people say percent
		unit, a.Value, a.Low, a.High = "%", a.Value*100, a.Low*100, a.High*100
	}
	unit = words.Degrees(unit)
	switch {
	case math.IsNaN(a.Value):
		return short(a.Low) + " to " + short(a.High) + " " + unit
	case !math.IsNaN(a.Low):
		return short(a.Value) + " " + unit + "   (" + short(a.Low) + " to " + short(a.High) + ")"
	}
	return short(a.Value) + " " + unit
}

// figuresOf says how finely an answer deserves to be shown: roughly, where
// nobody measured what it stands on.
func figuresOf(e husbandry.Entry, a formula.Answer) formula.Figures {
	if e.Figures == formula.Usual && isUnsourced(a.Source) {
		return formula.Rough
	}
	return e.Figures
}

// shown writes a number in so many figures, and a whole number as one. Only a
// fine one keeps what figures it has left of the point.
func shown(v float64, figures formula.Figures) string {
	n := figures.Digits()
	if v == math.Trunc(v) {
		return quantity.Show(v, 1)
	}
	if figures != formula.Fine {
		unit := math.Pow(10, math.Floor(math.Log10(math.Abs(v)))-float64(n-1))
		if unit > 1 {
			v = math.Round(v/unit) * unit
		}
	}
	return quantity.Show(v, n)
}

// sayGrounds writes what an answer stands on and what to beware of.
func sayGrounds(p *page.Page, source, validRange string, cautions []string) {
	for _, c := range cautions {
		p.Item("!", sentence(words.Degrees(page.Clean(c))))
	}
	if len(cautions) > 0 {
		p.Gap()
	}
	if validRange != "" && !strings.Contains(source, validRange) {
		p.Say("Holds for: " + words.Degrees(page.Clean(validRange)) + ".")
	}
	if source != "" {
		p.Say("Source: " + words.Degrees(page.Clean(strings.TrimSuffix(source, "."))) + ".")
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
