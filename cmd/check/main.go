// Command check holds the tree to its own rules: who may import whom, that
// every package says what it is for, and how migrations are named. Each rule
// reads the files itself, so that no build cache can answer for it.
package main

import (
	"fmt"
	"os"
)

const usage = `check holds the tree to its rules.

  go run ./cmd/check rules     imports, captions, migrations`

func main() {
	if len(os.Args) != 2 || os.Args[1] != "rules" {
		fmt.Fprintln(os.Stderr, usage)
		os.Exit(2)
	}
	faults, err := rules(".")
	if err != nil {
		fmt.Fprintln(os.Stderr, "check:", err)
		os.Exit(2)
	}
	for _, fault := range faults {
		fmt.Println(fault)
	}
	if len(faults) > 0 {
		os.Exit(1)
	}
}
