package main

import (
	"cmp"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
)

// fitHelp lets what a command says of itself fit the terminal, as its answers do.
func fitHelp(root *cobra.Command, a *app) {
	wide := a.page().Width()
	root.SetUsageTemplate(strings.ReplaceAll(root.UsageTemplate(), ".FlagUsages", ".FlagUsagesWrapped "+strconv.Itoa(wide)))
	root.SetHelpFunc(func(c *cobra.Command, _ []string) {
		p := a.page()
		for paragraph := range strings.SplitSeq(cmp.Or(c.Long, c.Short), "\n\n") {
			p.Say(strings.ReplaceAll(paragraph, "\n", " "))
			p.Gap()
		}
		tell(a.out, "%s", c.UsageString())
	})
}
