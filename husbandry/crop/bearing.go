package crop

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// A Planting is one sowing or setting out of one crop in one bed.
type Planting struct {
	Crop       string // a name of the crop table
	Planted    Day    // day of sowing, or of setting out when Transplant
	Transplant bool   // set out as a seedling, slip or clove
	Area       quantity.SquareMetres
}

// A Past is what one of the grower's own plantings of the crop did.
type Past struct {
	Transplant bool
	ToFirst    float64 // days from sowing or setting out to the first harvest; good days where a clime is known
	Bearing    float64 // days that the harvest lasted; 0 when not noted
}

// A Window is when a planting bears, and how much.
type Window struct {
	Planting Planting
	First    Day                // expected first day of harvest
	Last     Day                // expected last day of harvest
	Early    Day                // 8 in 10 plantings first bear from here
	Late     Day                // to here
	PerWeek  quantity.Kilograms // while it bears
	OwnShare quantity.Fraction  // how much of First comes from own plantings
	Basis    string             // "days", "good days" or "degree days"
}

// BearingWindow returns when the planting bears, from the days of the crop
// table drawn towards the grower's own past plantings of the crop that were
// started the same way. Where the clime is known those are good days (GoodDays),
// which pass the slower the cooler it is, and not at all while days are shorter
// than ten hours; a NeverError where a thousand days are too few. Area 0.01 to
// 100,000 m2. A crop without days for this way of planting is a NotListedError.
func BearingWindow(p Planting, past []Past, where Clime) (Window, error) {
	c, toFirst, err := p.lookUp()
	if err != nil {
		return Window{}, err
	}
	expected, err := Shrink(toFirst, ownDays(p, past, func(o Past) float64 { return o.ToFirst }))
	if err != nil {
		return Window{}, err
	}
	low, high := expected.Within80()
	w := Window{Planting: p, OwnShare: expected.Weight, Basis: "days"}
	if where.Air != nil {
		w.Basis = "good days"
	}
	for into, days := range map[*Day]float64{&w.First: expected.Mean, &w.Early: low, &w.Late: high} {
		if *into, err = where.through(c, p.Planted, math.Round(days)); err != nil {
			return Window{}, err
		}
	}
	err = w.setHarvest(c, past)
	return orNothing(w, err)
}

// A NeverError says that a crop does not come to bear where it stands.
type NeverError struct{ Crop string }

// Error reads as one sentence.
func (e *NeverError) Error() string {
	return e.Crop + " does not come to bear there: it is too cool or too dark"
}

// BearingWindowByHeat returns the same from degree days: need is the crop's
// total, weather the days from planting on, as far as they are known or
// expected. Early and Late are five days of every hundred to either side, the
// few days within which degree days usually predict (Andrews and Coop, Oregon
// State University, say "within a few days").
func BearingWindowByHeat[T Scale](p Planting, need DegreeDays[T], weather []Temperatures[T], past []Past) (Window, error) {
	c, _, err := p.lookUp()
	if err != nil {
		return Window{}, err
	}
	n, err := need.DaysFor(weather)
	if err != nil {
		return Window{}, err
	}
	days := float64(n)
	w := Window{Planting: p, Basis: "degree days"}
	w.First, w.Early, w.Late = p.after(days), p.after(days*0.95), p.after(days*1.05)
	err = w.setHarvest(c, past)
	return orNothing(w, err)
}

func (p Planting) lookUp() (Crop, Figure, error) {
	c, err := Find(p.Crop)
	if err != nil {
		return Crop{}, Figure{}, err
	}
	toFirst, way := c.FromSowing, "days from sowing"
	if p.Transplant {
		toFirst, way = c.FromTransplant, "days from setting out"
	}
	return c, toFirst, firstError(bedArea(p.Area), toFirst.orNotKnown(c.Name, way))
}

func (p Planting) after(days float64) Day { return p.Planted + Day(math.Round(math.Max(0, days))) }

// setHarvest sets how long and how much the planting bears.
func (w *Window) setHarvest(c Crop, past []Past) error {
	lasting, err := Shrink(c.Bearing, ownDays(w.Planting, past, func(o Past) float64 { return o.Bearing }))
	if err != nil {
		return err
	}
	yield, err := ExpectedYield(c.Name)
	if err != nil {
		return err
	}
	days := math.Max(1, math.Round(lasting.Mean))
	w.Last = w.First + Day(days) - 1
	// A harvest that lasts less than a week is still that week's harvest.
	weeks := math.Max(1, days/7)
	w.PerWeek = quantity.Kilograms(yield.Middle() * float64(w.Planting.Area) / weeks)
	return nil
}

func ownDays(p Planting, past []Past, days func(Past) float64) []float64 {
	own := []float64{}
	for _, o := range past {
		if o.Transplant == p.Transplant && days(o) != 0 {
			own = append(own, days(o))
		}
	}
	return own
}
