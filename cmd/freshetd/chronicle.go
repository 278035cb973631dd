package main

import (
	"errors"

	"github.com/spf13/cobra"
)

func chronicleCommand() *cobra.Command {
	var d database
	var noted string
	c := &cobra.Command{
		Use:   "chronicle",
		Short: "Check that nobody rewrote who did what",
		Long: "Check the chronicle: who did what to sharing, roles, devices and invitations, and what was\n" +
			"held for review. Each row is sealed together with all before it; a row that was changed, taken\n" +
			"out or put in is found. Whoever holds the database could seal everything anew: so note the seal\n" +
			"that is printed, on paper or with another member, and give it at the next check.\n" +
			"Members read what concerns them with freshet chronicle.",
		Example: "  freshetd chronicle\n" +
			"  freshetd chronicle --seal OE4H-XAPN-QWXQ-G74R",
		Args: cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) (err error) {
			defer func() { err = errors.Join(err, d.close()) }()
			st, err := d.visit(c.Context())
			if err != nil {
				return err
			}
			defer st.Close()
			found, err := st.CheckChronicle(c.Context(), noted)
			if err != nil {
				return err
			}
			if found.Rows == 0 {
				say(c.OutOrStdout(), "The chronicle is empty.\n")
				return nil
			}
			if noted != "" {
				say(c.OutOrStdout(), "The seal that you noted is that of row %d: nothing up to there was changed since.\n", found.Noted)
			}
			say(c.OutOrStdout(), "%d rows, each as it was written; the newest of %s.\nIts seal, to be noted: %s\n", found.Rows, until(found.Last), found.Seal)
			return nil
		},
	}
	d.flags(c)
	c.Flags().StringVar(&noted, "seal", "", "a seal that was noted at an earlier check")
	return c
}
