package main

import (
	"context"
	"strings"

	"github.com/spf13/cobra"

	"freshet.example/clients/device"
	"freshet.example/cmd/freshet/page"
	"freshet.example/cmd/freshet/words"
)

func setCommand(a *app) *cobra.Command {
	forAll := false
	c := &cobra.Command{
		Use:   "set NOUN NAME field=value...",
		Short: "Make a record, or set fields of one",
		Long: "Make a record, or set fields of one: " + strings.Join(device.RecordKinds(), ", ") + ".\n\n" +
			"A record of that name is changed; where there is none it is made, and the answer says so. An empty\n" +
			"value takes a field back. Fields are merged one by one with what others set.",
		Example: example(
			`freshet set site "Mill barn" time_zone=Europe/Rome elevation=240m latitude=44.5`,
			`freshet set system "Long loop" growing=raft started_on=2026-03-01`,
			`freshet set vessel "Fish tank" of="Long loop" kind=fish_tank volume=1000L to=Settler`,
			`freshet set bed "Raft 1" of="Long loop" kind=raft area=6m2`,
			`freshet set cohort "Big perch" species="yellow perch" of="Long loop" target_weight=250g`,
			`freshet set planting lettuce in="Raft 1" plants_count=40`,
			`freshet set feed "Grower 40" protein=40%`,
			`freshet set crop lettuce use=0.8kg`),
		Args:              arguments(2, 0, "a noun and a name"),
		ValidArgsFunction: completeFrom(device.RecordKinds()),
		RunE: func(c *cobra.Command, args []string) error {
			return set(c.Context(), a, args, forAll)
		},
	}
	c.Flags().BoolVar(&forAll, "for-all", false, "feed, species, crop, remedy: for the whole co-op, not for the site alone")
	return c
}

func set(ctx context.Context, a *app, args []string, forAll bool) error {
	desk, err := a.desk(ctx)
	if err != nil {
		return err
	}
	typed := words.Split(args[1:])
	edit, made, err := desk.Edit(words.Snake(args[0]), typed, forAll, own(ctx, a))
	if err != nil {
		return err
	}
	id, err := a.dev.Set(ctx, edit)
	if err != nil {
		return err
	}
	if a.json {
		return printJSON(a.out, map[string]any{"id": id, "kind": device.RecordKind(edit), "made": made})
	}
	if desk, err = a.desk(ctx); err != nil {
		return err
	}
	record, ok := desk.Book.ByID(id)
	p := a.page()
	verb := "Set"
	if made {
		verb = "Made"
	}
	if ok {
		p.Say(verb + " " + page.Clean(strings.ReplaceAll(record.Kind, "_", " ")+" "+desk.Book.Label(record)+": "+desk.Book.Fields(record)) + ".")
	}
	return p.Err()
}

// own are the ids of the records that are the member's own and the co-op's.
func own(ctx context.Context, a *app) words.Own {
	member, cooperative, err := a.dev.Belongs(ctx)
	if err != nil {
		return words.Own{}
	}
	return words.Own{MemberID: member, CooperativeID: cooperative}
}

func removeCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:     "remove NOUN NAME",
		Short:   "Take a record away",
		Long:    "Take a record away. Its entries stay, and so does the mark that it was there.",
		Example: example(`freshet remove bed "Raft 3"`),
		Args:    arguments(2, 2, "a noun and a name"),
		RunE: func(c *cobra.Command, args []string) error {
			desk, err := a.desk(c.Context())
			if err != nil {
				return err
			}
			kind, err := words.FindKind(args[0])
			if err != nil {
				return err
			}
			record, err := desk.Book.Find(desk.SiteID, args[1], kind)
			if err != nil {
				return err
			}
			if err := a.dev.Remove(c.Context(), record); err != nil {
				return err
			}
			if a.json {
				return printJSON(a.out, map[string]any{"id": record.ID, "kind": record.Kind})
			}
			p := a.page()
			p.Say("Took away " + record.Kind + " " + page.Clean(desk.Book.Label(record)) + ".")
			return p.Err()
		},
	}
}
