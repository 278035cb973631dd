package analysis

import (
	"fmt"
	"math"
	"time"

	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/outlook"
)

// shown is one figure of the outlook.
type shown struct {
	name, title, unit string
	figure            outlook.Figure
	side              outlook.Side
	limit             float64 // NaN where there is none
	least             bool
}

// shownFigures are told of what was read in the past weeks.
func (w *coming) shownFigures() []shown {
	oxygenLow, _ := w.oxygenLimit()
	ammoniaHigh, _ := w.ammoniaLimit()
	phLow := 6.0
	if w.PHLow != nil {
		phLow = *w.PHLow
	}
	none := math.NaN()
	all := []shown{
		{"water_temperature", "Water", "degC", outlook.Warmth, outlook.Mean, none, false},
		{"oxygen_lowest", "Oxygen", "mg/L", outlook.Oxygen, outlook.Lowest, oxygenLow, true},
		{"unionized_ammonia", "Un-ionized ammonia", "mg/L as N", outlook.Unionized, outlook.Highest, ammoniaHigh, false},
		{"total_ammonia", "Ammonia", "mg/L as N", outlook.Ammonia, outlook.Mean, none, false},
		{"nitrite", "Nitrite", "mg/L as N", outlook.Nitrite, outlook.Mean, 0.3, false},
		{"nitrate", "Nitrate", "mg/L as N", outlook.Nitrate, outlook.Mean, none, false},
		{"ph", "pH", "", outlook.Acidity, outlook.Lowest, phLow, true},
		{"alkalinity", "Alkalinity", "mg/L as CaCO3", outlook.Alkalinity, outlook.Mean, none, false},
	}
	var told []shown
	for _, s := range all {
		if w.wasRead(s.figure) {
			told = append(told, s)
		}
	}
	return told
}

func (w *coming) wasRead(f outlook.Figure) bool {
	if f == outlook.Unionized {
		return w.wasRead(outlook.Ammonia) && w.wasRead(outlook.Acidity)
	}
	_, ok := w.past.read[f]
	return ok
}

func (w *coming) figures() ([]*freshetv1.OutlookFigure, error) {
	var list []*freshetv1.OutlookFigure
	for _, s := range w.shownFigures() {
		f := &freshetv1.OutlookFigure{Name: s.name, Title: s.title, Unit: s.unit, Least: s.least}
		if !math.IsNaN(s.limit) {
			f.Limit = proto.Float64(s.limit)
		}
		held, asked := w.learnt.Held(readOf(s.figure))
		f.HeldCount, f.AskedCount = uint32(held), uint32(asked) //nolint:gosec // counts of readings
		f.NarrowedBy = w.narrowedBy(s)
		for day := range w.days {
			d, err := w.day(s, day)
			if err != nil {
				return nil, err
			}
			f.Days = append(f.Days, d)
		}
		list = append(list, f)
	}
	return list, nil
}

// readOf is the figure by whose readings a forecast was tried.
func readOf(f outlook.Figure) outlook.Figure {
	if f == outlook.Unionized {
		return outlook.Ammonia
	}
	return f
}

func (w *coming) day(s shown, day int) (*freshetv1.OutlookDay, error) {
	d := &freshetv1.OutlookDay{On: w.on(day).Format(time.DateOnly)}
	var err error
	if d.Estimate, d.ChancePastLimit, err = told(w.asIs, s, day); err != nil || w.otherwise == nil {
		return d, err
	}
	d.Otherwise, d.OtherwisePastLimit, err = told(w.otherwise, s, day)
	return d, err
}

func told(a *outlook.Ahead, s shown, day int) (*freshetv1.Estimate, float64, error) {
	fan, err := a.Fan(s.figure, s.side, day, outlookLevel)
	if err != nil {
		return nil, 0, err
	}
	e := between(fan.Middle, fan.Low, fan.High, outlookLevel, s.unit)
	if math.IsNaN(s.limit) {
		return e, 0, nil
	}
	chance, err := a.Past(s.figure, day, s.limit, !s.least)
	return e, float64(chance), err
}

// tests in words, for what to read.
var testWords = map[outlook.Figure]string{
	outlook.Warmth: "a reading of the water's temperature", outlook.Ammonia: "a test of ammonia", outlook.Nitrite: "a test of nitrite",
	outlook.Nitrate: "a test of nitrate", outlook.Alkalinity: "a test of alkalinity", outlook.Acidity: "a reading of pH", outlook.Oxygen: "a reading of oxygen",
}

// narrowedBy names the reading that would narrow a figure most half way ahead;
// nothing where it would take less than a tenth away.
func (w *coming) narrowedBy(s shown) string {
	best, share, err := w.asIs.Narrowing(s.figure, s.side, (w.days-1)/2)
	if err != nil || share > 0.9 {
		return ""
	}
	return fmt.Sprintf("%s now would narrow it by about %.0f in 100", testWords[best], math.Round((1-float64(share))*10)*10)
}
