package simulation

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
)

// A Step is one thing that happens. Its meaning is in its verb; Who is the
// device that does it or that it happens to.
type Step struct {
	Verb string
	Who  int
	A, B int
}

// String is the step as Parse reads it.
func (s Step) String() string { return fmt.Sprintf("%s %d %d %d", s.Verb, s.Who, s.A, s.B) }

// A History is how many devices and sites there are, and what happens.
type History struct {
	Devices, Sites int
	Steps          []Step
}

// String is the history as text, one step a line, which Parse reads.
func (h History) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "devices %d sites %d\n", h.Devices, h.Sites)
	for _, s := range h.Steps {
		b.WriteString(s.String() + "\n")
	}
	return b.String()
}

// Parse reads what String writes.
func Parse(text string) (History, error) {
	var h History
	lines := strings.Split(strings.TrimSpace(text), "\n")
	if _, err := fmt.Sscanf(lines[0], "devices %d sites %d", &h.Devices, &h.Sites); err != nil {
		return h, fmt.Errorf("first line %q: %w", lines[0], err)
	}
	for _, line := range lines[1:] {
		var s Step
		if _, err := fmt.Sscanf(line, "%s %d %d %d", &s.Verb, &s.Who, &s.A, &s.B); err != nil {
			return h, fmt.Errorf("step %q: %w", line, err)
		}
		if verbs[s.Verb] == nil {
			return h, fmt.Errorf("step %q: there is no such verb", line)
		}
		h.Steps = append(h.Steps, s)
	}
	return h, nil
}

// chances are how often each verb comes, by weight.
var chances = []struct {
	verb   string
	weight int
}{
	{"note", 10}, {"later", 3}, {"poison", 3}, {"stock", 2}, {"die", 4}, {"count", 2}, {"edit", 6}, {"group", 3}, {"badgroup", 2},
	{"sync", 16}, {"line", 8}, {"clock", 3}, {"crash", 6}, {"crashnote", 2}, {"wait", 3}, {"role", 2}, {"keep", 2}, {"restore", 1}, {"copy", 1},
}

// Made is the history that follows from a seed: 2 to 8 devices, 1 to 3 sites.
func Made(seed uint64) History {
	r := rand.New(rand.NewPCG(seed, 0x66726573))
	h := History{Devices: 2 + min(r.IntN(4)*r.IntN(3), 6), Sites: 1 + r.IntN(3)}
	total := 0
	for _, c := range chances {
		total += c.weight
	}
	// A copied phone and a restored authority do not meet in one history: what
	// both phones had not sent would be stored by each. Nor is a phone copied twice:
	// what two copies alone have in common has no number that the authority knows.
	without := []string{"copy", "restore"}[r.IntN(2)]
	devices := h.Devices
	for range 12 + r.IntN(22) {
		verb := drawn(r, total)
		if verb == without || verb == "copy" && devices > h.Devices {
			continue
		}
		h.Steps = append(h.Steps, Step{verb, r.IntN(devices), r.IntN(64), r.IntN(64)})
		if verb == "copy" {
			devices++
		}
	}
	h = withPhones(h, rand.New(rand.NewPCG(seed, 0x70686f6e)), without == "copy")
	return withHouses(h, rand.New(rand.NewPCG(seed, 0x686f7573)))
}

// withHouses adds what is noted for the house alone, sites that are opened to
// all members, and in some histories a member who does not live there.
func withHouses(h History, r *rand.Rand) History {
	for range r.IntN(5) {
		verb := []string{"private", "private", "open", "role"}[r.IntN(4)]
		h.Steps = slices.Insert(h.Steps, r.IntN(len(h.Steps)+1), Step{verb, r.IntN(h.Devices), r.IntN(64), r.IntN(64)})
	}
	return h
}

// withPhones adds what befalls phones besides: disks that fill up, and an app
// that is of release 1 until it is brought up to date. A copy of such a phone
// is not played: release 1 has no marks by which it is told.
func withPhones(h History, r *rand.Rand, old bool) History {
	at := func(i int, verb string, who, a int) {
		h.Steps = slices.Insert(h.Steps, i, Step{verb, who, a, r.IntN(64)})
	}
	for range r.IntN(4) {
		at(r.IntN(len(h.Steps)+1), "full", r.IntN(h.Devices), r.IntN(64))
	}
	if who := r.IntN(2 * h.Devices); old && who < h.Devices {
		at(r.IntN(len(h.Steps)+1), "app", who, 1)
		at(0, "app", who, 0)
	}
	return h
}

func drawn(r *rand.Rand, total int) string {
	n := r.IntN(total)
	for _, c := range chances {
		if n -= c.weight; n < 0 {
			return c.verb
		}
	}
	return "sync"
}

// Reduced takes steps away from a failing history as long as what is left
// still breaks the same promise.
func Reduced(h History, breaks func(History) bool) History {
	for size := max(len(h.Steps)/2, 1); ; size = max(size/2, 1) {
		smaller := false
		for at := 0; at < len(h.Steps); {
			try := h
			try.Steps = slices.Delete(slices.Clone(h.Steps), at, min(at+size, len(h.Steps)))
			if breaks(try) {
				h, smaller = try, true
			} else {
				at += size
			}
		}
		if size == 1 && !smaller {
			return h
		}
	}
}
