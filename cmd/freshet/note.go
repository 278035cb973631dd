package main

import (
	"context"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/cmd/freshet/page"
	"freshet.example/cmd/freshet/words"
	"freshet.example/husbandry/quantity"
)

func noteCommand(a *app) *cobra.Command {
	lines := []string{`freshet note ph 7.2 ammonia "0.5 ppm as N" nitrite "<0.1 ppm as N"`}
	var names []string
	for _, n := range words.Nouns {
		lines = append(lines, "freshet note "+n.Example)
		names = append(names, n.Name)
	}
	return &cobra.Command{
		Use:   "note NOUN WORDS... name=value...",
		Short: "Note something that happened",
		Long: "Note something that happened: " + strings.Join(names, ", ") + ".\n\n" +
			"A test of the water needs no noun, and a line may hold several: ph 7.2 ammonia 0.5ppm as=N.\n" +
			"Plain words come in the order of the examples; the rest is name=value, by the names of the records\n" +
			"or by a small word that leads to a place, a cohort or a planting: at=, to=, of=, in=, from=.\n" +
			"each= gives what one weighs where all are asked for: weighing 12 each=283g. " +
			"Units stand behind the number (850g, 2lb, 50gal, 78F). when= says when: 07:12, \"yesterday 18:00\",\n" +
			"\"2 h ago\", \"2026-11-20 07:12\"; without it, now. A note is kept on this device at once, with or\n" +
			"without a network.",
		Example:           example(lines...),
		Args:              arguments(1, 0, "what to note"),
		ValidArgsFunction: completeFrom(append(names, words.Quantities()...)),
		RunE: func(c *cobra.Command, args []string) error {
			return note(c.Context(), a, args)
		},
	}
}

func note(ctx context.Context, a *app, args []string) error {
	noun, rest, err := words.FindEntry(args)
	if err != nil {
		return err
	}
	desk, err := a.desk(ctx)
	if err != nil {
		return err
	}
	typed := words.Split(rest)
	if noun.Name == "photo" {
		if typed, err = keepPhoto(a, typed); err != nil {
			return err
		}
	}
	events, err := desk.Events(noun, typed)
	if err != nil {
		return err
	}
	ids, err := a.dev.Note(ctx, events...)
	if err != nil {
		return err
	}
	return tellNoted(ctx, a, desk, events, ids)
}

func tellNoted(ctx context.Context, a *app, desk words.Desk, events []*freshetv1.Event, ids []string) error {
	s, err := a.dev.Status(ctx)
	if err != nil {
		return err
	}
	if a.json {
		return notedJSON(a, events, ids, s.Waiting)
	}
	p := a.page()
	for i, e := range events {
		at := e.GetOccurredAt().AsTime().In(desk.Now.Location())
		p.Say(fmt.Sprintf("Noted as entry %s: %s; %s.", a.dev.Short(ids[i]), page.Clean(desk.Book.Say(e)), device.Moment(at, desk.Now)))
		if remark := unusual(e.GetReading()); remark != "" {
			p.Say(remark + " Was it a slip? Then: freshet void " + a.dev.Short(ids[i]))
		}
	}
	if s.Joined && s.Waiting > 1 {
		p.Say(many(s.Waiting, "entry waits", "entries wait") + " on this device; freshet sync sends them.")
	}
	return p.Err()
}

// notedJSON writes an object for each entry.
func notedJSON(a *app, events []*freshetv1.Event, ids []string, waiting int) error {
	for i, e := range events {
		if err := printJSON(a.out, map[string]any{"id": ids[i], "kind": device.EventKind(e), "waiting": waiting}); err != nil {
			return err
		}
	}
	return nil
}

// unusual is a remark on a reading outside the usual range; empty within it.
func unusual(r *freshetv1.Reading) string {
	if r == nil {
		return ""
	}
	known := words.Known(r.GetQuantity())
	v, err := words.Measure(r).Canonical(known)
	if err != nil || !known.Unusual(v) {
		return ""
	}
	low, high := known.Usual()
	return sentence(fmt.Sprintf("%s is unusual: most loops show %s to %s %s", known.Title(), quantity.Show(low, 1), quantity.Show(high, 1),
		strings.TrimSuffix(words.Degrees(known.Unit().String()), "pH")))
}

// completeFrom offers words for an argument.
func completeFrom(list []string) func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return list, cobra.ShellCompDirectiveNoFileComp
	}
}

func voidCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "void ENTRY [WHY]",
		Short: "Make an earlier entry void",
		Long: "Make an earlier entry void. Entries are never deleted: the correction is an entry of its own, so\n" +
			"that everyone sees what was changed. ENTRY is its number as noted on this device, or its whole id.",
		Example: example(`freshet void 123 "read the wrong card"`, `freshet void 7d3c5a10-91f2-8e44-8000-00000000007b`),
		Args:    arguments(1, 0, "the entry's number"),
		RunE: func(c *cobra.Command, args []string) error {
			return void(c.Context(), a, args[0], strings.Join(args[1:], " "))
		},
	}
}

func void(ctx context.Context, a *app, which, why string) error {
	desk, err := a.desk(ctx)
	if err != nil {
		return err
	}
	entry, err := findEntry(ctx, a.dev, which)
	if err != nil {
		return err
	}
	id, err := a.dev.Void(ctx, entry, why)
	if err != nil {
		return err
	}
	if a.json {
		return printJSON(a.out, map[string]any{"id": id, "voids": entry.ID})
	}
	p := a.page()
	p.Say("Void: " + page.Clean(desk.Book.Say(entry.Event)) + ".")
	return p.Err()
}
