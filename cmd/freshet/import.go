package main

import (
	"bufio"
	"context"
	"strings"

	"github.com/spf13/cobra"

	"freshet.example/cmd/freshet/page"
	"freshet.example/cmd/freshet/sheet"
)

// importing is what a person wishes of an import.
type importing struct {
	file   string
	maps   []string
	units  []string
	bases  []string
	wishes sheet.Wishes
	dryRun bool
	bad    string
}

func importCommand(a *app) *cobra.Command {
	in := &importing{}
	c := &cobra.Command{
		Use:   "import FILE.csv",
		Short: "Read a spreadsheet, saved as CSV, into entries",
		Long: "Read a spreadsheet, saved as CSV, into entries. What each column means is\n" +
			"guessed and shown; units and bases are read from headers like\n" +
			"\"Ammonia (ppm as NH3)\", asked for on a terminal, or given by flags: they are\n" +
			"never guessed. All rows are read before any is kept, and each row that cannot\n" +
			"be read is reported with line, column, reason and hint. Importing a file again,\n" +
			"or after it was interrupted, keeps only rows that are not yet there.\n\n" +
			"Wide sheets have a row for each time and a column for each quantity; long sheets\n" +
			"have columns for quantity, value and unit. With --kind each row is one entry of\n" +
			"that kind, its columns the fields.",
		Example: example(`freshet import water.csv --dry-run`,
			`freshet import water.csv --unit "Nitrate=ppm as NO3" --bad skip`,
			`freshet import log.csv --map "Tank temp=temperature@Fish tank" --unit "Tank temp=F"`,
			`freshet import growth.csv --kind weighing --map "Avg (g)=each" --zone UTC`,
			`freshet import feed.csv --kind feeding --map "Fish=to" --dates dmy`),
		Args: oneArgument("the file"),
		RunE: func(c *cobra.Command, args []string) error {
			in.file = args[0]
			return runImport(c.Context(), a, in)
		},
	}
	f := c.Flags()
	f.StringArrayVar(&in.maps, "map", nil, "what a column is: COLUMN=when, place, quantity, value, unit, a quantity, a noun, a field or skip; @PLACE may follow")
	f.StringArrayVar(&in.units, "unit", nil, "what a column or a quantity is in: COLUMN=UNIT, or COLUMN=UNIT as BASIS")
	f.StringArrayVar(&in.bases, "basis", nil, "what a column or a quantity counts: COLUMN=N, NH3, NO3, CaCO3 ...")
	f.StringVar(&in.wishes.Kind, "kind", "", "what the rows are: reading, wide, feeding, death ... (default: guessed)")
	f.StringVar(&in.wishes.At, "at", "", "place, vessel or cohort of all rows that name none")
	f.StringVar(&in.wishes.Dates, "dates", "", "order of days like 3/4/2026: dmy, mdy or ymd")
	f.StringVar(&in.wishes.Zone, "zone", "", "time zone of the sheet's times, like UTC or Europe/Rome (default: the site's)")
	f.BoolVar(&in.dryRun, "dry-run", false, "read and report, keep nothing")
	f.StringVar(&in.bad, "bad", "", "where rows are bad: skip them, or stop and keep nothing (default: asked on a terminal, else stop)")
	return c
}

func runImport(ctx context.Context, a *app, in *importing) error {
	if in.bad != "" && in.bad != "skip" && in.bad != "stop" {
		return wrong("--bad is skip or stop", "skip keeps the good rows, stop keeps none")
	}
	var err error
	if in.wishes.Map, err = pairs("--map", in.maps); err != nil {
		return err
	}
	if in.wishes.Unit, err = pairs("--unit", in.units); err != nil {
		return err
	}
	if in.wishes.Basis, err = pairs("--basis", in.bases); err != nil {
		return err
	}
	desk, err := a.desk(ctx)
	if err != nil {
		return err
	}
	plan, err := sheet.NewPlan(in.file, in.wishes, desk)
	if err != nil {
		return err
	}
	if !a.json {
		showPlan(a, plan)
	}
	if err := answer(a, plan); err != nil {
		return err
	}
	return readAndKeep(ctx, a, in, plan)
}

// pairs reads NAME=MEANING flags; a name may itself hold an equals sign.
func pairs(flag string, list []string) (map[string]string, error) {
	out := map[string]string{}
	for _, p := range list {
		at := strings.LastIndex(p, "=")
		if at < 1 {
			return nil, wrong(flag+" "+p+" has no =", "write it like "+flag+" \"COLUMN=...\"")
		}
		out[strings.TrimSpace(p[:at])] = strings.TrimSpace(p[at+1:])
	}
	return out, nil
}

// showPlan tells what each column was taken for.
func showPlan(a *app, plan *sheet.Plan) {
	p := a.page()
	p.Say("Read as " + strings.ReplaceAll(strings.Replace(plan.Kind, "reading", "a long sheet of readings", 1), "_", " ") + ":")
	list := make([][2]string, len(plan.Columns))
	for i, c := range plan.Columns {
		list[i] = [2]string{page.Clean(c.Header), page.Clean(c.Says())}
	}
	p.Pairs(list)
	p.Gap()
}

// answer settles what the sheet does not tell: by asking, or by refusing with
// the flags that would tell.
func answer(a *app, plan *sheet.Plan) error {
	questions, err := plan.Missing()
	if err != nil || len(questions) == 0 {
		return err
	}
	if !a.asks() {
		return untold(a, questions)
	}
	lines := bufio.NewScanner(a.in)
	for _, q := range questions {
		for {
			tell(a.err, "%s\n> ", q.Words)
			if !lines.Scan() {
				return wrong("the question was not answered", "add "+q.Flag)
			}
			err := settle(plan, q, strings.TrimSpace(lines.Text()))
			if err == nil {
				break
			}
			say(a.err, "%v", err)
		}
	}
	return answer(a, plan) // an answer may bring a further question: a unit that needs a basis
}

// untold refuses a sheet that leaves questions open.
func untold(a *app, questions []sheet.Question) error {
	p := page.New(a.err, widthOf(a.err))
	var flags []string
	for _, q := range questions {
		p.Item("?", q.Words)
		flags = append(flags, q.Flag)
	}
	return wrong("the sheet does not tell all", "add "+strings.Join(flags, " "))
}

func settle(plan *sheet.Plan, q sheet.Question, text string) error {
	if q.About != "dates" {
		return plan.Kit(q.About, text)
	}
	if text != sheet.DayFirst && text != sheet.MonthFirst {
		return wrong("that is neither dmy nor mdy", "")
	}
	plan.Order = text
	return nil
}
