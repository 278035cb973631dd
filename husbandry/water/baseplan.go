package water

import (
	"math"

	"freshet.example/husbandry/quantity"
)

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

// Water to which base may be added: pH and alkalinity in mg/L as CaCO3.
const (
	lowestDosedPH  = 4.5
	highestDosedPH = 9
	leastDosed     = 1
	mostDosed      = 1000
)

func checkDosed(w Water) error {
	return first(
		quantity.Within("pH", float64(w.PH), lowestDosedPH, highestDosedPH, "", quantity.OwnBounds),
		quantity.Within("alkalinity", float64(w.Alkalinity), leastDosed, mostDosed, "mg/L as CaCO3", quantity.OwnBounds))
}

// PHAfterBase gives the pH after so much alkalinity was added with a base: closed,
// when no carbon dioxide is lost, and open, when it has come back to what it was
// before; pH 4.5 to 9, alkalinity 1 to 1000 mg/L, a rise of 0 to 1000 mg/L.
// Source: Plummer & Busenberg 1982.
func PHAfterBase(w Water, b Base, rise quantity.AlkalinityCaCO3) (closed, open quantity.PH, err error) {
	carbon, errCarbon := InorganicCarbon(w.PH, w.Temperature, w.Alkalinity)
	gas, errGas := CarbonDioxide(w.PH, w.Temperature, w.Alkalinity)
	if err := first(checkDosed(w), errCarbon, errGas, quantity.Within("rise of alkalinity", float64(rise), 0, mostDosed, "mg/L as CaCO3", ofPackage)); err != nil {
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
		checkCelsius(w.Temperature, 0, 50, plummer),
		checkDosed(w))
	var steps []BaseStep
	for day := 1; err == nil && w.Alkalinity < wanted; day++ {
		if err = quantity.Within("days of dosing", float64(day), 1, mostDays, "d", ofPackage); err != nil {
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
	most, err := largestRise(w, b, w.PH+quantity.PH(mostADay))
	if err != nil {
		return BaseStep{}, err
	}
	rise, after := wanted-w.Alkalinity, wanted
	if most < rise {
		rise, after = most, w.Alkalinity+most
	}
	closed, open, err1 := PHAfterBase(w, b, rise)
	dose, err2 := BaseForAlkalinity(b, w.Volume, rise)
	nh3, err3 := UnionizedAmmonia(w.Ammonia, max(closed, open), w.Temperature)
	return BaseStep{Dose: dose, Alkalinity: after, PHClosed: closed, PHOpen: open, Unionized: nh3}, first(err1, err2, err3)
}

// largestRise is the rise of alkalinity that brings either the closed or the
// open pH to the top.
func largestRise(w Water, b Base, top quantity.PH) (quantity.AlkalinityCaCO3, error) {
	carbon, err := InorganicCarbon(w.PH, w.Temperature, w.Alkalinity)
	if err != nil {
		return quantity.AlkalinityCaCO3(nan), err
	}
	c, h, eq := pureSystem(w.Temperature), hydrogen(top), equivalents(w.Alkalinity)
	gas := eq / c.alkalinityPerCO2(hydrogen(w.PH))
	rise := gas*c.alkalinityPerCO2(h) - eq // open: the gas stays
	// Closed, charge and carbon balance: eq + rise = (carbon + rise b) share + OH.
	share := c.alkalinityPerCO2(h) / c.carbonPerCO2(h)
	if slope := 1 - b.Carbon*share; slope > 0 {
		rise = math.Min(rise, (float64(carbon)/1000*share+hydroxide(w.Temperature, h)-eq)/slope)
	}
	return quantity.MilliequivalentsPerL(rise * 1000).CaCO3(), nil
}
