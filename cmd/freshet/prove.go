package main

import (
	"path/filepath"
	"slices"
	"strconv"

	"github.com/spf13/cobra"

	"freshet.example/cmd/freshet/page"
	"freshet.example/husbandry/published"
)

func proveCommand(a *app) *cobra.Command {
	every, unsourced := false, false
	c := &cobra.Command{
		Use:   "prove FILE.csv...",
		Short: "Hold our figures against published ones",
		Long: "Compute every row of files of published figures with the formulas that this program itself uses,\n" +
			"and say where they differ. A file is CSV with the columns quantity, inputs (name=value;name=value),\n" +
			"expected, unit, tolerance, source and tag, in any order. Facts are looked up in our tables. It\n" +
			"needs no network and no device. Exit status 1 where any row differs; the few figures whose source\n" +
			"is shown to have stopped short are counted apart, as disputed.",
		Example: example("freshet prove testdata/published/water.csv",
			"freshet prove --every my-figures.csv",
			"freshet prove --json *.csv",
			"freshet prove --unsourced"),
		RunE: func(_ *cobra.Command, files []string) error {
			if unsourced {
				return listUnsourced(a)
			}
			if len(files) == 0 {
				return wrong("no file of figures is named", "freshet prove FILE.csv...")
			}
			return prove(a, files, every)
		},
	}
	c.Flags().BoolVar(&every, "every", false, "write every row, also those that agree")
	c.Flags().BoolVar(&unsourced, "unsourced", false, "list the figures of ours that stand from memory or as common practice")
	return c
}

// A provenFile is a file of figures and what came of each row.
type provenFile struct {
	File    string         `json:"file"`
	Rows    int            `json:"rows"`
	Counts  map[string]int `json:"counts"`
	Passed  []string       `json:"columns_passed_over,omitempty"`
	Fault   string         `json:"fault,omitempty"` // why nothing of it could be read
	Results []proof        `json:"results"`
}

func prove(a *app, files []string, every bool) error {
	proven := make([]provenFile, len(files))
	differ, unread := 0, 0
	for i, name := range files {
		file, err := readFigures(name)
		if err != nil && len(files) == 1 {
			return err
		}
		if err != nil { // the others are proven all the same
			proven[i] = provenFile{File: name, Fault: err.Error()}
			unread++
			continue
		}
		proven[i] = proveFile(file)
		differ += proven[i].Counts[published.Differs.String()]
	}
	if err := tellProven(a, proven, every); err != nil {
		return err
	}
	if differ > 0 {
		return wrong(counted(differ, "row differs", "rows differ")+" from what is printed", "see above; one of the two is wrong")
	}
	if unread > 0 {
		return wrong(counted(unread, "file was not read", "files were not read"), "see above; "+columnsHint)
	}
	return nil
}

func proveFile(file *figureFile) provenFile {
	p := &prover{folder: filepath.Dir(file.name), tables: map[string][][]string{}, named: map[string]map[string]string{}}
	out := provenFile{File: file.name, Rows: len(file.rows) + len(file.bad), Counts: map[string]int{}, Passed: file.passed, Results: file.bad}
	for _, row := range file.rows {
		out.Results = append(out.Results, p.ask(row))
	}
	slices.SortStableFunc(out.Results, func(a, b proof) int { return a.Line - b.Line })
	for _, r := range out.Results {
		out.Counts[r.Verdict]++
	}
	return out
}

func tellProven(a *app, files []provenFile, every bool) error {
	if a.json {
		return printJSON(a.out, files)
	}
	p := a.page()
	total := map[string]int{}
	rows := 0
	for i, f := range files {
		if i > 0 {
			p.Gap()
		}
		tellFile(p, f, every)
		rows += f.Rows
		for v, n := range f.Counts {
			total[v] += n
		}
	}
	if len(files) > 1 {
		p.Gap()
		p.Head("All files", counted(rows, "row", "rows"))
		p.Say(inCounts(total))
	}
	return p.Err()
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// tellFile writes one file: the counts, what differs, what was not answered.
func tellFile(p *page.Page, f provenFile, every bool) {
	p.Head(filepath.Base(f.File), counted(f.Rows, "row", "rows"))
	if f.Fault != "" {
		p.Say("Not read: " + page.Clean(f.Fault) + ".")
		return
	}
	if f.Rows == 0 {
		p.Say("There is nothing in it.")
		return
	}
	p.Say(inCounts(f.Counts))
	if len(f.Passed) > 0 {
		p.Say("Columns passed over: " + listed(f.Passed) + ".")
	}
	tellRows(p, f, every)
}
