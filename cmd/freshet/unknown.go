package main

import (
	"strings"

	"github.com/spf13/cobra"

	"freshet.example/cmd/freshet/words"
)

// otherwise are words for what goes by another name here.
var otherwise = map[string]string{"undo": "void", "delete": "remove", "add": "set", "new": "set", "list": "show", "forecast": "outlook", "harvest": "bearing", "feeding": "ration"}

// noSuchCommand refuses a word that is no command, and says what might be meant.
func noSuchCommand(c *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	var ways []string
	if _, _, err := words.FindEntry(args); err == nil {
		ways = append(ways, "to note it: freshet note "+strings.Join(args, " "))
	}
	if other, ok := otherwise[strings.ToLower(args[0])]; ok {
		ways = append(ways, "perhaps freshet "+other)
	}
	for _, near := range c.SuggestionsFor(args[0]) {
		ways = append(ways, "perhaps freshet "+near)
	}
	return wrong("\""+args[0]+"\" is no command", strings.Join(append(ways, "freshet help lists them all"), "; "))
}
