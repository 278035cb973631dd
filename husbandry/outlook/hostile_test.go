package outlook

import (
	"math"
	"testing"
)

// TestReadingsOutToMislead: tests that jump between the ends of what can be read,
// and tests that show nothing but that they lie below, leave forecasts that are
// numbers, in order, and not below nothing.
func TestReadingsOutToMislead(t *testing.T) {
	past, _, _ := lived(t, plain(), 21)
	for name, value := range map[string]func(f Figure, n int) (v float64, below bool){
		"jumping":  func(f Figure, n int) (float64, bool) { return highest[f] * float64(n%2), false },
		"censored": func(f Figure, _ int) (float64, bool) { return highest[f] / 2, true },
		"nothing":  func(Figure, int) (float64, bool) { return 0, false },
	} {
		var readings []Reading
		for i := 6; i < len(past); i += 12 {
			for f := range readable {
				v, below := value(f, i/12)
				readings = append(readings, Reading{Hour: i, Figure: f, Value: v, Below: below})
			}
		}
		_, a := outlookOf(t, past, readings)
		for f := range Figures {
			for _, day := range []int{0, 6, 13} {
				got := fan(t, a, f, day)
				if math.IsInf(got.High, 0) || got.Low < 0 {
					t.Errorf("%s, figure %d on day %d: %+v", name, f, day, got)
				}
				if c, err := a.Past(f, day, got.Middle, true); err != nil || !(c >= 0 && c <= 1) {
					t.Errorf("%s, figure %d on day %d: chance %v, %v", name, f, day, c, err)
				}
			}
		}
	}
}
