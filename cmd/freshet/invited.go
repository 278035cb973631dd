package main

import (
	"os"

	"github.com/spf13/cobra"
	"golang.org/x/term"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/cmd/freshet/page"
	"freshet.example/cmd/square"
)

// A letter is how a code is handed on: typed, scanned, or as a picture.
type letter struct{ picture string }

func (l *letter) flags(c *cobra.Command) {
	c.Flags().StringVar(&l.picture, "picture", "", "write the code's square to this file as well (PNG), to print or to send")
}

// draw shows a link as a square, and writes its picture where one is wanted.
func (a *asking) draw(p *page.Page, l letter, link string) error {
	if link == "" { // a server of before
		return nil
	}
	lines, err := square.Lines(link, a.onScreen())
	if err != nil {
		return err
	}
	p.Gap()
	for _, line := range lines {
		p.Drawn(line)
	}
	if l.picture == "" {
		return nil
	}
	file, err := os.OpenFile(l.picture, os.O_CREATE|os.O_WRONLY|os.O_TRUNC, 0o600) // #nosec G304 -- the person names the file
	if err != nil {
		return err
	}
	defer file.Close() //nolint:errcheck // Sync tells
	if err := square.Picture(file, link, 8); err != nil {
		return err
	}
	return file.Sync()
}

func (a *app) onScreen() bool {
	return term.IsTerminal(int(a.out.Fd())) //nolint:gosec // descriptors are small
}

func recoveryCommand(a *app) *cobra.Command {
	l := letter{}
	return question{
		use: "recovery", short: "Make a code to keep on paper, for the day when no device is left",
		args: noArguments, examples: []string{"freshet recovery", "freshet recovery --picture recovery.png", "freshet recovery > recovery.txt"},
		flags: l.flags,
		work: func(q *asking, _ []string) (proto.Message, func(*page.Page), error) {
			m, err := account(q, freshetv1.AccountServiceClient.CreateRecoveryCode, &freshetv1.CreateRecoveryCodeRequest{})
			return m, func(p *page.Page) {
				p.Under(m.GetCode())
				p.Say("Your recovery code. Write it down, or print this, and keep it where you keep papers: whoever has it can come in as you. " +
					"It is not shown again, works once, and does not end by time; a new one ends it.")
				q.join(p, m.GetCode(), m.GetLink(), "On a new device, when all others are lost, type:")
				q.failed(p, q.draw(p, l, m.GetLink()))
			}, err
		},
	}.command(a)
}

// join says how a code is used in a terminal.
func (a *asking) join(p *page.Page, code, link, lead string) {
	p.Say(lead)
	if s, err := a.dev.Status(a.ctx); err == nil && !s.Pinned {
		p.Drawn("  freshet join " + code + " --server " + s.Address)
	} else {
		p.Drawn("  freshet join '" + link + "'") // in one piece, to be copied
	}
	if link != "" {
		p.Say("On a phone, scan the square with its camera, or with the app.")
	}
}

func (a *asking) failed(p *page.Page, err error) {
	if err != nil {
		p.Item("~", "The square could not be made: "+err.Error())
	}
}
