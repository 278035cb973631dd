package loop

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// A PumpPoint is one point of a pump's curve as its maker prints it.
type PumpPoint struct {
	Flow quantity.LitresPerMinute
	Head quantity.Metres
}

// A Run is the pipe that a pump works against.
type Run struct {
	Static   quantity.Metres // height from the water it draws to the water it feeds
	Length   quantity.Metres
	Diameter quantity.Metres // inside
	C        float64         // Hazen-Williams
	K        float64         // sum of the fittings
}

// SystemHead returns the head a run asks for at a flow: the lift, friction by
// HazenWilliams, and fittings. At no flow it is the lift alone.
func SystemHead(r Run, flow quantity.LitresPerMinute) (quantity.Metres, error) {
	if err := headBound.check(float64(r.Static)); err != nil {
		return 0, err
	}
	if flow == 0 {
		return r.Static, nil
	}
	friction, err := HazenWilliams(r.Length, r.Diameter, flow, r.C)
	speed, speedErr := PipeSpeed(flow, r.Diameter)
	minor, minorErr := FittingLoss(r.K, speed)
	if err := firstError(err, speedErr, minorErr); err != nil {
		return 0, err
	}
	return r.Static + friction + minor, nil
}

// A DutyError says why a pump and a run have no common point.
type DutyError struct{ Reason string }

// Error is the reason.
func (e *DutyError) Error() string { return e.Reason }

// DutyPoint returns where a pump settles: the flow at which its curve and the
// head of the run meet. The curve is drawn straight between the maker's points,
// which must rise in flow and fall in head; outside them there is no answer.
func DutyPoint(curve []PumpPoint, r Run) (PumpPoint, error) {
	if err := checkCurve(curve); err != nil {
		return PumpPoint{}, err
	}
	for i := range curve {
		head, err := SystemHead(r, curve[i].Flow)
		if err != nil {
			return PumpPoint{}, err
		}
		if head <= curve[i].Head {
			continue
		}
		if i == 0 {
			return PumpPoint{}, &DutyError{"the pump cannot lift so high: the run asks for more head than the pump's first point gives"}
		}
		return meet(curve[i-1], curve[i], r) //nolint:gosec // the first point was answered above
	}
	return PumpPoint{}, &DutyError{"the run asks for less head than the pump's last point: the flow is beyond the maker's curve"}
}

// checkCurve refuses curves that are not two or more points falling to the right.
func checkCurve(curve []PumpPoint) error {
	if len(curve) < 2 {
		return &DutyError{"a pump curve needs two points or more"}
	}
	for i, p := range curve {
		if err := firstError(quantity.Within("flow", float64(p.Flow), 0, flowBound.high, "L/min", quantity.OwnBounds), headBound.check(float64(p.Head))); err != nil {
			return err
		}
		if i > 0 && (p.Flow <= curve[i-1].Flow || p.Head >= curve[i-1].Head) {
			return &DutyError{"a pump curve must rise in flow and fall in head from point to point"}
		}
	}
	return nil
}

// meet halves the stretch between two points of the curve, left of which the pump
// lifts more than the run asks for, until no number lies between them.
func meet(left, right PumpPoint, r Run) (PumpPoint, error) {
	for {
		middle := PumpPoint{Flow: (left.Flow + right.Flow) / 2, Head: (left.Head + right.Head) / 2}
		if middle.Flow <= left.Flow || middle.Flow >= right.Flow {
			return left, nil
		}
		asked, err := SystemHead(r, middle.Flow)
		if err != nil {
			return PumpPoint{}, err
		}
		if asked <= middle.Head {
			left = middle
		} else {
			right = middle
		}
	}
}

// WaterPower returns the power that goes into the water: density x g x Q x H. The
// plug takes that over the efficiency of pump and motor together.
func WaterPower(flow quantity.LitresPerMinute, head quantity.Metres, efficiency quantity.Fraction) (quantity.Watts, error) {
	err := firstError(flowBound.check(float64(flow)), headBound.check(float64(head)), efficiencyBound.check(float64(efficiency)))
	if err != nil {
		return 0, err
	}
	return quantity.Watts(waterDensity * gravity * cubicMetresPerSecond(flow) * float64(head) / float64(efficiency)), nil
}

// waterDensity is kg/m3 near 20 degC, rounded as the trade rounds it.
const waterDensity = 1000

// NominalError returns by how much friction is underrated (below one) or
// overrated (above one) when a pipe's trade name is taken for its inside
// diameter: (inside over nominal)^4.871.
func NominalError(nominal NominalInches) (float64, error) {
	inside, err := InsideDiameter(nominal)
	if err != nil {
		return 0, err
	}
	return math.Pow(float64(inside)/inchesToMetres(float64(nominal)), 4.871), nil
}
