package main

import (
	"strings"

	"github.com/spf13/cobra"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/cmd/freshet/page"
	"freshet.example/cmd/freshet/words"
)

func whoCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:     "who",
		Short:   "Say who this device belongs to and what they may do",
		Example: example("freshet who"),
		Args:    noArguments,
		RunE: func(c *cobra.Command, _ []string) error {
			dev, err := a.device()
			if err != nil {
				return err
			}
			me, err := whoAmI(c, dev)
			if err != nil {
				return err
			}
			if a.json {
				return printMessage(a.out, me)
			}
			desk, err := a.desk(c.Context())
			if err != nil {
				return err
			}
			p := a.page()
			p.Say(page.Clean(me.GetDisplayName()) + ", " + roleWord(me.GetRole()) + " of " + coopName(me) + ".")
			p.Say(sitesSentence(desk.Book, me.GetSiteIds()))
			return p.Err()
		},
	}
}

func sitesSentence(book *words.Book, ids []string) string {
	if len(ids) == 0 {
		return "No site yet to enter records at."
	}
	names := make([]string, len(ids))
	for i, id := range ids {
		names[i] = page.Clean(book.Name(id))
	}
	return "Enters records at " + strings.Join(names, ", ") + "."
}

func whoAmI(c *cobra.Command, dev *device.Device) (*freshetv1.WhoAmIResponse, error) {
	return device.Ask(c.Context(), dev, freshetv1.NewAccountServiceClient,
		freshetv1.AccountServiceClient.WhoAmI, &freshetv1.WhoAmIRequest{})
}

func coopName(me *freshetv1.WhoAmIResponse) string {
	if me.GetCooperativeName() == "" {
		return "a co-op that has no name yet"
	}
	return page.Clean(me.GetCooperativeName())
}

func roleWord(r freshetv1.Role) string { return words.EnumWord(r.Descriptor(), r.Number()) }
