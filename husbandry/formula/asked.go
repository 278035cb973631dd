package formula

import "strings"

// Matches reports whether the formula answers to a quantity as people and
// check files name it, and which inputs the name itself holds. A case in
// brackets at the end ("trial.welch.t [two feeds]") is a remark. A name in Also
// may hold inputs in braces: "quantile.type8 p={p}" answers "quantile.type8
// p=0.25" with p given as 0.25.
func (f *Formula) Matches(quantity string) (typed map[string]string, ok bool) {
	if at := strings.LastIndex(quantity, " ["); at > 0 && strings.HasSuffix(quantity, "]") {
		quantity = quantity[:at]
	}
	if quantity == f.Name {
		return map[string]string{}, true
	}
	for _, name := range f.Also {
		if typed, ok = matched(name, quantity); ok {
			return typed, true
		}
	}
	return nil, false
}

func matched(pattern, quantity string) (map[string]string, bool) {
	typed := map[string]string{}
	if pattern == quantity {
		return typed, true
	}
	parts, words := strings.Fields(pattern), strings.Fields(quantity)
	if len(parts) != len(words) || !strings.Contains(pattern, "{") {
		return nil, false
	}
	for i, part := range parts {
		if !matchedWord(part, words[i], typed) {
			return nil, false
		}
	}
	return typed, true
}

// matchedWord compares one word, which may hold one input in braces.
func matchedWord(part, word string, typed map[string]string) bool {
	before, rest, held := strings.Cut(part, "{")
	name, after, _ := strings.Cut(rest, "}")
	if !held {
		return part == word
	}
	if !strings.HasPrefix(word, before) || !strings.HasSuffix(word, after) || len(word) <= len(before)+len(after) {
		return false
	}
	typed[name] = word[len(before) : len(word)-len(after)]
	return true
}
