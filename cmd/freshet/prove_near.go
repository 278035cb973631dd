package main

import (
	"cmp"
	"regexp"
	"slices"
	"strings"
	"sync"

	"freshet.example/husbandry"
)

// called are ways in which people write one thing, and the word that stands
// for it when names are compared.
//
//nolint:misspell // both spellings are typed
var called = strings.NewReplacer(
	"un ionized ammonia", "uia", "un ionised ammonia", "uia", "unionized ammonia", "uia", "unionised ammonia", "uia", "free ammonia", "uia", "nh3 n", "uia",
	"total ammonia nitrogen", "tan", "total ammonia", "tan", "dissolved oxygen", "do", "carbon dioxide", "co2",
	"thermal unit growth coefficient", "tgc", "thermal growth coefficient", "tgc", "specific growth rate", "sgr", "average daily gain", "adg",
	"feed conversion ratio", "fcr", "feed conversion", "fcr", "growing degree days", "gdd", "growing degree day", "gdd", "degree days", "gdd", "degree day", "gdd",
	"reference evapotranspiration", "et0", "reference et", "et0", "eto", "et0", "vapor", "vapour", "litres", "litre", "liters", "litre", "liter", "litre",
	"altitude", "elevation", "ssa", "specific surface", "colour", "color", "sulphate", "sulfate", "concentrations", "concentration", "top up", "makeup", "make up", "makeup",
)

// plain are words that carry nothing when names are compared.
var plain = map[string]bool{"the": true, "of": true, "a": true, "an": true, "in": true, "at": true, "is": true, "as": true, "and": true, "published": true, "unit": true}

// remark is what a name says beside the quantity: a case in brackets, the number
// of a worked example.
var remark = regexp.MustCompile(`\[[^\]]*\]|(?i)\((ex|example)\.? ?\d+\)`)

// turned is "X to Y", where our names say "Y from X".
var turned = regexp.MustCompile(`^(?:unit )?(\S+) to (\S+)$`)

// oneWord are words that say the same when names are compared.
var oneWord = map[string]string{
	"stops": "stop", "dies": "die", "lethal": "die", "grows": "growth", "grow": "growth", "growing": "growth", "ideal": "optimum", "optimal": "optimum",
	"best": "optimum", "minimum": "low", "lowest": "low", "maximum": "high", "max": "high", "highest": "high",
	"final": "end", "yields": "yield", "extremes": "extreme", "briefly": "brief", "feeding": "feed", "fed": "feed", "ration": "feed", "sulphate": "sulfate",
}

// nameWords are the words of a quantity's name that say what it is, spelt one
// way; in order of the alphabet where their own order says nothing.
func nameWords(name string) []string {
	name = strings.ToLower(remark.ReplaceAllString(name, " "))
	name = strings.Join(strings.FieldsFunc(name, func(r rune) bool { return strings.ContainsRune(" _-\t,:;./()", r) }), " ")
	if t := turned.FindStringSubmatch(name); t != nil {
		name = t[2] + " from " + t[1]
	}
	var list []string
	for _, w := range strings.Fields(called.Replace(name)) {
		if !plain[w] {
			list = append(list, cmp.Or(oneWord[w], w))
		}
	}
	if !slices.ContainsFunc(list, func(w string) bool { return directions[w] }) {
		slices.Sort(list)
	}
	return slices.Compact(list)
}

// directions are words that make it matter what stands before them and what behind.
var directions = map[string]bool{"from": true, "to": true, "per": true, "for": true, "over": true, "by": true, "than": true, "below": true, "above": true, "after": true, "before": true, "until": true}

// alike finds every formula one of whose names is made of the same words as a
// quantity that no formula goes by as it is written.
func alike(quantity string) (found []answerer) {
	asked := nameWords(quantity)
	for i, e := range husbandry.Catalogue() {
		for _, words := range ourNames()[i] {
			if len(asked) > 0 && slices.Equal(words, asked) && !slices.ContainsFunc(words, func(w string) bool { return strings.Contains(w, "{") }) {
				found = append(found, answerer{e, map[string]string{}})
				break
			}
		}
	}
	return found
}

// ourNames are the words of each formula's names, in the order of the catalogue.
var ourNames = sync.OnceValue(func() (names [][][]string) {
	for _, e := range husbandry.Catalogue() {
		var words [][]string
		for _, name := range append([]string{e.Name}, e.Also...) {
			words = append(words, nameWords(name))
		}
		names = append(names, words)
	}
	return names
})

// near names up to three formulas that share the most words with a quantity,
// at least half of all, the nearest first.
func near(quantity string) []string {
	type candidate struct {
		name   string
		shared float64
	}
	var all []candidate
	asked := nameWords(quantity)
	for i, e := range husbandry.Catalogue() {
		best := 0.0
		for _, words := range ourNames()[i] {
			best = max(best, shared(asked, words))
		}
		if best >= 0.5 {
			all = append(all, candidate{e.Name, best})
		}
	}
	slices.SortStableFunc(all, func(a, b candidate) int { return cmp.Compare(b.shared, a.shared) })
	var names []string
	for _, c := range all[:min(3, len(all))] {
		names = append(names, c.name)
	}
	return names
}

// shared is the share of two sets of words that is in both.
func shared(a, b []string) float64 {
	both := 0
	for _, w := range a {
		if slices.Contains(b, w) {
			both++
		}
	}
	if both == 0 {
		return 0
	}
	return float64(both) / float64(len(a)+len(b)-both)
}
