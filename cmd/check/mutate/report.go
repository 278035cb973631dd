package mutate

import (
	"fmt"
	"math"
	"slices"
	"time"
)

// A Result is what came of one package.
type Result struct {
	Package   string     `json:"package"`
	Literals  int        `json:"literals"`
	Unnoticed []*Literal `json:"unnoticed"`
	Exempt    int        `json:"exempt"`
	Stale     []string   `json:"stale"`   // exemptions that are of no use
	Untried   int        `json:"untried"` // left when the budget was spent, or not asked about
	Seconds   float64    `json:"seconds"`
	Processor float64    `json:"processor_seconds"` // of compilers and test programs, which a busy machine does not stretch
}

// Clean says that every number was tried and that there is nothing to mend.
func (r *Result) Clean() bool { return len(r.Unnoticed) == 0 && len(r.Stale) == 0 && r.Untried == 0 }

func (r *Result) finish(took time.Duration, processor float64) {
	r.Seconds, r.Processor = took.Seconds(), processor
	slices.SortFunc(r.Unnoticed, func(a, b *Literal) int { return a.number - b.number })
	slices.Sort(r.Stale)
}

// Add adds up results.
func (r *Result) Add(other *Result) {
	r.Literals += other.Literals
	r.Unnoticed = append(r.Unnoticed, other.Unnoticed...)
	r.Exempt += other.Exempt
	r.Stale = append(r.Stale, other.Stale...)
	r.Untried += other.Untried
	r.Seconds += other.Seconds
	r.Processor += other.Processor
}

// Heading heads the columns of Row.
func Heading() string {
	return fmt.Sprintf("%-24s %8s %9s %7s %6s %8s %10s", "", "literals", "unnoticed", "exempt", "stale", "minutes", "processor")
}

// Row is a result in one line.
func (r *Result) Row() string {
	row := fmt.Sprintf("%-24s %8d %9d %7d %6d %8s %10s", r.Package, r.Literals, len(r.Unnoticed), r.Exempt, len(r.Stale), minutes(r.Seconds), minutes(r.Processor))
	if r.Untried > 0 {
		row += fmt.Sprintf("  %d not tried", r.Untried)
	}
	return row
}

func minutes(seconds float64) string {
	whole := int(math.Round(seconds))
	return fmt.Sprintf("%d:%02d", whole/60, whole%60)
}

// Details says, a line each, what is to be mended.
func (r *Result) Details() []string {
	var lines []string
	for _, l := range r.Unnoticed {
		lines = append(lines, "  no test notices  "+l.String())
	}
	for _, s := range r.Stale {
		lines = append(lines, "  stale exemption  "+s)
	}
	return lines
}
