package page

import "strings"

// A Stretch is one vessel of the loop on a walk along the water, with what is
// to be done or known there.
type Stretch struct {
	Place string
	Words []string
}

// Stream writes stretches down the side of the page in the order the water
// runs: the names stand on the water, the words on its bank.
func (p *Page) Stream(stretches []Stretch) {
	name := 0
	for _, s := range stretches {
		name = max(name, Columns(s.Place))
	}
	name = min(name, p.width/3)
	beside := p.width >= 64
	for i, s := range stretches {
		if i > 0 {
			p.line("  │")
		}
		if !beside {
			p.line("  ≈ " + Cut(s.Place, p.width-4))
			p.bank("  │   ", s.Words)
			continue
		}
		lead := "  ≈ " + pad(Cut(s.Place, name), name, false) + "  "
		rest := "  │ " + strings.Repeat(" ", name) + "  "
		for _, words := range s.Words {
			p.block(lead, rest, words)
			lead = rest
		}
		if len(s.Words) == 0 {
			p.line(lead)
		}
	}
}

func (p *Page) bank(lead string, words []string) {
	for _, w := range words {
		p.block(lead, lead, w)
	}
}
