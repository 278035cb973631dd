// Package page writes screens that read like a field notebook: sentences
// first, figures lined up under them, and small drawings made of letters. What
// it writes fits the width it is given and needs no colour to be understood.
package page

import (
	"io"
	"strings"
)

// Page is a screen being written. The first error of the writer is kept and
// given by Err; what is written after it is lost.
type Page struct {
	w      io.Writer
	width  int
	margin string // before every line
	err    error
}

// Bounds of a page's width in columns: narrower breaks words, wider tires eyes.
const (
	narrowest = 30
	widest    = 96
)

// New begins a page on a writer that is so many columns wide.
func New(w io.Writer, width int) *Page {
	return &Page{w: w, width: min(max(width, narrowest), widest)}
}

// Width is the width in use, in columns.
func (p *Page) Width() int { return p.width }

// Err is the first error of the writer.
func (p *Page) Err() error { return p.err }

func (p *Page) line(text string) {
	if p.err == nil {
		_, p.err = io.WriteString(p.w, strings.TrimRight(p.margin+text, " ")+"\n")
	}
}

// Drawn writes a line as it is, however wide.
func (p *Page) Drawn(text string) { p.line(text) }

// Gap leaves a line.
func (p *Page) Gap() { p.line("") }

// Within writes a part of the page that stands so many columns to the right.
func (p *Page) Within(columns int, write func(*Page)) {
	inner := &Page{w: p.w, width: p.width - columns, margin: p.margin + strings.Repeat(" ", columns), err: p.err}
	write(inner)
	p.err = inner.err
}

// Head writes what the page is about, and when, over a line of water.
func (p *Page) Head(what, when string) {
	room := p.width - Columns(what) - Columns(when)
	if room < 2 {
		p.Say(what)
		if when != "" {
			p.Say(when)
		}
	} else {
		p.line(what + strings.Repeat(" ", room) + when)
	}
	p.line(strings.Repeat("~", p.width))
}

// Say writes a paragraph.
func (p *Page) Say(text string) { p.block("", "", text) }

// Under writes a paragraph below what it belongs to.
func (p *Page) Under(text string) { p.block("  ", "  ", text) }

// Title writes the name of a part.
func (p *Page) Title(text string) {
	p.Gap()
	p.Say(text)
}

// Item writes a paragraph that hangs from a mark: "1.", "-".
func (p *Page) Item(mark, text string) {
	lead := "  " + mark + " "
	p.block(lead, strings.Repeat(" ", Columns(lead)), text)
}

func (p *Page) block(first, rest, text string) {
	for _, paragraph := range strings.Split(text, "\n") {
		lead := first
		for _, line := range Wrap(paragraph, p.width-Columns(first)) {
			p.line(lead + line)
			lead = rest
		}
		first = rest
	}
}
