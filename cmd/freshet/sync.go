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

func syncCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "sync",
		Short: "Send what waits to the co-op and fetch what is new",
		Long: "Send what waits to the co-op and fetch what is new. It may be stopped and repeated at any time:\n" +
			"nothing is stored twice, and what is not yet sent stays on this device.",
		Example: example("freshet sync"),
		Args:    noArguments,
		RunE: func(c *cobra.Command, _ []string) error {
			dev, err := a.device()
			if err != nil {
				return err
			}
			progress, err := dev.Sync(c.Context())
			if err != nil {
				if progress.Waiting > 0 && !a.json {
					say(a.err, "%s on this device; nothing is lost.", many(progress.Waiting, "entry waits", "entries wait"))
				}
				return err
			}
			if a.json {
				return printJSON(a.out, map[string]any{"sent": progress.Sent, "stored": progress.Stored,
					"not_stored": progress.Left, "pages": progress.Pages, "came": progress.Came, "gone": progress.Gone, "waiting": progress.Waiting})
			}
			return tellSync(c.Context(), a, dev, progress)
		},
	}
}

func tellSync(ctx context.Context, a *app, dev *device.Device, s device.Progress) error {
	p := a.page()
	sent := "Nothing had to be sent"
	if s.Sent > 0 {
		sent = "Sent " + many(s.Sent, "entry", "entries")
	}
	fetched := "nothing new has come"
	if s.Came > 0 {
		fetched = many(s.Came, "entry", "entries") + " came"
	}
	p.Say(sent + "; " + fetched + ".")
	if s.Gone > 0 {
		p.Say("What is no longer shared with you is gone from this device.")
	}
	if s.Left == 0 {
		return p.Err()
	}
	p.Gap()
	p.Say(fmt.Sprintf("%s not stored. freshet status shows all of them.", many(s.Left, "entry was", "entries were")))
	if err := sayLeft(ctx, a, dev, p, s.Left); err != nil {
		return err
	}
	return p.Err()
}

// sayLeft lists the latest entries that the co-op did not store, and why.
func sayLeft(ctx context.Context, a *app, dev *device.Device, p *page.Page, most int) error {
	left, err := dev.Left(ctx)
	if err != nil || len(left) == 0 {
		return err
	}
	desk, err := a.desk(ctx)
	if err != nil {
		return err
	}
	const shown = 20
	for _, l := range left[max(len(left)-min(most, shown), 0):] {
		p.Item("-", page.Clean(sayOutcome(desk.Book, l)))
	}
	if n := min(most, len(left)) - shown; n > 0 {
		p.Item("-", fmt.Sprintf("and %d before them", n))
	}
	return nil
}

func sayOutcome(book *words.Book, l device.Left) string {
	what := "an edit of a record"
	if e := l.Operation.GetEvent(); e != nil {
		what = book.Say(e)
	} else if e := l.Operation.GetEdit(); e != nil {
		what = strings.ReplaceAll(device.RecordKind(e), "_", " ") + " " + book.Name(e.GetRecordId())
	}
	verdict := "refused"
	if l.Held {
		verdict = "held for a steward to settle"
	}
	s := fmt.Sprintf("Entry %d, %s: %s, %s", l.Number, what, verdict, strings.ReplaceAll(strings.ToLower(l.Reason), "_", " "))
	if l.Field != "" {
		s += " (" + l.Field + ")"
	}
	if l.Hint != "" {
		s += ". " + l.Hint
	}
	return s
}

func statusCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:     "status",
		Short:   "Say what waits on this device and when the co-op was last heard",
		Example: example("freshet status", "freshet status --json"),
		Args:    noArguments,
		RunE: func(c *cobra.Command, _ []string) error {
			dev, err := a.device()
			if err != nil {
				return err
			}
			s, err := dev.Status(c.Context())
			if err != nil {
				return err
			}
			if a.json {
				return statusJSON(c.Context(), a, dev, s)
			}
			desk, err := a.desk(c.Context())
			if err != nil {
				return err
			}
			p := a.page()
			sayStatus(p, s.In(desk.Now.Location()))
			if s.Refused+s.Held > 0 {
				p.Gap()
				p.Say(fmt.Sprintf("Not stored: %d refused, %d held for a steward.", s.Refused, s.Held))
				if err := sayLeft(c.Context(), a, dev, p, s.Refused+s.Held); err != nil {
					return err
				}
			}
			return p.Err()
		},
	}
}

func sayStatus(p *page.Page, s device.Status) {
	p.Say(sentence(s.String()))
	if s.LastTrouble != "" {
		p.Say("The last try failed: " + page.Clean(s.LastTrouble) + ".")
		if s.Waiting > 0 {
			p.Say("What waits is kept here; freshet sync tries again.")
		}
	}
	if ahead := s.ServerAhead.Abs(); ahead > clockTolerance {
		p.Say("This device's clock is off by " + device.Age(ahead) + "; set it, so that times you note are right.")
	}
}

func statusJSON(ctx context.Context, a *app, dev *device.Device, s device.Status) error {
	left, err := dev.Left(ctx)
	if err != nil {
		return err
	}
	notStored := make([]map[string]any, len(left))
	for i, l := range left {
		notStored[i] = map[string]any{"number": l.Number, "held": l.Held, "reason": l.Reason, "field": l.Field, "hint": l.Hint}
	}
	out := map[string]any{
		"joined": s.Joined, "server": s.Address, "waiting": s.Waiting, "words": s.String(),
		"last_trouble": s.LastTrouble, "not_stored": notStored,
	}
	if !s.Oldest.IsZero() {
		out["oldest"] = s.Oldest.UTC()
	}
	if !s.LastContact.IsZero() {
		out["last_contact"] = s.LastContact.UTC()
	}
	return printJSON(a.out, out)
}
