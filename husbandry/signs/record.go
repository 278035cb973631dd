package signs

import (
	"cmp"
	"math"
	"slices"

	"freshet.example/husbandry/quantity"
)

// Day is the hours of a day.
const Day = 24

// A Record is what is known of a loop up to now.
type Record struct {
	// Hours are those up to now, whose last is the present one, in order.
	Hours []Hour
	// Probe is what probes said, hour by hour, in canonical units: one value for each of Hours, NaN where there is none.
	Probe map[quantity.Quantity][]float64
	// Tests are what was tested by hand, in order of time.
	Tests map[quantity.Quantity][]Test
	// Deaths are in order of time.
	Deaths   []Death
	Litres   quantity.Litres
	Pressure quantity.Atmospheres // of the air; 0 means 1
}

// An Hour is what one hour brought to the water.
type Hour struct {
	Fish       float64 // kg alive
	Sun        float64 // share of noon, 0 to 1
	Calibrated bool    // a probe was calibrated
}

// A Test is one reading by hand.
type Test struct {
	Hour  int // of the record
	Value float64
	Below bool             // all that it showed is that the truth lies below
	Typed quantity.Measure // as it was typed; its zero where that is not known
}

// A Death is fish of one cohort found dead.
type Death struct {
	Hour, Cohort int
	Count        int
	Sentinel     bool // kept to show trouble early
}

// A Kind says what a sign is of.
type Kind int

// The kinds, most pressing first.
const (
	StillPump  Kind = iota // oxygen fell as it does when pump and air stand
	Cooling                // the water falls below what it was kept at
	WeakFilter             // a test far above its habit: the filter cannot follow
	Dying                  // more deaths than usual
	Hungerless             // fish eat less than usual
	Sliding                // a slow fall over weeks
	Adrift                 // a probe moves away from what was tested by hand
	Foul                   // oxygen stays more and more below the loop's own balance
	Misread                // readings that would fit had they been typed otherwise
	Outlier                // a reading that cannot be, between two that agree
	Shifted                // another level since one day
	Stuck                  // a probe that says the same for too long
	Silent                 // nothing read any more
)

// String is the kind's stable name, lower_snake.
func (k Kind) String() string {
	names := [...]string{"still_pump", "cooling", "weak_filter", "dying", "hungerless", "sliding", "adrift", "foul", "misread", "outlier", "shifted", "stuck", "silent"}
	if k < 0 || int(k) >= len(names) {
		return "unknown"
	}
	return names[k]
}

// A Sign is one finding.
type Sign struct {
	Kind     Kind
	Quantity quantity.Quantity
	Hand     bool // of tests by hand, not of a probe
	Since    int  // hour of the record from which it shows
	Until    int  // hour of the last reading that shows it
	// Is is what is read, Was what was to be expected: in the quantity's
	// canonical unit; fish dead and usual for Dying; hours for Silent.
	Is, Was float64
	Count   int // readings, tests or deaths that show it
	// As says in what unit and basis readings would fit, for Misread; Times is
	// 10 or 0.1 where it is the point that slipped.
	As     quantity.Measure
	Times  float64
	Cohort int // of Dying
}

// A RecordError says what of a record cannot be used.
type RecordError struct{ Why string }

// Error says why.
func (e *RecordError) Error() string { return e.Why }

// Look finds the signs that a record shows now, most pressing first. Of a record
// without readings there are none.
func Look(r Record) ([]Sign, error) {
	if err := r.check(); err != nil {
		return nil, err
	}
	var list []Sign
	for _, look := range []func(*Record) []Sign{stillPump, cooling, weakFilter, dying, hungerless, slides, adrift, foul, misread, shifts, stuck, silent} {
		list = append(list, look(&r)...)
	}
	slices.SortStableFunc(list, func(a, b Sign) int { return cmp.Compare(a.Kind, b.Kind) })
	return list, nil
}

func (r *Record) check() error {
	const most = 400 * Day
	if len(r.Hours) > most {
		return &RecordError{"more than 400 days: give the last of them"}
	}
	for _, series := range r.Probe {
		if len(series) != len(r.Hours) {
			return &RecordError{"a probe's readings must be one for each hour"}
		}
	}
	for q, tests := range r.Tests {
		for i, t := range tests {
			if t.Hour < 0 || t.Hour >= len(r.Hours) || i > 0 && t.Hour < tests[i-1].Hour {
				return &RecordError{"tests must be in order of time and within the record"}
			}
			if math.IsNaN(t.Value) || math.IsInf(t.Value, 0) {
				return &RecordError{"a test of " + q.Title() + " is not a number"}
			}
		}
	}
	for i, d := range r.Deaths {
		if d.Count < 0 || d.Hour < 0 || d.Hour >= len(r.Hours) || i > 0 && d.Hour < r.Deaths[i-1].Hour {
			return &RecordError{"deaths must be in order of time, within the record, and none below 0"}
		}
	}
	if r.Pressure == 0 {
		r.Pressure = 1
	}
	return quantity.Within("air pressure", float64(r.Pressure), 0.5, 1.1, "atm", quantity.OwnBounds)
}

// now is the present hour.
func (r *Record) now() int { return len(r.Hours) - 1 }

// probed lists the quantities that probes read, in their table's order.
func (r *Record) probed() []quantity.Quantity {
	return slices.DeleteFunc(quantity.Quantities(), func(q quantity.Quantity) bool { return len(r.Probe[q]) == 0 })
}

// spoken are the hours from one to another, not counting it, in which a series says something.
func spoken(series []float64, from, to int) (hours []int) {
	for i := max(0, from); i < min(to, len(series)); i++ {
		if !math.IsNaN(series[i]) {
			hours = append(hours, i)
		}
	}
	return hours
}

// said are the values of those hours.
func said(series []float64, from, to int) (values []float64) {
	for _, i := range spoken(series, from, to) {
		values = append(values, series[i])
	}
	return values
}

// quantileOf is by straight lines between the ordered values; values must not be empty.
func quantileOf(values []float64, p float64) float64 {
	s := slices.Clone(values)
	slices.Sort(s)
	x := p * float64(len(s)-1)
	i := int(x)
	if i+1 >= len(s) {
		return s[i]
	}
	return s[i] + (x-float64(i))*(s[i+1]-s[i])
}

func middleOf(values []float64) float64 { return quantileOf(values, 0.5) }

// spreadOf is the median distance from the median, scaled to a standard deviation.
func spreadOf(values []float64) float64 {
	const normal = 1.4826 // Hampel 1974
	middle := middleOf(values)
	away := make([]float64, len(values))
	for i, v := range values {
		away[i] = math.Abs(v - middle)
	}
	return normal * middleOf(away)
}
