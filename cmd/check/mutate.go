package main

import (
	"encoding/json"
	"os"
	"os/signal"
	"regexp"
	"runtime"
	"strings"
	"syscall"

	"github.com/spf13/cobra"

	"freshet.example/cmd/check/mutate"
)

func mutateCommand() *cobra.Command {
	options := mutate.Options{Exempt: "cmd/check/exempt.txt", Keep: ships}
	var (
		list, asJSON bool
		only, tests  string
	)
	c := &cobra.Command{
		Use:   "mutate [PACKAGE...]",
		Short: "Numbers of the science that no test would miss",
		Long: "Change one number of husbandry at a time: twice the number, the sign of an exponent, one for nothing.\n" +
			"Run the tests that reach it. List the numbers whose change no test noticed. Numbers that no test can\n" +
			"notice are listed in cmd/check/exempt.txt, each with its reason; one that is gone, or that a test does\n" +
			"notice, is an error. PACKAGE is a pattern of the go command; all of husbandry when there is none.",
		Example: "  go run ./cmd/check mutate\n  go run ./cmd/check mutate ./husbandry/water --list\n  go run ./cmd/check mutate --budget 15m\n  go run ./cmd/check mutate ./husbandry/trial --only 'ranks.go|Fieller'",
		RunE: func(c *cobra.Command, patterns []string) (err error) {
			if len(patterns) == 0 {
				patterns = []string{"./husbandry/..."}
			}
			if options.Root, err = os.Getwd(); err != nil {
				return err
			}
			if options.Only, err = pattern(only); err != nil {
				return err
			}
			if options.Tests, err = pattern(tests); err != nil {
				return err
			}
			ctx, stop := signal.NotifyContext(c.Context(), os.Interrupt, syscall.SIGTERM)
			defer stop()
			c.SetContext(ctx)
			if list {
				return listLiterals(c, options, patterns)
			}
			return runMutate(c, options, patterns, asJSON)
		},
	}
	c.Flags().DurationVar(&options.Budget, "budget", 0, "stop after this long; what was not tried is counted (0: no limit)")
	c.Flags().IntVar(&options.Workers, "workers", runtime.NumCPU(), "how many test programs run at once")
	c.Flags().StringVar(&only, "only", "", "try only numbers whose line in the list matches this regular expression")
	c.Flags().StringVar(&tests, "tests", "", "run only tests whose name matches this regular expression: the quick ones first, say")
	c.Flags().BoolVar(&list, "list", false, "list the numbers and what each would be changed to")
	c.Flags().BoolVar(&asJSON, "json", false, "write JSON for programs, a line for each package")
	return c
}

// pattern is nil for no text.
func pattern(text string) (*regexp.Regexp, error) {
	if text == "" {
		return nil, nil //nolint:nilnil // that is what is meant
	}
	return regexp.Compile(text)
}

func listLiterals(c *cobra.Command, options mutate.Options, patterns []string) error {
	all, err := mutate.List(c.Context(), options, patterns)
	for _, l := range all {
		c.Println(l)
	}
	return err
}

func runMutate(c *cobra.Command, options mutate.Options, patterns []string, asJSON bool) error {
	say := inLines
	if asJSON {
		say = inJSON
	} else {
		c.Println(mutate.Heading())
	}
	all := mutate.Result{Package: "all"}
	err := mutate.Run(c.Context(), options, patterns, func(r *mutate.Result) error {
		all.Add(r)
		return say(c, r)
	})
	if err != nil {
		return err
	}
	if !asJSON {
		c.Println(all.Row())
	}
	if !all.Clean() {
		return errFaults
	}
	return nil
}

func inLines(c *cobra.Command, r *mutate.Result) error {
	c.Println(r.Row())
	for _, line := range r.Details() {
		c.Println(line)
	}
	return nil
}

func inJSON(c *cobra.Command, r *mutate.Result) error {
	return json.NewEncoder(c.OutOrStdout()).Encode(r)
}

// ships says that a package is more than help for tests.
func ships(path string) bool { return !strings.HasSuffix(path, "test") }
