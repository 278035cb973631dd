package main

import (
	"context"
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"strings"
	"time"

	"golang.org/x/term"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/cmd/freshet/page"
	"freshet.example/cmd/freshet/sheet"
)

// committedRows is how many rows are committed together: a crash loses no row
// that was committed, and running the import again keeps the rest.
const committedRows = 5000

// An imported sheet tells what became of its rows.
type imported struct {
	Rows    int          `json:"rows"`
	Good    int          `json:"good"`
	Bad     []*sheet.Bad `json:"bad"`
	Kept    int          `json:"rows_kept"`
	Entries int          `json:"entries_kept"`
	Already int          `json:"rows_already_there"`
	Seconds float64      `json:"seconds"`
	DryRun  bool         `json:"dry_run"`
}

func readAndKeep(ctx context.Context, a *app, in *importing, plan *sheet.Plan) error {
	began := time.Now()
	result, err := dryRun(ctx, plan)
	if err != nil {
		return err
	}
	result.DryRun = in.dryRun
	if !a.json {
		tellDryRun(a, result)
	}
	keep := !in.dryRun && (len(result.Bad) == 0 || in.bad == "skip")
	if !in.dryRun && len(result.Bad) > 0 && in.bad == "" && a.asks() {
		if keep, err = askKeep(a, result.Good); err != nil {
			return err
		}
	}
	if keep {
		if err := keepRows(ctx, a, plan, result); err != nil {
			return err
		}
	}
	result.Seconds = time.Since(began).Seconds()
	return tellImport(a, in, result, keep)
}

// dryRun reads every row and keeps none.
func dryRun(ctx context.Context, plan *sheet.Plan) (*imported, error) {
	result := &imported{Bad: []*sheet.Bad{}}
	reader := plan.Reader()
	err := sheet.Each(plan.File, len(plan.Columns), func(row sheet.Row, bad *sheet.Bad) error {
		result.Rows++
		if bad == nil {
			_, bad = reader.Events(row)
		}
		if bad != nil {
			result.Bad = append(result.Bad, bad)
		} else {
			result.Good++
		}
		return ctx.Err()
	})
	return result, err
}

// shownBad is how many bad rows of a kind, and how many kinds, a screen lists;
// --json lists all.
const shownBad = 100

func tellDryRun(a *app, r *imported) {
	p := a.page()
	p.Say(fmt.Sprintf("%s read; %d good, %d bad.", many(r.Rows, "row", "rows"), r.Good, len(r.Bad)))
	groups := badAlike(r.Bad)
	for _, g := range groups[:min(len(groups), shownBad)] {
		p.Item("-", page.Clean(g.String()))
	}
	if n := len(groups) - shownBad; n > 0 {
		p.Item("-", fmt.Sprintf("and %d more; --json lists all", n))
	}
}

// A badGroup is rows that are bad in the same place for the same reason.
type badGroup struct {
	first *sheet.Bad
	lines []int
}

// badAlike puts bad rows together that need the same mending, by the first of each.
func badAlike(bad []*sheet.Bad) (groups []*badGroup) {
	by := map[[2]string]*badGroup{}
	for _, b := range bad {
		key := [2]string{b.Column, b.Words}
		if by[key] == nil {
			by[key] = &badGroup{first: b}
			groups = append(groups, by[key])
		}
		by[key].lines = append(by[key].lines, b.Line)
	}
	return groups
}

func (g *badGroup) String() string {
	b, such := g.first, ""
	text := "line " + lineRanges(g.lines)
	if len(g.lines) > 1 {
		text, such = "lines "+lineRanges(g.lines[:min(len(g.lines), shownBad)]), "such as "
	}
	if n := len(g.lines) - shownBad; n > 0 {
		text += fmt.Sprintf(" and %d more", n)
	}
	if b.Column != "" {
		text += ", " + b.Column
	}
	if b.Value != "" && !strings.Contains(b.Words, b.Value) {
		text += ", " + such + "\"" + b.Value + "\""
	}
	text += ": " + b.Words
	if b.Hint != "" {
		text += "; " + b.Hint
	}
	return text
}

func askKeep(a *app, good int) (bool, error) {
	tell(a.err, "Keep the %s, or none? (keep/none) ", many(good, "good row", "good rows"))
	var text string
	if _, err := fmt.Fscanln(a.in, &text); err != nil {
		return false, wrong("the question was not answered", "add --bad skip or --bad stop")
	}
	return strings.EqualFold(text, "keep") || strings.EqualFold(text, "k"), nil
}

// A keeper enters the rows that are not there yet.
type keeper struct {
	ctx         context.Context
	app         *app
	known       map[[16]byte]bool
	occurrences map[[32]byte]uint32
	waiting     []hashed
	rows        int
	result      *imported
	began, told time.Time
}

// hashed is an event with the mark by which it is known when the file comes again.
type hashed struct {
	event *freshetv1.Event
	hash  [16]byte
}

func keepRows(ctx context.Context, a *app, plan *sheet.Plan, result *imported) error {
	known, err := a.dev.Imported(ctx)
	if err != nil {
		return err
	}
	k := &keeper{ctx: ctx, app: a, known: known, occurrences: map[[32]byte]uint32{}, result: result, began: time.Now()}
	reader := plan.Reader()
	err = sheet.Each(plan.File, len(plan.Columns), func(row sheet.Row, bad *sheet.Bad) error {
		if bad != nil {
			return ctx.Err()
		}
		events, bad := reader.Events(row)
		if bad != nil {
			return ctx.Err()
		}
		return k.row(events)
	})
	if err == nil {
		err = k.commit()
	}
	k.progress(true)
	return err
}

// row takes a row's events. An event is known again by what it says and by how
// often the file has said so before: the same reading typed twice is two.
func (k *keeper) row(events []*freshetv1.Event) error {
	fresh := false
	for _, e := range events {
		raw, err := proto.MarshalOptions{Deterministic: true}.Marshal(e)
		if err != nil {
			return err
		}
		content := sha256.Sum256(raw)
		n := k.occurrences[content]
		k.occurrences[content]++
		sum := sha256.Sum256(binary.BigEndian.AppendUint32(content[:], n))
		h := hashed{e, [16]byte(sum[:16])}
		if !k.known[h.hash] {
			k.waiting = append(k.waiting, h)
			fresh = true
		}
	}
	if fresh {
		k.rows++
	} else {
		k.result.Already++
	}
	if k.rows < committedRows {
		return k.ctx.Err()
	}
	return k.commit()
}

// commit enters the waiting events together with their marks.
func (k *keeper) commit() error {
	if len(k.waiting) == 0 {
		return nil
	}
	err := k.app.dev.Enter(k.ctx, func(t *device.Draft) error {
		for _, h := range k.waiting {
			if _, err := t.Note(h.event); err != nil {
				return err
			}
			t.Remember(h.hash)
		}
		return nil
	})
	if err != nil {
		return err
	}
	k.result.Kept += k.rows
	k.result.Entries += len(k.waiting)
	k.waiting, k.rows = k.waiting[:0], 0
	k.progress(false)
	return nil
}

// progress tells how far it is, on a terminal as it goes.
func (k *keeper) progress(last bool) {
	if k.app.json || !term.IsTerminal(int(k.app.err.Fd())) || (!last && time.Since(k.told) < 200*time.Millisecond) {
		return
	}
	k.told = time.Now()
	rate := float64(k.result.Kept) / max(time.Since(k.began).Seconds(), 0.001)
	tell(k.app.err, "\r%d of %d rows kept, %.0f rows/s ", k.result.Kept, k.result.Good, rate)
	if last {
		say(k.app.err, "")
	}
}

func tellImport(a *app, in *importing, r *imported, kept bool) error {
	if a.json {
		if err := printJSON(a.out, r); err != nil {
			return err
		}
	} else {
		if err := tellKept(a, in, r, kept); err != nil {
			return err
		}
	}
	if len(r.Bad) > 0 && !kept && !in.dryRun {
		return wrong(fmt.Sprintf("nothing was kept, since %s", many(len(r.Bad), "row is bad", "rows are bad")), "mend them in the sheet, or keep the others with --bad skip")
	}
	return nil
}

func tellKept(a *app, in *importing, r *imported, kept bool) error {
	p := a.page()
	switch {
	case in.dryRun:
		p.Say("A dry run: nothing was kept.")
	case kept:
		p.Say(fmt.Sprintf("Kept %s as %s in %.1f s (%.0f rows/s).", many(r.Kept, "row", "rows"), many(r.Entries, "entry", "entries"),
			r.Seconds, float64(r.Kept)/max(r.Seconds, 0.001)))
		if r.Already > 0 {
			p.Say(many(r.Already, "row was", "rows were") + " there already.")
		}
	}
	return p.Err()
}
