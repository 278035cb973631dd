// Package choice is compiled into a package under examination, in which each
// number has become a switch: which one is changed is chosen when the test
// program starts, so that one compilation serves them all.
//
// The program that examines says what it wants by two variables of the
// environment and hears of it, line by line, on file descriptor 3.
package choice

import (
	"bufio"
	"fmt"
	"os"
	"strconv"
)

// The environment of a test program.
const (
	Literal = "CHOICE_LITERAL" // the number of the literal to change; nothing is changed without it
	Tests   = "CHOICE_TESTS"   // the tests to run, in this order, each with its seconds: "TestA:0.5 TestB:2"
)

// Lines written on Descriptor begin with one of these words.
const (
	Begun   = "begun"   // and a test's name
	Reached = "reached" // and a literal's number: it was used in this run
)

// Descriptor is the file descriptor on which a test program reports.
const Descriptor = 3

// most is how many literals one package may have.
const most = 1 << 16

var (
	chosen  = number(os.Getenv(Literal))
	reached [most]bool
)

func number(text string) int {
	n, err := strconv.Atoi(text)
	if err != nil {
		return 0
	}
	return n
}

// Of is a value as written or, where the literal of this number is chosen, as
// changed. Numbers run from 1 to 65,535.
func Of[T any](literal int, written, changed T) T {
	reached[literal] = true
	if literal == chosen {
		return changed
	}
	return written
}

// report says which literals were used.
func report(out *os.File) error {
	lines := bufio.NewWriter(out)
	for n, used := range reached {
		if used {
			_, _ = fmt.Fprintln(lines, Reached, n) // Flush tells
		}
	}
	return lines.Flush()
}
