package page

// Pairs writes names with what is said of each beside it; on a narrow page
// below it. What is said is wrapped, never cut.
func (p *Page) Pairs(pairs [][2]string) {
	name := 0
	for _, pair := range pairs {
		name = max(name, Columns(pair[0]))
	}
	beside := min(name, p.width*2/5)
	for _, pair := range pairs {
		if p.width < 56 && name > 14 || Columns(pair[0]) > beside {
			p.block("  ", "    ", pair[0])
			p.block("    ", "    ", pair[1])
			continue
		}
		lead := "  " + pad(pair[0], beside, false) + "  "
		p.block(lead, pad("", Columns(lead), false), pair[1])
	}
}
