package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"freshet.example/cmd/check/alarms"
)

func alarmsCommand() *cobra.Command {
	var o alarms.Options
	c := &cobra.Command{
		Use:   "alarms",
		Short: "How often do signs come wrongly, and how soon are faults found?",
		Long:  "Look for signs in invented site-months without a fault and with one planted, and write the counts as a table.\nSome four minutes of two cores for 120 months.",
		Args:  cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			o.Command = fmt.Sprintf("go run ./cmd/check alarms --months %d", o.Months)
			return alarms.Run(o)
		},
	}
	c.Flags().IntVar(&o.Months, "months", 120, "how many site-months of each kind")
	c.Flags().StringVar(&o.To, "to", "testdata/bench", "folder for what is found")
	return c
}
