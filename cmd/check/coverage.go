package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"freshet.example/cmd/check/coverage"
)

func coverageCommand() *cobra.Command {
	var o coverage.Options
	c := &cobra.Command{
		Use:   "coverage",
		Short: "Do the forecasts keep their word?",
		Long: "Try the forecasts on invented site-seasons and on published growth, and write how often their intervals\n" +
			"held: a table and two pictures. Some four minutes of two cores for 500 seasons.",
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			o.Command = fmt.Sprintf("go run ./cmd/check coverage --seasons %d", o.Seasons)
			return coverage.Run(o)
		},
	}
	c.Flags().IntVar(&o.Seasons, "seasons", 500, "how many site-seasons")
	c.Flags().StringVar(&o.Published, "published", "testdata/published/data", "folder of the published growth data")
	c.Flags().StringVar(&o.To, "to", "testdata/bench", "folder for what is found")
	return c
}
