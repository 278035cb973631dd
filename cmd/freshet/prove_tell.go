package main

import (
	"slices"
	"strconv"
	"strings"

	"freshet.example/cmd/freshet/page"
	"freshet.example/husbandry/published"
)

// inCounts says how many rows went which way.
func inCounts(counts map[string]int) string {
	parts := []string{counted(counts[published.Agrees.String()], "agrees", "agree"), counted(counts[published.Differs.String()], "differs", "differ")}
	for _, part := range []struct {
		verdict, words string
	}{
		{published.Disputed.String(), "disputed"}, {noFormula, "no formula of ours"}, {published.NotHeld.String(), "not in our tables"},
		{published.OtherText.String(), "in other words"}, {published.NotRead.String(), "not read"},
	} {
		if n := counts[part.verdict]; n > 0 {
			parts = append(parts, strconv.Itoa(n)+" "+part.words)
		}
	}
	return listed(parts) + "."
}

func listed(parts []string) string { return strings.Join(parts, ", ") }

// tellRows writes rows by what came of them, failures first.
func tellRows(p *page.Page, f provenFile, every bool) {
	for _, part := range []struct{ verdict, title string }{
		{published.Differs.String(), "Differ"},
		{published.Disputed.String(), "Disputed: the source stopped short"},
		{published.OtherText.String(), "Say it in other words; compare them yourself"},
	} {
		if rows := of(f, part.verdict); len(rows) > 0 {
			p.Title(part.title)
			for _, r := range rows {
				tellBoth(p, r)
			}
		}
	}
	for _, part := range []struct{ verdict, title string }{
		{published.NotRead.String(), "Not read"},
		{published.NotHeld.String(), "Not in our tables"},
		{noFormula, "No formula or table of ours goes by the name"},
	} {
		tellReasons(p, part.title, of(f, part.verdict))
	}
	agree := of(f, published.Agrees.String())
	if len(agree) == 0 {
		return
	}
	p.Title("Agree")
	if every {
		for _, r := range agree {
			tellBoth(p, r)
		}
		return
	}
	p.Under(byQuantity(agree))
}

func of(f provenFile, verdict string) []proof {
	var rows []proof
	for _, r := range f.Results {
		if r.Verdict == verdict {
			rows = append(rows, r)
		}
	}
	return rows
}

// tellBoth writes a row with what is printed and what we compute, each with
// its source.
func tellBoth(p *page.Page, r proof) {
	p.Item(strconv.Itoa(r.Line), page.Clean(strings.TrimSpace(r.Quantity+"  "+shortened(r.Inputs))))
	printed := strings.TrimSpace(r.Expected + " " + r.Unit)
	if r.Within != "" {
		printed += ", within " + r.Within
	}
	pairs := [][2]string{{"printed", page.Clean(printed + bySource(r.Source))}}
	switch {
	case r.Ours == "":
		pairs = append(pairs, [2]string{"ours", page.Clean("none: " + r.Why)})
	case r.Why == "":
		pairs = append(pairs, [2]string{"ours", page.Clean(r.Ours + bySource(r.Stands))})
	default:
		pairs = append(pairs, [2]string{"ours", page.Clean(r.Ours + bySource(r.Stands))}, [2]string{"", page.Clean(r.Why)})
	}
	p.Within(4, func(p *page.Page) { p.Pairs(pairs) })
}

func bySource(source string) string {
	if source == "" {
		return ""
	}
	return " (" + source + ")"
}

// shortened keeps long lists from filling the screen.
func shortened(text string) string {
	const most = 160
	if runes := []rune(text); len(runes) > most {
		return string(runes[:most]) + "..."
	}
	return text
}

// tellReasons writes why rows have no answer, each reason once with its lines.
func tellReasons(p *page.Page, title string, rows []proof) {
	if len(rows) == 0 {
		return
	}
	p.Title(title)
	var order []string
	lines := map[string][]int{}
	for _, r := range rows {
		key := r.Quantity + ": " + r.Why
		if start, why := knownWhy(r.Quantity); why != "" {
			key = start + "...: " + why
		}
		if lines[key] == nil {
			order = append(order, key)
		}
		lines[key] = append(lines[key], r.Line)
	}
	for _, key := range order {
		p.Item(lineRanges(lines[key]), page.Clean(strings.TrimPrefix(key, ": ")))
	}
}

// lineRanges writes lines of a file: "4", "4-9, 12".
func lineRanges(lines []int) string {
	slices.Sort(lines)
	var parts []string
	for i := 0; i < len(lines); {
		j := i
		for j+1 < len(lines) && lines[j+1] == lines[j]+1 {
			j++
		}
		part := strconv.Itoa(lines[i])
		if j > i {
			part += "-" + strconv.Itoa(lines[j])
		}
		parts, i = append(parts, part), j+1
	}
	return listed(parts)
}

// byQuantity counts rows by their quantity, in the order of the file.
func byQuantity(rows []proof) string {
	var order []string
	counts := map[string]int{}
	for _, r := range rows {
		name := page.Clean(r.Quantity)
		if counts[name] == 0 {
			order = append(order, name)
		}
		counts[name]++
	}
	for i, name := range order {
		if counts[name] > 1 {
			order[i] = name + " (" + strconv.Itoa(counts[name]) + ")"
		}
	}
	return strings.Join(order, ", ")
}
