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

// matchedWord compares one word, which may hold inputs in braces, each ended by
// the letters that follow it.
func matchedWord(part, word string, typed map[string]string) bool {
	for {
		before, rest, held := strings.Cut(part, "{")
		if !held {
			return part == word
		}
		name, after, _ := strings.Cut(rest, "}")
		until, _, _ := strings.Cut(after, "{")
		tail, ok := strings.CutPrefix(word, before)
		end := strings.Index(tail, until)
		if until == "" || until == after { // the last input runs to the end of the word
			end = len(tail) - len(until)
		}
		if !ok || end < 1 {
			return false
		}
		typed[name] = tail[:end]
		part, word = after, tail[end:]
	}
}
