package water

import (
	"math"
	"testing"

	"freshet.example/husbandry/quantity"
)

// TestTroutAreAllowedNoMoreInWarmWater: the criteria of 1986 stop rising with
// warmth 5 degC sooner where trout and salmon live, so that from there on they
// are 10^(0.03 x 5) lower than without them; below both caps they are alike.
func TestTroutAreAllowedNoMoreInWarmWater(t *testing.T) {
	for _, c := range []struct {
		with, without criterion
		cap           quantity.Celsius
	}{{EPA1986AcuteSalmonid, EPA1986AcuteNoSalmonid, 20}, {EPA1986ChronicSalmonid, EPA1986ChronicNoSalmonid, 15}} {
		for celsius := quantity.Celsius(0); celsius <= 30; celsius += 0.5 {
			beyond := math.Min(math.Max(float64(celsius-c.cap), 0), 5)
			with, err := c.with(7.2, celsius)
			without, err2 := c.without(7.2, celsius)
			want := math.Pow(10, 0.03*beyond)
			if err != nil || err2 != nil || !(math.Abs(float64(without/with)-want) <= 1e-12*want) {
				t.Errorf("%g degC: %g times, want %g: %v %v", celsius, without/with, want, err, err2)
			}
		}
	}
}

// TestPiecesOf1986Meet: the form changes at pH 8 and 7.7 without a leap to
// speak of.
func TestPiecesOf1986Meet(t *testing.T) {
	for ph, leap := range map[quantity.PH]float64{8: 0.0015, 7.7: 0.0015} {
		below, err := EPA1986ChronicSalmonid(ph-1e-9, 12)
		above, err2 := EPA1986ChronicSalmonid(ph, 12)
		if err != nil || err2 != nil || !(math.Abs(float64(below/above)-1) <= leap) {
			t.Errorf("at pH %g from %g to %g: %v %v", ph, below, above, err, err2)
		}
	}
}
