package published

import (
	"math"
	"strings"
)

// A Dispute is a figure that was printed and does not meet its own definition
// as nearly as its tolerance says, because the program behind it stopped
// searching early. TestDisputesAreTrue derives each again without any search
// and fails where the dispute were not true.
type Dispute struct {
	Quantity string  // as printed
	Inputs   string  // as printed
	Printed  float64 // what the source gives
	Ours     float64 // what meets the definition
	How      string  // how it was derived again
}

const (
	inRationals = "R 4.2.2's fisher.test searches to about one part in 100,000 and stopped short; exact rational arithmetic shows what the definition asks for beside ours and not beside the printed one"
	atTheEnd    = "R 4.2.2's HoltWinters stopped short of the end of its own range; carrying the last reading on (alpha 1, exact decimal sum) leaves fewer squares"
)

// Disputes are all figures that we dispute. A row that differs and is none of
// them is a failure.
var Disputes = []Dispute{
	{"trial.two_proportions.fisher_or_lo [3/40-11/42]", "deaths 3/40 versus 11/42 conf 0.95", 0.0382504705424, 0.0382498970716741, inRationals},
	{"trial.two_proportions.fisher_cond_or [15/120-9/118]", "deaths 15/120 versus 9/118 conf 0.95", 1.72621340362, 1.72623144682415, inRationals},
	{"monitor.ses.sse [LakeHuron]", "data/lakehuron.csv", 53.8659407701, 53.865, atTheEnd},
}

// DisputeOf finds the dispute about a row to which we answer v; false where
// there is none. Both figures must be those of the dispute, so that neither
// another misprint nor a new fault of ours hides behind it.
func DisputeOf(row Row, v float64) (Dispute, bool) {
	e := expect(row.Expected)
	for _, d := range Disputes {
		if strings.EqualFold(row.Quantity, d.Quantity) && e.kind == number && same(e.low, d.Printed) && same(v, d.Ours) {
			return d, true
		}
	}
	return Dispute{}, false
}

func same(v, want float64) bool { return math.Abs(v-want) <= rounding*math.Abs(want) }
