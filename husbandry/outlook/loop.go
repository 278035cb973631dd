package outlook

import (
	"math"

	"freshet.example/husbandry/quantity"
	"freshet.example/husbandry/water"
)

// Loop is what stays as it is while a loop is looked at.
type Loop struct {
	Litres           quantity.Litres
	Media            quantity.SquareMetres // surface on which bacteria live; 0 where it is not known
	Planted          quantity.SquareMetres
	Pressure         quantity.Atmospheres // of the air; 0 means 1
	SourceAlkalinity quantity.AlkalinityCaCO3
	SourceNitrate    quantity.NitrateN
}

// An Hour is what one hour brings to the water.
type Hour struct {
	Air     float64 // degC at the loop; NaN where nobody knows
	Warmer  float64 // K added to the air, read or foretold
	Sun     float64 // share of noon, 0 to 1
	Feed    float64 // g of nitrogen swallowed
	Fish    float64 // kg alive
	Changed float64 // L of water replaced by source water
	Still   bool    // pump and air stand
	Cleaned bool    // the filter was cleaned, nobody knows how well
	Base    float64 // alkalinity added by hand, mg/L as CaCO3
	Keep    float64 // alkalinity that somebody keeps up by more or less base, mg/L as CaCO3; 0 where nobody does
	Level   float64 // alkalinity to which this hour's base brings the water, mg/L as CaCO3
	Mends   float64 // how far base is given up to that level, 0 to 1, rather than as much as Base says
}

var (
	loopBound    = bound{"water of the loop", 1, 1e9, "L"}
	mediaBound   = bound{"surface of the filter's media", 0, 1e9, "m2"}
	plantedBound = bound{"planted area", 0, 1e7, "m2"}
	airsBound    = bound{"air pressure", 0.5, 1.1, "atm"}
	alkBound     = bound{"alkalinity", 0, 2000, "mg/L as CaCO3"}
	warmerBound  = bound{"air warmer", -40, 40, "K"}
	sunBound     = bound{"sun", 0, 1, ""}
	swallowed    = bound{"nitrogen swallowed in an hour", 0, 1e7, "g"}
	fishBound    = bound{"fish", 0, 1e6, "kg"}
	baseBound    = bound{"alkalinity added in an hour", 0, 2000, "mg/L as CaCO3"}
	mendsBound   = bound{"share of what lacks", 0, 1, ""}
	changedBound = bound{"water replaced in an hour", 0, 1e9, "L"}
)

func (l Loop) check() error {
	return firstError(loopBound.check(float64(l.Litres)), mediaBound.check(float64(l.Media)), plantedBound.check(float64(l.Planted)),
		airsBound.check(float64(l.Pressure)), alkBound.check(float64(l.SourceAlkalinity)), poolBound.check(float64(l.SourceNitrate)))
}

func (h Hour) check() error {
	if !math.IsNaN(h.Air) {
		if err := airBound.check(h.Air); err != nil {
			return err
		}
	}
	return firstError(warmerBound.check(h.Warmer), sunBound.check(h.Sun), swallowed.check(h.Feed), fishBound.check(h.Fish), changedBound.check(h.Changed), baseBound.check(h.Base), alkBound.check(h.Keep), alkBound.check(h.Level), mendsBound.check(h.Mends))
}

// tables hold what is slow to compute, by tenths of a degree from 0 to 45 degC.
type tables struct {
	full         []float64  // oxygen that water holds, mg/L
	acid         []float64  // first acidity constant of carbonic acid
	free         []float64  // and that of ammonium
	pace, breath quickening // of nitrifiers and of fish
}

const (
	tenths  = 10.0
	hottest = 45.0
)

func newTables(pressure quantity.Atmospheres) (*tables, error) {
	t := &tables{pace: newQuickening(nitrifiersPerK), breath: newQuickening(fishPerK)}
	for i := 0; i <= int(hottest*tenths); i++ {
		celsius := quantity.Celsius(float64(i) / tenths)
		full, err := water.OxygenSaturation(min(celsius, 40), 0, pressure)
		acid, other := water.PK1(celsius)
		free, third := water.PKa(celsius)
		if err := firstError(err, other, third); err != nil {
			return nil, err
		}
		t.full, t.acid, t.free = append(t.full, float64(full)), append(t.acid, acid), append(t.free, free)
	}
	return t, nil
}

// quickening is how fast something goes that grows by an even share with each
// degree, 1 at 25 degC.
type quickening struct {
	perK float64
	rows [int(hottest*tenths) + 1]float64
}

func newQuickening(perK float64) quickening {
	q := quickening{perK: perK}
	for i := range q.rows {
		q.rows[i] = math.Exp(perK * (float64(i)/tenths - warmReference))
	}
	return q
}

func (q *quickening) at(celsius float64) float64 {
	i := int(max(0, min(celsius, hottest)) * tenths)
	return q.rows[i] * power(q.perK*(celsius-float64(i)/tenths))
}

// at reads a table between its rows.
func at(table []float64, celsius float64) float64 {
	x := max(0, min(celsius, hottest)) * tenths
	i := min(int(x), len(table)-2)
	return table[i] + (x-float64(i))*(table[i+1]-table[i])
}
