package page

import (
	"math"
	"strings"
)

// A Series is values at equal steps; NaN where there is none.
type Series struct {
	Values []float64
	Show   func(float64) string // how a value is written
	From   string               // what the first step is called
	To     string               // what the last step is called
	Mark   float64              // a line to watch, NaN for none
	MarkAs string               // what the line is called
}

var eighths = []rune(" ▁▂▃▄▅▆▇█")

// Plot draws a series as water standing at heights: so many lines high, as
// wide as the page allows. Steps without a value stay open, so that a gap in
// the record is seen and not bridged.
func (p *Page) Plot(s Series, height int) {
	low, high, any := s.bounds()
	if !any {
		p.Under("No readings to draw.")
		return
	}
	top, bottom := s.Show(high), s.Show(low)
	margin := max(Columns(top), Columns(bottom)) + 1
	wide := p.width - margin - 4
	values := resample(s.Values, wide)
	stretch := max(wide/len(values), 1)
	for line := range height {
		label := ""
		switch line {
		case 0:
			label = top
		case height - 1:
			label = bottom
		}
		p.line("  " + pad(label, margin, true) + " " + s.drawLine(values, stretch, low, high, height-1-line, height))
	}
	p.foot(s, margin+3, len(values)*stretch)
}

// foot names the ends of the time drawn.
func (p *Page) foot(s Series, indent, wide int) {
	space := wide - Columns(s.From) - Columns(s.To)
	if space < 1 {
		p.line(strings.Repeat(" ", indent) + s.From + " – " + s.To)
	} else {
		p.line(strings.Repeat(" ", indent) + s.From + strings.Repeat(" ", space) + s.To)
	}
	if s.MarkAs != "" && !math.IsNaN(s.Mark) {
		p.block(strings.Repeat(" ", indent), strings.Repeat(" ", indent), "┄ "+s.MarkAs)
	}
}

func (s Series) bounds() (low, high float64, any bool) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, v := range s.Values {
		if !math.IsNaN(v) {
			low, high, any = min(low, v), max(high, v), true
		}
	}
	if any && !math.IsNaN(s.Mark) && s.MarkAs != "" && s.Mark > low && s.Mark < high+(high-low)+math.Abs(high)*0.2 {
		high = max(high, s.Mark)
	}
	if any && low == high {
		pad := max(math.Abs(low)*0.05, 1e-9)
		low, high = low-pad, high+pad
	}
	return low, high, any
}

func (s Series) drawLine(values []float64, stretch int, low, high float64, level, height int) string {
	b := strings.Builder{}
	for _, v := range values {
		for range stretch {
			b.WriteRune(s.sign(v, low, high, level, height))
		}
	}
	return b.String()
}

// sign is one character: an eighth of water, the line to watch, or nothing.
func (s Series) sign(v, low, high float64, level, height int) rune {
	scale := func(v float64) float64 { return (v - low) / (high - low) * (float64(height)*8 - 1) }
	onMark := s.MarkAs != "" && !math.IsNaN(s.Mark) && s.Mark >= low && s.Mark <= high &&
		int(math.Round(scale(s.Mark)))/8 == level
	if math.IsNaN(v) {
		switch {
		case onMark:
			return '┄'
		case level == 0:
			return '·'
		}
		return ' '
	}
	filled := int(math.Round(scale(v))) + 1 - level*8
	r := eighths[min(max(filled, 0), 8)]
	if onMark && r == ' ' {
		return '┄'
	}
	return r
}

// resample means values into so many steps, where there are more.
func resample(values []float64, steps int) []float64 {
	if len(values) <= steps {
		return values
	}
	out := make([]float64, steps)
	for i := range out {
		sum, n := 0.0, 0
		for _, v := range values[i*len(values)/steps : (i+1)*len(values)/steps] {
			if !math.IsNaN(v) {
				sum, n = sum+v, n+1
			}
		}
		out[i] = sum / float64(n) // 0/0 is NaN: no value
	}
	return out
}
