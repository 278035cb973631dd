package main

import (
	"strconv"

	"github.com/spf13/cobra"
)

func noArguments(c *cobra.Command, args []string) error {
	if len(args) > 0 {
		return wrong("\""+args[0]+"\" is more than freshet "+c.Name()+" takes", "see freshet "+c.Name()+" --help")
	}
	return nil
}

// oneArgument wants exactly one argument and says what it is.
func oneArgument(what string) cobra.PositionalArgs { return arguments(1, 1, what) }

// arguments wants from least to most arguments; most 0 is any number.
func arguments(least, most int, what string) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		switch {
		case len(args) < least:
			return wrong("freshet "+c.Name()+" needs "+what, "see freshet "+c.Name()+" --help")
		case most > 0 && len(args) > most:
			return wrong("\""+args[most]+"\" is more than freshet "+c.Name()+" takes", "put names of several words in quotes")
		}
		return nil
	}
}

// many is a number with its noun: "1 entry", "3 entries".
func many(n int, one, several string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + several
}
