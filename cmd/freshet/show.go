package main

import (
	"context"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"freshet.example/clients/device"
	"freshet.example/cmd/freshet/page"
	"freshet.example/cmd/freshet/words"
)

func showCommand(a *app) *cobra.Command {
	days, most := 14, 40
	c := &cobra.Command{
		Use:   "show [NOUN]",
		Short: "List records or entries; without a noun, the sites and their water",
		Long: "List records (" + strings.Join(device.RecordKinds(), ", ") + ")\n" +
			"or entries (reading, feeding and all others that can be noted). Without a noun, walk each loop the\n" +
			"way its water runs. What is shown is on this device; freshet sync fetches what is new.",
		Example:           example("freshet show", "freshet show vessels", "freshet show readings --days 3", "freshet show plantings --json"),
		Args:              arguments(0, 1, ""),
		ValidArgsFunction: completeFrom(append(device.RecordKinds(), device.EventKinds()...)),
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				return showSites(c.Context(), a)
			}
			if kind, err := words.FindKind(args[0]); err == nil {
				return showRecords(c.Context(), a, kind)
			}
			kind := "correction"
			if words.Snake(args[0]) != kind && words.Snake(args[0]) != "corrections" {
				noun, err := words.FindNoun(args[0])
				if err != nil {
					return wrong("\""+args[0]+"\" is neither a record nor an entry", "records: "+
						strings.Join(device.RecordKinds(), ", ")+"; entries: "+strings.Join(device.EventKinds(), ", "))
				}
				kind = noun.Name
			}
			return showEntries(c.Context(), a, kind, days, most)
		},
	}
	c.Flags().IntVar(&days, "days", days, "entries of so many days back")
	c.Flags().IntVar(&most, "most", most, "at most so many entries, the latest; 0 all")
	return c
}

// shownRecord is a record for programs.
type shownRecord struct {
	ID      string `json:"id"`
	Kind    string `json:"kind"`
	SiteID  string `json:"site_id,omitempty"`
	Label   string `json:"label"`
	Pending bool   `json:"pending"`
	Record  any    `json:"record"`
}

func showRecords(ctx context.Context, a *app, kind string) error {
	desk, err := a.desk(ctx)
	if err != nil {
		return err
	}
	site := desk.SiteID
	if kind == "site" {
		site = ""
	}
	records := desk.Book.Of(site, kind)
	if a.json {
		return recordsJSON(a, desk, records)
	}
	p := a.page()
	if len(records) == 0 {
		p.Say("No " + strings.ReplaceAll(kind, "_", " ") + " yet. freshet set --help shows how to make one.")
		return p.Err()
	}
	pairs := make([][2]string, len(records))
	for i, r := range records {
		pairs[i] = [2]string{page.Clean(desk.Book.Label(r)), page.Clean(desk.Book.Fields(r)) + state(desk.Book, r)}
	}
	p.Pairs(pairs)
	return p.Err()
}

func state(book *words.Book, r device.Record) string {
	s := ""
	if book.Ended(r) {
		s += " · ended"
	}
	if r.Pending {
		s += " · not yet sent"
	}
	return s
}

func recordsJSON(a *app, desk words.Desk, records []device.Record) error {
	list := make([]shownRecord, len(records))
	for i, r := range records {
		raw, err := protoJSON(r.Message.Interface())
		if err != nil {
			return err
		}
		list[i] = shownRecord{r.ID, r.Kind, r.SiteID, desk.Book.Label(r), r.Pending, raw}
	}
	return printJSON(a.out, list)
}

func showEntries(ctx context.Context, a *app, kind string, days, most int) error {
	desk, err := a.desk(ctx)
	if err != nil {
		return err
	}
	entries, err := a.dev.Entries(ctx, device.Want{Kinds: []string{kind}, SiteID: desk.SiteID, From: desk.Now.AddDate(0, 0, -days)})
	if err != nil {
		return err
	}
	before := 0
	if most > 0 && len(entries) > most {
		before = len(entries) - most
		entries = entries[before:]
	}
	if a.json {
		return entriesJSON(a, entries)
	}
	p := a.page()
	if len(entries) == 0 {
		p.Say(fmt.Sprintf("No %s in the last %d days on this device.", strings.ReplaceAll(kind, "_", " "), days))
		return p.Err()
	}
	if before > 0 {
		p.Say(many(before, "earlier one is", "earlier ones are") + " left out; --most 0 shows all.")
		p.Gap()
	}
	sayEntries(p, a.dev, desk, entries)
	return p.Err()
}

// sayEntries writes entries under their days, each with its number.
func sayEntries(p *page.Page, dev *device.Device, desk words.Desk, entries []device.Entry) {
	day := ""
	for _, e := range entries {
		at := e.Event.GetOccurredAt().AsTime().In(desk.Now.Location())
		if d := at.Format("Monday 2 January 2006"); d != day {
			p.Say(d)
			day = d
		}
		text := page.Clean(strings.TrimPrefix(desk.Book.Say(e.Event), device.EventKind(e.Event)+": "))
		if e.Corrected {
			text += " · corrected"
		}
		if e.Pending {
			text += " · not yet sent"
		}
		p.Item(at.Format("15:04"), text+"  ("+dev.Short(e.ID)+")")
	}
}

func entriesJSON(a *app, entries []device.Entry) error {
	list := make([]map[string]any, len(entries))
	for i, e := range entries {
		raw, err := protoJSON(e.Event)
		if err != nil {
			return err
		}
		list[i] = map[string]any{"id": e.ID, "event": raw, "pending": e.Pending, "corrected": e.Corrected, "member_id": e.MemberID}
	}
	return printJSON(a.out, list)
}
