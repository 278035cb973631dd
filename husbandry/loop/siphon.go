package loop

import (
	"math"
	"strconv"

	"freshet.example/husbandry/quantity"
)

// OutletFlow returns what runs out of an opening under a head: Cd a sqrt(2 g h),
// the orifice equation after Torricelli. Cd is about 0.6 for a sharp edge and
// up to 0.8 for a short pipe (common practice, no source).
func OutletFlow(cd quantity.Fraction, diameter, head quantity.Metres) (quantity.LitresPerMinute, error) {
	err := firstError(dischargeBound.check(float64(cd)), diameterBound.check(float64(diameter)), headBound.check(float64(head)))
	if err != nil {
		return 0, err
	}
	return litresPerMinute(float64(cd) * circle(float64(diameter)) * math.Sqrt(2*gravity*float64(head))), nil // Torricelli
}

// A Flood is one bed that a siphon empties: the pump fills it without pause, the
// siphon starts at the high level and breaks at the low one. Heads are measured
// down to the siphon's outlet.
type Flood struct {
	Area     quantity.SquareMetres
	Void     quantity.Fraction // share of the bed that water can fill, 1 without media
	HighHead quantity.Metres   // when the siphon starts
	LowHead  quantity.Metres   // when it should break
	Diameter quantity.Metres   // inside, of the siphon
	Cd       quantity.Fraction
	Inflow   quantity.LitresPerMinute
}

// A Cycle is the rhythm of a bed that floods and drains.
type Cycle struct {
	Fill      quantity.Minutes
	Drain     quantity.Minutes
	PerDay    float64
	Exchanged quantity.Litres // water moved by one cycle
}

// A StallError says that a siphon would run for ever: the pump brings at least
// as much as the siphon takes away at its lowest head, so air never breaks it.
type StallError struct {
	Inflow  quantity.LitresPerMinute
	Outflow quantity.LitresPerMinute // at the lowest head
}

// Error names both flows.
func (e *StallError) Error() string {
	return "the siphon stalls: the pump brings " + short(float64(e.Inflow)) + " L/min and the siphon takes only " +
		short(float64(e.Outflow)) + " L/min when the bed is low; use a wider siphon or less flow"
}

// Siphon returns the flood cycle of a bed emptied by a siphon, or a StallError.
// Filling takes volume over inflow. Draining integrates
// area dh/dt = inflow - Cd a sqrt(2 g h) from the high head to the low one,
// which has a closed form.
func Siphon(f Flood) (Cycle, error) {
	low, err := f.lowest()
	if err != nil {
		return Cycle{}, err
	}
	if f.Inflow >= low {
		return Cycle{}, &StallError{Inflow: f.Inflow, Outflow: low}
	}
	litres := float64(f.Area) * float64(f.Void) * float64(f.HighHead-f.LowHead) * litresPerCubic
	fill := litres / float64(f.Inflow)
	drain := f.drain()
	return Cycle{
		Fill: quantity.Minutes(fill), Drain: quantity.Minutes(drain),
		PerDay:    hoursPerDay * minutesPerHour / (fill + drain),
		Exchanged: quantity.Litres(litres + float64(f.Inflow)*drain),
	}, nil
}

// lowest checks the bed and returns what the siphon takes at its lowest head.
func (f *Flood) lowest() (quantity.LitresPerMinute, error) {
	err := firstError(areaBound.check(float64(f.Area)), voidBound.check(float64(f.Void)),
		flowBound.check(float64(f.Inflow)), headBound.check(float64(f.HighHead)),
		quantity.Within("head when the siphon breaks", float64(f.LowHead), headBound.low, float64(f.HighHead), "m", "by definition: the head when it starts"))
	lowest, outletErr := OutletFlow(f.Cd, f.Diameter, f.LowHead)
	return lowest, firstError(err, outletErr)
}

// DrainTime returns how long the bed takes from its high head to its low one
// with the pump off: 2A/k (u1-u2) with u = sqrt(h). The inflow is passed over.
func DrainTime(f Flood) (quantity.Minutes, error) {
	if _, err := f.lowest(); err != nil {
		return 0, err
	}
	f.Inflow = 0
	return quantity.Minutes(f.drain()), nil
}

// drain returns the minutes from the high head to the low one:
// 2A/k [(u1-u2) + Q/k ln((k u1 - Q)/(k u2 - Q))] with u = sqrt(h).
func (f *Flood) drain() float64 {
	surface := float64(f.Area) * float64(f.Void)
	inflow := cubicMetresPerSecond(f.Inflow)
	k := float64(f.Cd) * circle(float64(f.Diameter)) * math.Sqrt(2*gravity)
	high, low := math.Sqrt(float64(f.HighHead)), math.Sqrt(float64(f.LowHead))
	slowed := inflow / k * math.Log((k*high-inflow)/(k*low-inflow))
	return 2 * surface / k * (high - low + slowed) / secondsPerMin
}

// Timer returns the cycle of a bed flooded by a pump on a timer: minutes on,
// minutes off, and what the pump brings. Exchanged is what one flood moves.
func Timer(on, off quantity.Minutes, flow quantity.LitresPerMinute) (Cycle, error) {
	err := firstError(minutesBound.check(float64(on)), minutesBound.check(float64(off)), flowBound.check(float64(flow)),
		quantity.Within("time on and off together", float64(on+off), 1, minutesBound.high, "min", quantity.OwnBounds))
	if err != nil {
		return Cycle{}, err
	}
	return Cycle{
		Fill: on, Drain: off,
		PerDay:    hoursPerDay * minutesPerHour / float64(on+off),
		Exchanged: quantity.Litres(float64(flow) * float64(on)),
	}, nil
}

func short(v float64) string { return strconv.FormatFloat(v, 'g', 4, 64) }
