// Command check holds the tree to its own rules: who may import whom, that
// every package says what it is for, how migrations are named, that what
// husbandry computes can be asked for; and finds numbers of the science that no
// test would miss. Each rule reads the files
// itself, so that no build cache can answer for it. It also serves the
// histories of testdata/sync to clients in other languages.
package main

import (
	"errors"
	"fmt"
	"os"

	"github.com/spf13/cobra"
)

// errFaults ends a command that has said what is wrong.
var errFaults = errors.New("faults")

func main() {
	root := &cobra.Command{
		Use:           "check",
		Short:         "Hold the tree to its rules",
		Long:          "check holds the tree to its rules. Exit status: 0 all is well; 1 something is to be mended; 2 it could not be said.",
		SilenceErrors: true,
		SilenceUsage:  true,
	}
	root.CompletionOptions.HiddenDefaultCmd = true
	root.SetOut(os.Stdout)
	root.AddCommand(rulesCommand(), mutateCommand(), historiesCommand(), simulateCommand(), coverageCommand(), alarmsCommand())
	switch err := root.Execute(); {
	case errors.Is(err, errFaults):
		os.Exit(1)
	case err != nil:
		fmt.Fprintln(os.Stderr, "check:", err)
		os.Exit(2)
	}
}

func rulesCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "rules",
		Short: "Imports, captions, migrations, functions that nobody can ask",
		Args:  cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			faults, err := rules(".")
			if err != nil {
				return err
			}
			for _, fault := range faults {
				c.Println(fault)
			}
			if len(faults) > 0 {
				return errFaults
			}
			return nil
		},
	}
}
