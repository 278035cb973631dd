package words

import (
	"errors"
	"slices"
	"strings"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/quantity"
)

// FindEntry finds what a line notes: a noun, or a test of the water that goes
// by its own name, as in "ph 7.2". Rest is what stands behind the noun.
func FindEntry(args []string) (n Noun, rest []string, err error) {
	named, err := FindNoun(args[0])
	if err == nil && (named.Name == Snake(args[0]) || plural(named.Name) == Snake(args[0])) {
		return named, args[1:], nil
	}
	name, _, _ := strings.Cut(args[0], "=")
	if _, whole := QuantityCalled(name); whole {
		return Nouns[0], args, nil
	}
	if err == nil {
		return named, args[1:], nil
	}
	if _, begun := FindQuantity(name); begun == nil {
		return Nouns[0], args, nil
	}
	return n, nil, problem("", unknownName, "\""+args[0]+"\" is nothing that can be noted",
		"one of "+strings.Join(nounNames(), ", ")+"; or a test of the water by its name: "+strings.Join(Quantities(), ", "))
}

func nounNames() []string {
	names := make([]string, len(Nouns))
	for i, n := range Nouns {
		names[i] = n.Name
	}
	return names
}

// Events reads a line into events of the noun: one, or a reading for each test
// that the line names.
func (d Desk) Events(n Noun, t Typed) ([]*freshetv1.Event, error) {
	lines := []Typed{t}
	if n.Name == "reading" {
		lines = tests(t)
	}
	var events []*freshetv1.Event
	for _, line := range lines {
		e, err := d.Event(n, line)
		if err != nil {
			return nil, err
		}
		events = append(events, e)
	}
	return events, nil
}

// tests parts a line such as "ph 7.2 ammonia 0.5 ppm as N nitrite=0.1" into one
// for each test. What else is said, such as when and where, holds for all.
func tests(t Typed) []Typed {
	each := parted(t.Words)
	var shared [][2]string
	for _, p := range t.Pairs {
		if _, ok := QuantityCalled(p[0]); ok {
			each = append(each, []string{p[0], p[1]})
		} else {
			shared = append(shared, p)
		}
	}
	if len(each) < 2 {
		return []Typed{{Words: slices.Concat(each...), Pairs: shared}}
	}
	lines := make([]Typed, len(each))
	for i, words := range each {
		lines[i] = Typed{Words: words, Pairs: slices.DeleteFunc(slices.Clone(shared), func(p [2]string) bool { return foreign(words[0], p) })}
	}
	return lines
}

// parted cuts words before each test's name that its value follows: the name of
// an ion without one tells how the test before it reads.
func parted(words []string) (each [][]string) {
	begun := 0
	for i := 2; i < len(words)-1; i++ {
		if i-begun < 2 || !startsTest(words[i], words[i+1]) {
			continue
		}
		each = append(each, words[begun:i:i])
		begun = i
	}
	if len(words) > 0 {
		each = append(each, words[begun:])
	}
	return each
}

// startsTest tells that two words are a test's name and what may be its value.
func startsTest(name, value string) bool {
	q, called := QuantityCalled(name)
	return called && (strings.ContainsAny(value[:min(1, len(value))], "<>.,-0123456789") || slices.Contains(Known(q).Words(), strings.ToLower(value)))
}

// foreign tells that a unit or basis said for a line of several tests means
// nothing to this one.
func foreign(test string, pair [2]string) bool {
	q, err := FindQuantity(test)
	if err != nil {
		return false
	}
	switch Snake(pair[0]) {
	case "as":
		basis, err := quantity.ParseBasis(pair[1])
		return err == nil && !takes(Known(q), basis)
	case "unit":
		unit, _, err := quantity.ParseUnit(pair[1])
		return err == nil && !slices.Contains(Known(q).Units(), unit)
	}
	return false
}

// takes tells that a quantity may be read on a basis.
func takes(q quantity.Quantity, basis quantity.Basis) bool {
	low, _ := q.Plausible()
	var wrong *quantity.BasisError
	_, err := quantity.Measure{Digits: int64(low), Unit: q.Unit(), Basis: basis}.Canonical(q)
	return !errors.As(err, &wrong)
}
