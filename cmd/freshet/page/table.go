package page

import "strings"

// A Column of a table says where its cells stand and whether they may be cut.
type Column struct {
	Title string
	Right bool // figures stand to the right
	Give  bool // gives way first where the page is narrow
}

// gutter is what stands between two columns.
const gutter = 2

// Table writes rows under titles. Columns that may give way are cut where the
// page is too narrow; where that is not enough, each row is written as lines
// of its own.
func (p *Page) Table(columns []Column, rows [][]string) {
	widths := measure(columns, rows)
	if !p.squeeze(columns, widths) {
		p.stack(columns, rows)
		return
	}
	titles := make([]string, len(columns))
	said := false
	for i, c := range columns {
		titles[i] = c.Title
		said = said || c.Title != ""
	}
	if said {
		p.line("  " + row(columns, widths, titles))
	}
	for _, cells := range rows {
		p.line("  " + row(columns, widths, cells))
	}
}

func measure(columns []Column, rows [][]string) []int {
	widths := make([]int, len(columns))
	for i, c := range columns {
		widths[i] = Columns(c.Title)
		for _, cells := range rows {
			widths[i] = max(widths[i], Columns(cells[i]))
		}
	}
	return widths
}

// squeeze narrows columns that give way until the table fits.
func (p *Page) squeeze(columns []Column, widths []int) bool {
	over := 2 - p.width - gutter
	for _, w := range widths {
		over += w + gutter
	}
	for over > 0 {
		widestOne := -1
		for i, c := range columns {
			if c.Give && widths[i] > 10 && (widestOne < 0 || widths[i] > widths[widestOne]) {
				widestOne = i
			}
		}
		if widestOne < 0 {
			return false
		}
		widths[widestOne]--
		over--
	}
	return true
}

func row(columns []Column, widths []int, cells []string) string {
	parts := make([]string, len(columns))
	for i, c := range columns {
		parts[i] = pad(Cut(cells[i], widths[i]), widths[i], c.Right)
	}
	return strings.Join(parts, strings.Repeat(" ", gutter))
}

// stack writes each row as its first cell, and the others under it by name.
func (p *Page) stack(columns []Column, rows [][]string) {
	for _, cells := range rows {
		p.block("  ", "    ", cells[0])
		for i := 1; i < len(columns); i++ {
			if cells[i] != "" {
				p.block("    ", "      ", strings.TrimSpace(strings.ToLower(columns[i].Title)+" "+cells[i]))
			}
		}
	}
}
