package demo

import "math"

// habit is how the simulator lets a crop grow; rough figures, common practice, no source.
type habit struct {
	daysToBear, bearing int
	kgPerM2             float64 // over the whole bearing, under good light
	gramsN              float64 // g N in a kg harvested with its share of leaves and roots
	warm                float64 // degC it likes
}

var habits = map[string]habit{
	"tomato": {75, 90, 9, 3.6, 24}, "lettuce": {48, 14, 3.4, 2.6, 18}, "basil": {45, 60, 4, 5, 25},
	"cucumber": {55, 50, 9, 2.4, 25}, "kale": {60, 70, 3.5, 6, 17}, "chard": {55, 90, 5, 4, 19},
	"parsley": {75, 120, 3, 5, 18}, "spinach": {42, 20, 2, 5, 15}, "watercress": {50, 80, 4, 4, 16},
	"sweet pepper": {85, 100, 6, 4, 25}, "cilantro": {45, 20, 2, 5, 18}, "okra": {60, 70, 3.2, 4, 28}, "collards": {62, 80, 3.5, 6, 18},
}

// stand is a bed with what stands in it.
type stand struct {
	bedPlan
	id       string
	next     int // of the rotation
	crop     string
	planting string
	age      float64 // days of good weather that it has grown
	thrift   float64 // this planting's luck, around 1
	spacing  float64 // 1, or more where fewer plants stand
	given    float64 // kg/m2 so far
}

func (b *stand) inLoop() bool { return b.kind != soil }

// demand is the nitrogen the stand could take this hour, g.
func (b *stand) demand(celsius, light float64) float64 {
	if b.crop == "" || !b.inLoop() {
		return 0
	}
	h := habits[b.crop]
	grown := math.Min(1, b.age/float64(h.daysToBear))
	perDay := h.kgPerM2 * h.gramsN / float64(h.daysToBear/2+h.bearing)
	return b.areaM2 * perDay * grown * grown * ease(celsius, h.warm) * light * 3.2 / 24
}

func (b *stand) bears() bool { return b.age >= float64(habits[b.crop].daysToBear) }

// grow lets a day pass: one of little light or warmth brings what does not bear yet
// hardly nearer to it.
func (b *stand) grow(celsius, light float64) {
	day := 1.0
	if !b.bears() {
		day = ease(celsius, habits[b.crop].warm) * math.Min(1, math.Max(0.05, light/0.3-0.4))
	}
	b.age += day
}

func ease(celsius, likes float64) float64 {
	off := (celsius - likes) / 16
	return math.Max(0.08, 1-off*off)
}

// picking is what the stand gives in a week, kg; light is the day's mean share of summer sun.
func (b *stand) picking(celsius, light, nitrate float64) float64 {
	h := habits[b.crop]
	if !b.bears() || b.finished() {
		return 0
	}
	fed := 1.0
	if b.inLoop() {
		fed = nitrate / (nitrate + 2.5)
	}
	week := h.kgPerM2 * 7 / float64(h.bearing)
	return b.areaM2 * week * ease(celsius, h.warm) * (0.35 + 0.9*light) * fed * b.thrift * math.Pow(b.spacing, -0.12)
}

func (b *stand) finished() bool {
	h := habits[b.crop]
	return b.age >= float64(h.daysToBear+h.bearing)
}
