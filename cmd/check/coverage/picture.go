package coverage

import (
	"fmt"
	"strings"
)

// panel is one square of a picture: how often intervals held against how often
// they were meant to, a line for each of several forecasts.
type panel struct {
	title string
	lines []line
}

type line struct {
	name  string
	score *score
}

func seasonPanels(s *seasons) []panel {
	var list []panel
	for f, what := range tried {
		p := panel{title: what.title}
		for d, days := range daysAhead {
			if s.by[f][d].n > 0 {
				p.lines = append(p.lines, line{fmt.Sprintf("day %d", days), &s.by[f][d]})
			}
		}
		if len(p.lines) > 0 {
			list = append(list, p)
		}
	}
	return list
}

func growthPanels(list []*set) []panel {
	var panels []panel
	for _, s := range list {
		panels = append(panels, panel{s.title, []line{{"with the others", &s.score}, {"own line", &s.alone}}})
	}
	return panels
}

// Sizes of a picture, and the colours of its lines from near to far.
const (
	side, gap, across = 220, 56, 4
	letters           = `font-family="sans-serif" font-size="12" fill="#333"`
)

var colours = []string{"#10515f", "#2f8a83", "#c9882b", "#a8432f"}

// picture draws panels four abreast. The diagonal is a forecast that keeps its
// word; the grey band beside it is three in 100.
func picture(panels []panel) string {
	rows := (len(panels) + across - 1) / across
	width, height := across*(side+gap)+gap, rows*(side+2*gap)+gap
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" width="%d" height="%d">`+"\n", width, height, width, height)
	fmt.Fprintf(&b, `<rect width="%d" height="%d" fill="#fbfaf6"/>`+"\n", width, height)
	for i, p := range panels {
		p.draw(&b, gap+(i%across)*(side+gap), gap+(i/across)*(side+2*gap))
	}
	b.WriteString("</svg>\n")
	return b.String()
}

func (p panel) draw(b *strings.Builder, left, top int) {
	x := func(share float64) float64 { return float64(left) + share*side }
	y := func(share float64) float64 { return float64(top) + (1-share)*side }
	fmt.Fprintf(b, `<text x="%d" y="%d" %s font-weight="bold">%s</text>`+"\n", left, top-8, letters, p.title)
	const band = 0.03
	fmt.Fprintf(b, `<path d="M%.1f %.1f L%.1f %.1f L%.1f %.1f L%.1f %.1f Z" fill="#e4e0d4"/>`+"\n", x(0), y(band), x(1-band), y(1), x(1), y(1-band), x(band), y(0))
	fmt.Fprintf(b, `<path d="M%.1f %.1f L%.1f %.1f" stroke="#999" stroke-dasharray="3 3"/>`+"\n", x(0), y(0), x(1), y(1))
	fmt.Fprintf(b, `<rect x="%d" y="%d" width="%d" height="%d" fill="none" stroke="#bbb"/>`+"\n", left, top, side, side)
	for _, tick := range []float64{0, 0.5, 0.8, 1} {
		fmt.Fprintf(b, `<text x="%.1f" y="%d" text-anchor="middle" %s>%.0f</text><text x="%d" y="%.1f" text-anchor="end" %s>%.0f</text>`+"\n",
			x(tick), top+side+16, letters, tick*100, left-5, y(tick)+4, letters, tick*100)
	}
	fmt.Fprintf(b, `<text x="%.1f" y="%d" text-anchor="middle" %s>across: meant to hold, up: held, of 100</text>`+"\n", x(0.5), top+side+32, letters)
	for i, l := range p.lines {
		points := fmt.Sprintf("%.1f,%.1f", x(0), y(0))
		for j, level := range levels {
			points += fmt.Sprintf(" %.1f,%.1f", x(level), y(l.score.held[j]/l.score.n))
		}
		colour := colours[i%len(colours)]
		fmt.Fprintf(b, `<polyline points="%s" fill="none" stroke="%s" stroke-width="2"/>`+"\n", points, colour)
		fmt.Fprintf(b, `<text x="%d" y="%d" %s style="fill:%s">%s</text>`+"\n", left+8, top+18+15*i, letters, colour, l.name)
	}
}
