package loop

import "freshet.example/husbandry/quantity"

// A Bed holds water that runs to the pump tank when the pump stops: a flooded
// media bed, or the part of a raft or channel that stands above its outlet.
type Bed struct {
	Area  quantity.SquareMetres
	Depth quantity.Metres   // of the water that drains, not of the bed
	Void  quantity.Fraction // share of that depth which is water: about 0.4 in gravel (trade rule, from memory), 1 for open water
}

// Water returns what the bed gives back: area x depth x void.
func (b Bed) Water() (quantity.Litres, error) {
	err := firstError(areaBound.check(float64(b.Area)), depthBound.check(float64(b.Depth)), voidBound.check(float64(b.Void)))
	if err != nil {
		return 0, err
	}
	return quantity.Litres(float64(b.Area) * float64(b.Depth) * float64(b.Void) * litresPerCubic), nil
}

// DrainDown returns what the pump tank must take when the power fails: the water
// of every bed, of the pipes above the tank, and of the films and weirs that
// run empty. No published worked example was found; it is a sum.
func DrainDown(beds []Bed, pipes, films quantity.Litres) (quantity.Litres, error) {
	if err := firstError(litresBound.check(float64(pipes)), litresBound.check(float64(films))); err != nil {
		return 0, err
	}
	sum := pipes + films
	for _, b := range beds {
		litres, err := b.Water()
		if err != nil {
			return 0, err
		}
		sum += litres
	}
	return sum, nil
}

// FreeBoard returns what a pump tank can still take: its surface times the
// height between the running level and the rim.
func FreeBoard(surface quantity.SquareMetres, height quantity.Metres) (quantity.Litres, error) {
	return Bed{Area: surface, Depth: height, Void: 1}.Water()
}

// DrainDownMargin returns how much room is left in the pump tank after the
// drain-down. Below zero it overflows by that much.
func DrainDownMargin(freeBoard, drainDown quantity.Litres) (quantity.Litres, error) {
	if err := firstError(litresBound.check(float64(freeBoard)), litresBound.check(float64(drainDown))); err != nil {
		return 0, err
	}
	return freeBoard - drainDown, nil
}
