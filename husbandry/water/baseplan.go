package water

import "freshet.example/husbandry/quantity"

// Water is what is known of a loop before base is added.
type Water struct {
	Volume      quantity.Litres
	PH          quantity.PH
	Temperature quantity.Celsius
	Alkalinity  quantity.AlkalinityCaCO3
	Ammonia     quantity.AmmoniaN // total
}

// A BaseStep is one day's dose and where it leads.
type BaseStep struct {
	Day        int
	Dose       quantity.Grams
	Alkalinity quantity.AlkalinityCaCO3 // after the dose
	PHClosed   quantity.PH              // straight after mixing, no gas lost
	PHOpen     quantity.PH              // when carbon dioxide is back to what it was
	Unionized  UnionizedN               // at the higher of the two pH
}

// Most days that a plan may take, and the rise of pH a day that a grower may
// choose. FAO TP 589 section 7.3.2 warns that a change of 0.3 within a day can
// harm or kill.
const (
	mostDays  = 365
	leastRise = 0.05
	mostRise  = 0.3
	faoRise   = "FAO TP 589 section 7.3.2"
)

// PHAfterBase gives the pH after so much alkalinity was added with a base: closed,
// when no carbon dioxide is lost, and open, when it has come back to what it was
// before. Range and source are those of InorganicCarbon and PHOfCarbonDioxide.
func PHAfterBase(w Water, b Base, rise quantity.AlkalinityCaCO3) (closed, open quantity.PH, err error) {
	carbon, errCarbon := InorganicCarbon(w.PH, w.Temperature, w.Alkalinity)
	gas, errGas := CarbonDioxide(w.PH, w.Temperature, w.Alkalinity)
	if err := first(errCarbon, errGas, checkLoad("rise of alkalinity", float64(rise))); err != nil {
		return quantity.PH(nan), quantity.PH(nan), err
	}
	after := w.Alkalinity + rise
	closed, errClosed := PHOfInorganicCarbon(carbon+Millimolar(equivalents(rise)*b.Carbon*1000), w.Temperature, after)
	open, errOpen := PHOfCarbonDioxide(gas, w.Temperature, after)
	return closed, open, first(errClosed, errOpen)
}

// PlanBase splits the base that brings a loop to the wanted alkalinity into
// daily doses, none of which raises pH by more than mostADay, 0.05 to 0.3,
// neither straight away nor once the water has aired. Each day starts from the
// open pH of the day before. A loop that has the alkalinity needs no step.
//
// Water that would need more than a year, and a wanted alkalinity above 500
// mg/L, are RangeErrors. Source: FAO TP 589 section 7.3.2 for the limit.
func PlanBase(w Water, b Base, wanted quantity.AlkalinityCaCO3, mostADay float64) ([]BaseStep, error) {
	err := first(
		quantity.Within("wanted alkalinity", float64(wanted), 0, 500, "mg/L as CaCO3", ofPackage),
		quantity.Within("rise of pH a day", mostADay, leastRise, mostRise, "", faoRise),
		checkVolume(w.Volume),
		checkLoad("total ammonia", float64(w.Ammonia)),
		checkCarbon(w.PH, w.Temperature, w.Alkalinity))
	var steps []BaseStep
	for day := 1; err == nil && w.Alkalinity < wanted; day++ {
		if err = quantity.Within("days of dosing", float64(day), 0, mostDays, "d", ofPackage); err != nil {
			break
		}
		var step BaseStep
		if step, err = baseStep(w, b, wanted, mostADay); err != nil {
			break
		}
		step.Day = day
		steps = append(steps, step)
		w.Alkalinity, w.PH = step.Alkalinity, step.PHOpen
	}
	if err != nil {
		return nil, err
	}
	return steps, nil
}

// baseStep is the largest dose that keeps within the day's limit.
func baseStep(w Water, b Base, wanted quantity.AlkalinityCaCO3, mostADay float64) (BaseStep, error) {
	rise, err := largestRise(w, b, wanted-w.Alkalinity, w.PH+quantity.PH(mostADay))
	if err != nil {
		return BaseStep{}, err
	}
	closed, open, err1 := PHAfterBase(w, b, rise)
	dose, err2 := BaseForAlkalinity(b, w.Volume, rise)
	nh3, err3 := UnionizedAmmonia(w.Ammonia, max(closed, open), w.Temperature)
	after := w.Alkalinity + rise
	if rise == wanted-w.Alkalinity {
		after = wanted // rounding must not leave crumbs for another day
	}
	return BaseStep{Dose: dose, Alkalinity: after, PHClosed: closed, PHOpen: open, Unionized: nh3}, first(err1, err2, err3)
}

// largestRise halves its way to the most alkalinity that keeps pH at or under
// the top.
func largestRise(w Water, b Base, all quantity.AlkalinityCaCO3, top quantity.PH) (quantity.AlkalinityCaCO3, error) {
	low, try := quantity.AlkalinityCaCO3(0), all
	for step := all; step > all/1e6; step /= 2 {
		closed, open, err := PHAfterBase(w, b, try)
		if err != nil {
			return quantity.AlkalinityCaCO3(nan), err
		}
		if max(closed, open) <= top {
			low = try
		}
		if low == all {
			break
		}
		try = low + step/2
	}
	return low, nil
}
