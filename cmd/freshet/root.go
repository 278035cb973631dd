package main

import (
	"strings"

	"github.com/spf13/cobra"
)

// Groups of commands, in the order of a grower's day.
const (
	groupNotes    = "notes"
	groupQuestion = "question"
	groupTogether = "together"
	groupPapers   = "papers"
)

func rootCommand(a *app) *cobra.Command {
	root := &cobra.Command{
		Use:   "freshet",
		Short: "A notebook for fish and plants in one loop of water",
		Long: "Freshet keeps a grower's notebook: what was measured, fed, sown and harvested in a loop of water\n" +
			"shared by fish and plants, and what follows from it. It works without a network; what is noted\n" +
			"waits on this device until the co-op can be reached. Without a command it writes the morning page.\n\n" +
			"Exit status: 0 done; 1 not done, something given was wrong or refused; 2 not done now, no word\n" +
			"from the co-op (what was noted is kept).",
		Example: example(`freshet`,
			`freshet note reading ammonia "<0.25 ppm" as=NH3 at="Fish tank"`,
			`freshet water --why`),
		Args:              noSuchCommand,
		SilenceErrors:     true,
		SilenceUsage:      true,
		DisableAutoGenTag: true,
		// Two letters wrong are a slip of the hand.
		SuggestionsMinimumDistance: 2,
		RunE:                       func(c *cobra.Command, _ []string) error { return morning(c.Context(), a) },
	}
	root.SetOut(a.out)
	root.SetErr(a.err)
	flags := root.PersistentFlags()
	flags.StringVar(&a.home, "home", "", "folder of this device (default $FRESHET_HOME, else freshet in the settings folder)")
	flags.StringVar(&a.site, "site", "", "the site that is meant, where there are several")
	flags.BoolVar(&a.json, "json", false, "write JSON for programs")
	root.AddGroup(
		&cobra.Group{ID: groupNotes, Title: "Notes and records:"},
		&cobra.Group{ID: groupQuestion, Title: "Questions:"},
		&cobra.Group{ID: groupTogether, Title: "Together:"},
		&cobra.Group{ID: groupPapers, Title: "Papers:"},
	)
	addCommands(root, a)
	fitHelp(root, a)
	root.SetFlagErrorFunc(func(c *cobra.Command, err error) error {
		return wrong(err.Error(), "see freshet "+c.Name()+" --help")
	})
	return root
}

func addCommands(root *cobra.Command, a *app) {
	for group, commands := range map[string][]*cobra.Command{
		groupNotes: {noteCommand(a), photoCommand(a), setCommand(a), showCommand(a), removeCommand(a), voidCommand(a), importCommand(a),
			gatewayCommand(a)},
		groupTogether: {joinCommand(a), syncCommand(a), statusCommand(a), whoCommand(a), compareCommand(a), trialCommand(a),
			inviteCommand(a), recoveryCommand(a), shareCommand(a), devicesCommand(a), membersCommand(a), chronicleCommand(a), leaveCommand(a)},
		groupPapers: {exportCommand(a), carryCommand(a)},
		groupQuestion: {
			waterCommand(a), outlookCommand(a), signsCommand(a), whyCommand(a), troubleCommand(a), rationCommand(a), readyCommand(a), limitsCommand(a), budgetCommand(a),
			bearingCommand(a), sowCommand(a), planCommand(a), larderCommand(a), remedyCommand(a), plotCommand(a), workCommand(a), proveCommand(a),
		},
	} {
		for _, c := range commands {
			c.GroupID = group
			root.AddCommand(c)
		}
	}
	root.SetHelpCommandGroupID(groupPapers)
	root.SetCompletionCommandGroupID(groupPapers)
}

// example lines up a command's examples.
func example(lines ...string) string { return "  " + strings.Join(lines, "\n  ") }
