package main

import (
	"bufio"
	"context"
	"strings"

	"github.com/spf13/cobra"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/cmd/freshet/page"
	"freshet.example/cmd/freshet/words"
)

func leaveCommand(a *app) *cobra.Command {
	name := ""
	c := &cobra.Command{
		Use:   "leave",
		Short: "Leave the co-op, and have everything of yours erased there",
		Long: "Leave the co-op, and have everything of yours erased there. It first says what becomes of each of\n" +
			"your sites, and asks for your name as a sign that you mean it. It cannot be undone: take your\n" +
			"records along before, with freshet carry.",
		Example: example("freshet leave", `freshet leave --name "Ana Ferro"`),
		Args:    noArguments,
		RunE:    func(c *cobra.Command, _ []string) error { return leave(c.Context(), a, name) },
	}
	c.Flags().StringVar(&name, "name", "", "your name as the co-op knows it: leaves without asking")
	return c
}

func leave(ctx context.Context, a *app, name string) error {
	dev, err := a.device()
	if err != nil {
		return err
	}
	desk, err := a.desk(ctx)
	if err != nil {
		return err
	}
	would, err := dev.WouldLeave(ctx)
	if err != nil {
		return err
	}
	if a.json && name == "" {
		return printMessage(a.out, would)
	}
	if name == "" {
		if err := tellLeaving(a, desk, would); err != nil {
			return err
		}
		if name, err = a.askName(); err != nil {
			return err
		}
	}
	gone, err := dev.Leave(ctx, strings.TrimSpace(name))
	if err != nil {
		return err
	}
	if a.json {
		return printMessage(a.out, gone)
	}
	p := a.page()
	p.Say("You have left. What was yours is erased at the co-op, and this device is empty.")
	p.Say("Devices of others let go of it at their next contact, your own other devices too. One that never makes contact keeps what it has, and so does a backup until it is thrown away: ask whoever keeps the server how long that is.")
	return p.Err()
}

// tellLeaving says the rule, in the words of what it does to this member.
func tellLeaving(a *app, desk words.Desk, would *freshetv1.LeaveResponse) error {
	p := a.page()
	p.Title("What leaving does")
	for _, site := range would.GetErasedSiteIds() {
		p.Item("-", page.Clean(desk.Book.Name(site))+", which nobody else keeps, is erased with everything that anybody entered there.")
	}
	for _, site := range would.GetStayingSiteIds() {
		p.Item("-", page.Clean(desk.Book.Name(site))+" stays with the others there. What you measured, fed and harvested there stays as numbers without your name.")
	}
	p.Item("-", "Your words, notes, pictures, labour and money are erased everywhere; so are your name, settings and devices.")
	p.Item("-", "Comparisons count your sites no more, from now on.")
	p.Item("-", "The chronicle keeps that a member left, and no name.")
	p.Item("-", "Entries that wait on your devices are lost.")
	p.Say("It cannot be undone. To take your records along first: freshet carry FOLDER")
	return p.Err()
}

// askName asks a person for their name.
func (a *app) askName() (string, error) {
	if !a.asks() {
		return "", wrong("nothing was erased", `to leave, add your name as the co-op knows it: freshet leave --name "YOUR NAME"`)
	}
	tell(a.err, "To leave, type your name as the co-op knows it; anything else stays: ")
	line, err := bufio.NewReader(a.in).ReadString('\n')
	if err != nil || strings.TrimSpace(line) == "" {
		return "", wrong("nothing was erased", "")
	}
	return line, nil
}
