package main

import (
	"context"
	"encoding/json"
	"errors"
	"strings"

	"freshet.example/clients/device"
	"freshet.example/cmd/freshet/page"
	"freshet.example/cmd/freshet/words"
	"freshet.example/husbandry/formula"
)

// Exit statuses.
const (
	exitWrong    = 1 // something given was wrong, or was refused
	exitNoSignal = 2 // the co-op's server was not reached or could not answer
)

// A complaint is why a command was not done, and what to do.
type complaint struct {
	Words  string `json:"words"`
	Hint   string `json:"hint,omitempty"`
	Reason string `json:"reason,omitempty"`
	Field  string `json:"field,omitempty"`
	Exit   int    `json:"exit"`
}

// Error gives what happened.
func (c *complaint) Error() string { return c.Words }

// wrong makes a complaint about what was given.
func wrong(words, hint string) error { return &complaint{Words: words, Hint: hint, Exit: exitWrong} }

// complain tells a person, or with --json a program, and gives the exit status.
func (a *app) complain(err error) int {
	c := complaintOf(err)
	if a.json {
		raw, _ := json.Marshal(map[string]*complaint{"error": c}) // strings and a number always encode
		say(a.err, "%s", raw)
		return c.Exit
	}
	p := page.New(a.err, widthOf(a.err))
	p.Say(sentence("Not done: " + page.Clean(c.Words)))
	if c.Hint != "" {
		p.Say(sentence("What to do: " + page.Clean(c.Hint)))
	}
	return c.Exit
}

func complaintOf(err error) *complaint {
	var c *complaint
	var p *words.Problem
	var t *device.Trouble
	var in *formula.InputError
	switch {
	case errors.As(err, &c):
		return c
	case errors.As(err, &p):
		c = &complaint{Words: p.Words, Hint: p.Hint, Reason: p.ReasonName(), Field: p.Field, Exit: exitWrong}
		if p.Field != "" && !strings.HasPrefix(strings.ToLower(p.Words), strings.ReplaceAll(p.Field, "_", " ")) {
			c.Words = p.Field + ": " + p.Words
		}
	case errors.As(err, &in):
		words, _, _ := strings.Cut(strings.TrimPrefix(in.Error(), in.Formula+": "), "; ")
		if in.Reason == "unknown word" {
			words = in.Input + " is none that is known, or could be several"
		}
		c = &complaint{Words: words, Hint: in.Hint, Field: in.Input, Exit: exitWrong}
	case errors.Is(err, device.ErrNotJoined):
		c = &complaint{Words: err.Error(), Hint: "ask a steward for a code, then: freshet join CODE --server HOST:PORT", Exit: exitWrong}
	case errors.As(err, &t):
		c = &complaint{Words: t.Words, Hint: t.Hint, Reason: t.Reason, Field: t.Field, Exit: exitWrong}
		if t.NoSignal {
			c.Exit = exitNoSignal
		}
	case errors.Is(err, context.Canceled):
		c = &complaint{Words: "stopped", Hint: "what was noted before is kept", Exit: exitNoSignal}
	default:
		words, hint := words.Part(err.Error())
		c = &complaint{Words: words, Hint: hint, Exit: exitWrong}
	}
	c.Words, c.Hint = strings.TrimRight(c.Words, ". \n"), strings.TrimRight(c.Hint, ". \n")
	return c
}
