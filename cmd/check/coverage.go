package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"freshet.example/cmd/check/coverage"
)

func coverageCommand() *cobra.Command {
	var o coverage.Options
	learn := false
	c := &cobra.Command{
		Use:   "coverage",
		Short: "Do the forecasts keep their word?",
		Long: "Try the forecasts on invented site-seasons and on published growth, and write how often their intervals\n" +
			"held: a table and two pictures. With --learn, find on other seasons by how much intervals must be drawn to\n" +
			"hold as often as they say, and write the table that the forecasts read. Each takes some minutes of two cores.",
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			if learn {
				return coverage.Learn(o)
			}
			o.Command = fmt.Sprintf("go run ./cmd/check coverage --seasons %d --forecasts %d", o.Seasons, o.Forecasts)
			return coverage.Run(o)
		},
	}
	c.Flags().IntVar(&o.Seasons, "seasons", 1500, "how many site-seasons")
	c.Flags().IntVar(&o.Forecasts, "forecasts", 1, "from how many days of each, 1 to 7")
	c.Flags().StringVar(&o.Published, "published", "testdata/published/data", "folder of the published growth data")
	c.Flags().StringVar(&o.To, "to", "testdata/bench", "folder for what is found")
	c.Flags().BoolVar(&learn, "learn", false, "learn from the seasons after those that are tried")
	c.Flags().StringVar(&o.Table, "table", "husbandry/outlook/strays.csv", "file for what is learnt")
	return c
}
