package main

import (
	"github.com/spf13/cobra"
)

func rootCommand() *cobra.Command {
	root := &cobra.Command{
		Use:   "freshetd",
		Short: "The server of a cooperative of growers",
		Long: "freshetd keeps the records of a cooperative of growers and answers their devices.\n" +
			"It uses the Postgres named by --database, or starts a private one in --data.",
		Example: "  freshetd demo                      an invented cooperative, to look around\n" +
			"  freshetd serve                     a cooperative of your own, on this machine\n" +
			"  freshetd invite --role grower      a code for one more member",
		Args:          cobra.NoArgs,
		SilenceUsage:  true,
		SilenceErrors: true,
		RunE:          func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	root.CompletionOptions.HiddenDefaultCmd = true
	root.AddCommand(serveCommand(), migrateCommand(), inviteCommand(), chronicleCommand(), keyCommand(), backupCommand(), restoreCommand(), rehearseCommand(), demoCommand())
	return root
}
