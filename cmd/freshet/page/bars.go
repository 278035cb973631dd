package page

import (
	"math"
	"strings"
)

// A Bar is one part of a whole, or one figure among others, with its interval.
type Bar struct {
	Name  string
	Value float64
	Low   float64 // NaN where there is no interval
	High  float64
	Words string // written behind the figure
	Mark  string // drawn before the name: "*"
}

// Bars draws parts against the greatest of them, each with its figure.
func (p *Page) Bars(bars []Bar, show func(float64) string) {
	name, figure, top := 0, 0, 0.0
	for _, b := range bars {
		name = max(name, Columns(b.Mark+b.Name))
		figure = max(figure, Columns(show(b.Value)))
		if size := math.Abs(b.Value); size > top { // not where it is NaN
			top = size
		}
	}
	name = min(name, p.names())
	room := max(p.width-name-figure-6-p.longestWords(bars), 6)
	for _, b := range bars {
		water := lengthOf(math.Abs(b.Value), top, room)
		if b.Value < 0 {
			water = strings.Map(func(r rune) rune {
				if r == ' ' {
					return r
				}
				return '░'
			}, water)
		}
		p.line("  " + pad(Cut(b.Mark+b.Name, name), name, false) + "  " + pad(show(b.Value), figure, true) + " " +
			strings.TrimRight(pad(water, room, false)+" "+b.Words, " "))
	}
}

// names is how many columns names may take: a third, and on narrow pages enough
// for what is measured.
func (p *Page) names() int { return max(p.width/3, 18) }

func (p *Page) longestWords(bars []Bar) int {
	n := 0
	for _, b := range bars {
		n = max(n, Columns(b.Words)+1)
	}
	return min(n, p.width/3)
}

// lengthOf draws a length in eighths of a column.
func lengthOf(v, top float64, room int) string {
	if top <= 0 || math.IsNaN(v) {
		return ""
	}
	parts := int(math.Round(v / top * float64(room) * 8))
	rest := []string{"", "▏", "▎", "▍", "▌", "▋", "▊", "▉"}
	return strings.Repeat("█", parts/8) + rest[parts%8]
}

// Spans draws intervals on one scale, each with its middle: ├──o───┤.
func (p *Page) Spans(bars []Bar, show func(float64) string) {
	low, high := math.Inf(1), math.Inf(-1)
	name, figure := 0, 0
	for _, b := range bars {
		low, high = min(low, b.from()), max(high, b.to())
		name = max(name, Columns(b.Mark+b.Name))
		figure = max(figure, Columns(show(b.Value)))
	}
	if len(bars) == 0 {
		return
	}
	if high == low {
		low, high = low-1, high+1
	}
	name = min(name, p.names())
	room := max(p.width-name-figure-6, 10)
	at := func(v float64) int { return int(math.Round((v - low) / (high - low) * float64(room-1))) }
	for _, b := range bars {
		drawn := []rune(strings.Repeat(" ", room))
		for i := at(b.from()); i <= at(b.to()); i++ {
			drawn[i] = '─'
		}
		drawn[at(b.from())], drawn[at(b.to())] = '├', '┤'
		drawn[at(b.Value)] = 'o'
		p.line("  " + pad(Cut(b.Mark+b.Name, name), name, false) + "  " + pad(show(b.Value), figure, true) + "  " + string(drawn))
	}
	left, right := show(low), show(high)
	space := max(room-Columns(left)-Columns(right), 1)
	p.line(strings.Repeat(" ", name+figure+6) + left + strings.Repeat(" ", space) + right)
}

func (b Bar) from() float64 {
	if math.IsNaN(b.Low) {
		return b.Value
	}
	return min(b.Low, b.Value)
}

func (b Bar) to() float64 {
	if math.IsNaN(b.High) {
		return b.Value
	}
	return max(b.High, b.Value)
}
