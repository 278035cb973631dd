package analysis

import (
	"testing"

	freshetv1 "freshet.example/api/freshet/v1"
)

// What is all used up leaves nothing, though 0.1 + 0.2 is not 0.3 in floats.
func TestNothingIsLeftOfWhatIsUsedUp(t *testing.T) {
	l := &larder{lines: map[string]*freshetv1.LarderLine{"basil": {
		Produce: "basil", HarvestedKg: 0.3,
		Uses: []*freshetv1.LarderUse{{Use: freshetv1.Use_USE_DRIED, MassKg: 0.1}, {Use: freshetv1.Use_USE_EATEN, MassKg: 0.2}},
	}}}
	if left := l.response().GetLines()[0].GetOnHandKg(); left != 0 {
		t.Errorf("%g kg of basil are left", left)
	}
	l.lines["basil"].HarvestedKg = 0.35
	if left := l.response().GetLines()[0].GetOnHandKg(); left != 0.05 {
		t.Errorf("%g kg of basil are left, not 0.05", left)
	}
}
