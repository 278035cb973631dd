package demo

import (
	"cmp"
	"iter"
	"maps"
	"math"
	"slices"
	"time"

	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
)

func sorted[V any](m map[string]V) iter.Seq2[string, V] {
	return func(yield func(string, V) bool) {
		for _, k := range slices.SortedFunc(maps.Keys(m), cmp.Compare) {
			if !yield(k, m[k]) {
				return
			}
		}
	}
}

// stock puts in the cohorts whose day has come.
func (y *year) stock(ago int) {
	for _, plan := range y.cohorts {
		if y.days-ago != plan.stockDay {
			continue
		}
		at := y.at(ago, 10, 30)
		c := &freshetv1.Cohort{
			Name: plan.name, Species: plan.species, SystemId: y.ids["system"], VesselId: y.ids["Fish tank"],
			Purpose: plan.purpose, TargetWeightG: plan.targetG,
		}
		s := &school{cohortPlan: plan, alive: plan.count, grams: plan.weightG}
		s.id = y.phone.set(at, &freshetv1.Edit{Record: &freshetv1.Edit_Cohort{Cohort: c}}, c)
		y.schools = append(y.schools, s)
		y.phone.note(at, &freshetv1.Event{Kind: &freshetv1.Event_Stocking{Stocking: &freshetv1.Stocking{
			CohortId: s.id, Count: uint32(plan.count), MassG: float64(plan.count) * plan.weightG,
		}}})
	}
}

func (y *year) feedSchool(s *school, ago int) {
	feed := math.Round(y.fed/5) * 5
	if feed <= 0 || s.alive == 0 {
		s.eatenN, s.keptN = 0, 0
		return
	}
	s.eat(feed, y.feed.ProteinPercent, y.water)
	if ago == 0 {
		return // not fed yet this morning
	}
	y.phone.note(y.at(ago, 8, 10), &freshetv1.Event{Kind: &freshetv1.Event_Feeding{Feeding: &freshetv1.Feeding{
		VesselId: y.ids["Fish tank"], CohortId: s.id, FeedId: y.ids["feed"], MassG: feed,
	}}})
}

func (y *year) deaths(ago int) {
	for _, s := range y.schools {
		n := s.losses(y.r, y.water)
		if n == 0 || ago == 0 {
			continue
		}
		y.month.death(y.at(ago, 19, 0), s, n)
		cause := freshetv1.DeathCause_DEATH_CAUSE_UNSPECIFIED
		if y.during(powerCut, ago, 14) {
			cause = freshetv1.DeathCause_DEATH_CAUSE_OXYGEN
		}
		y.phone.note(y.at(ago, 19, 0), &freshetv1.Event{Kind: &freshetv1.Event_Death{Death: &freshetv1.Death{
			CohortId: s.id, Count: uint32(n), SuspectedCause: cause,
		}}})
	}
}

// tests are the evening's drops and strips, three times a week, and each day while worried.
func (y *year) tests(ago int) {
	worried := y.water.tan > 0.9
	if ago == 0 || (ago%7 != 1 && ago%7 != 3 && ago%7 != 5 && !worried) {
		return
	}
	at := y.at(ago, 18, 20)
	y.drops(at, freshetv1.Quantity_QUANTITY_TOTAL_AMMONIA, y.water.tan, 2, y.kit.ammonia, y.kit.ammonia)
	y.drops(at.Add(6*time.Minute), freshetv1.Quantity_QUANTITY_NITRITE, y.water.nitrite, 2, freshetv1.Basis_BASIS_AS_N, freshetv1.Basis_BASIS_AS_N)
	said := y.kit.nitrate
	if y.during(nitrateAsN, ago, 18) {
		said = freshetv1.Basis_BASIS_AS_N
	}
	y.drops(at.Add(12*time.Minute), freshetv1.Quantity_QUANTITY_NITRATE, y.water.nitrate, 0, y.kit.nitrate, said)
	switch {
	case y.month != nil:
		const error = 0.1 // of drops
		y.read(at.Add(2*time.Minute), freshetv1.Quantity_QUANTITY_PH, y.water.ph+error*y.r.NormFloat64(), 1, freshetv1.Unit_UNIT_NONE, 0, freshetv1.Method_METHOD_DROPS)
	case !slices.Contains(y.probes, ph):
		y.read(at.Add(2*time.Minute), freshetv1.Quantity_QUANTITY_PH, y.water.ph, 1, freshetv1.Unit_UNIT_NONE, 0, freshetv1.Method_METHOD_DROPS)
	}
	if !slices.Contains(y.probes, water) {
		y.read(at, water, fahrenheit(y.water.celsius, y.kit.temperature), 1, y.kit.temperature, 0, freshetv1.Method_METHOD_METER)
	}
	if ago%7 == 3 && len(y.schools) > 0 {
		y.alkalinityTest(at.Add(15 * time.Minute))
		y.read(at, freshetv1.Quantity_QUANTITY_APPETITE, 1+3*y.schools[0].appetite(y.water), 0, freshetv1.Unit_UNIT_WORD, 0, freshetv1.Method_METHOD_EYE)
	}
}

// drops is a test with drops: it reads in steps, and cannot tell little from
// nothing. The kit counts by a basis, and the grower says by which.
func (y *year) drops(at time.Time, q freshetv1.Quantity, asN float64, decimals uint32, basis, said freshetv1.Basis) {
	value := asN * massOf(basis) * math.Exp(0.07*y.r.NormFloat64())
	reading := &freshetv1.Reading{Quantity: q, Unit: freshetv1.Unit_UNIT_MG_PER_L, Basis: said, Method: freshetv1.Method_METHOD_DROPS, PlaceId: y.ids["Fish tank"]}
	reading.Digits, reading.Decimals = typed(value, decimals)
	if decimals == 2 && value < 0.05 {
		reading.Digits, reading.Censoring = 5, freshetv1.Censoring_CENSORING_BELOW
	}
	y.month.test(at, reading)
	y.phone.note(at, &freshetv1.Event{Kind: &freshetv1.Event_Reading{Reading: reading}})
}

// massOf is how much heavier a nitrogen species is than its nitrogen.
func massOf(basis freshetv1.Basis) float64 {
	switch basis {
	case freshetv1.Basis_BASIS_AS_NH3:
		return 1.2159
	case freshetv1.Basis_BASIS_AS_NH4:
		return 1.2878
	case freshetv1.Basis_BASIS_AS_NO2:
		return 3.2845
	case freshetv1.Basis_BASIS_AS_NO3:
		return 4.4268
	}
	return 1
}

func fahrenheit(celsius float64, unit freshetv1.Unit) float64 {
	if unit == freshetv1.Unit_UNIT_FAHRENHEIT {
		return celsius*1.8 + 32
	}
	return celsius
}

func (y *year) alkalinityTest(at time.Time) {
	value, decimals, basis := y.water.alkalinity, uint32(0), freshetv1.Basis_BASIS_AS_CACO3
	if y.kit.alkalinity == freshetv1.Unit_UNIT_DEGREES_KH {
		value, decimals, basis = value/17.848, 1, freshetv1.Basis_BASIS_UNSPECIFIED
	}
	y.read(at, freshetv1.Quantity_QUANTITY_ALKALINITY, value, decimals, y.kit.alkalinity, basis, freshetv1.Method_METHOD_DROPS)
}

func (y *year) read(at time.Time, q freshetv1.Quantity, value float64, decimals uint32, unit freshetv1.Unit, basis freshetv1.Basis, method freshetv1.Method) {
	reading := &freshetv1.Reading{Quantity: q, Unit: unit, Basis: basis, Method: method, PlaceId: y.ids["Fish tank"]}
	reading.Digits, reading.Decimals = typed(value, decimals)
	y.month.test(at, reading)
	y.phone.note(at, &freshetv1.Event{Kind: &freshetv1.Event_Reading{Reading: reading}})
}

// weekly is top-up, solids and labour once in a week, and base every other day.
func (y *year) weekly(ago int) {
	if ago%2 == 0 && ago > 0 {
		y.base(ago, y.at(ago, 10, 10))
	}
	if ago%7 != 2 {
		return
	}
	at := y.at(ago, 9, 30)
	litres := y.water.topUp(y.site.SourceAlkalinityMgPerL, y.site.SourceNitrateMgPerL)
	y.phone.note(at, &freshetv1.Event{Kind: &freshetv1.Event_WaterIn{WaterIn: &freshetv1.WaterIn{
		VesselId: y.ids["Pump tank"], SystemId: y.ids["system"], VolumeL: math.Round(litres),
	}}})
	sludge := math.Round(y.water.fullLitres * 0.004)
	y.water.solids *= 0.3
	y.water.litres -= sludge
	y.phone.note(at.Add(20*time.Minute), &freshetv1.Event{Kind: &freshetv1.Event_SolidsOut{SolidsOut: &freshetv1.SolidsOut{
		VesselId: y.ids["Settler"], VolumeL: sludge, WentTo: "compost",
	}}})
	y.phone.note(at.Add(time.Hour), &freshetv1.Event{Kind: &freshetv1.Event_Labour{Labour: &freshetv1.Labour{
		Minutes: 60 + math.Round(2*y.water.fullLitres/1000)*15, Task: "week's round",
	}}})
}

// base brings alkalinity back up, but for the weeks in which it is forgotten.
func (y *year) base(ago int, at time.Time) {
	const wanted = 80
	if y.water.alkalinity >= wanted || y.during(phSlide, ago, 12) {
		return
	}
	grams := math.Round((wanted - y.water.alkalinity) * y.water.litres / 1000 * 2) // KHCO3, 100.1 g an equivalent
	y.water.alkalinity += grams / 2 / y.water.litres * 1000
	y.phone.note(at, &freshetv1.Event{Kind: &freshetv1.Event_Dosing{Dosing: &freshetv1.Dosing{
		VesselId: y.ids["Pump tank"], Substance: freshetv1.Substance_SUBSTANCE_POTASSIUM_BICARBONATE, MassG: grams,
	}}})
}

// monthly is weighing, the meter, and fish for the table.
func (y *year) monthly(ago int) {
	if ago%28 != 9 {
		return
	}
	at := y.at(ago, 16, 0)
	for _, s := range y.schools {
		y.weigh(s, at)
		y.harvestFish(s, at.Add(40*time.Minute))
	}
	heat := math.Max(0, y.heatTo-y.dayAirC) * y.water.fullLitres * 0.0012 * 28
	kwh := math.Round(y.vessels[0].flowLPH/60*1.4*24*28/1000 + heat)
	y.phone.note(at.Add(time.Hour), &freshetv1.Event{Kind: &freshetv1.Event_Energy{Energy: &freshetv1.Energy{
		EnergyKwh: kwh, BeganAt: timestamppb.New(at.AddDate(0, 0, -28).Add(time.Hour)),
	}}})
}

func (y *year) weigh(s *school, at time.Time) {
	if s.alive == 0 || s.purpose == sentinel {
		return
	}
	n := min(20, s.alive)
	mass := 0.0
	for range n {
		mass += s.grams * math.Exp(0.18*y.r.NormFloat64()-0.0162)
	}
	y.phone.note(at, &freshetv1.Event{Kind: &freshetv1.Event_Weighing{Weighing: &freshetv1.Weighing{
		CohortId: s.id, SampleCount: uint32(n), MassG: math.Round(mass),
	}}})
}

// harvestFish takes some once most are of the wanted size.
func (y *year) harvestFish(s *school, at time.Time) {
	if s.targetG == 0 || s.grams < s.targetG || s.alive == 0 {
		return
	}
	n := min(s.alive, 1+s.count/8)
	s.alive -= n
	mass := math.Round(float64(n) * s.grams * 1.05)
	y.phone.note(at, &freshetv1.Event{Kind: &freshetv1.Event_FishHarvest{FishHarvest: &freshetv1.FishHarvest{
		CohortId: s.id, Count: uint32(n), MassG: mass, Form: freshetv1.ProduceForm_PRODUCE_FORM_WHOLE,
	}}})
	y.phone.note(at.Add(10*time.Minute), &freshetv1.Event{Kind: &freshetv1.Event_Disposition{Disposition: &freshetv1.Disposition{
		Species: s.species, MassG: math.Round(mass * 0.6), Use: freshetv1.Use_USE_FROZEN, PiecesCount: uint32(n),
	}}})
}

// mishaps notes the troubles a grower sees.
func (y *year) mishaps(ago int) {
	for _, t := range y.trouble {
		if t.day != ago {
			continue
		}
		at := y.at(ago, 12, 0)
		switch t.kind {
		case filterCleanedTooWell:
			y.phone.note(at, &freshetv1.Event{Kind: &freshetv1.Event_Upkeep{Upkeep: &freshetv1.Upkeep{
				Kind: freshetv1.UpkeepKind_UPKEEP_KIND_FILTER_CLEANED, VesselId: y.ids["Media filter"], Words: "hosed all the gravel with tap water until it ran clear",
			}}})
		case powerCut:
			y.phone.note(at, &freshetv1.Event{Kind: &freshetv1.Event_Incident{Incident: &freshetv1.Incident{
				Kind: freshetv1.IncidentKind_INCIDENT_KIND_POWER_CUT, EndedAt: timestamppb.New(at.Add(7 * time.Hour)), Words: "ice on the line",
			}}})
		case oxygenDrift:
			y.phone.note(at.Add(time.Duration(t.hours)*time.Hour), &freshetv1.Event{Kind: &freshetv1.Event_Upkeep{Upkeep: &freshetv1.Upkeep{
				Kind: freshetv1.UpkeepKind_UPKEEP_KIND_PROBE_CALIBRATED, VesselId: y.ids["Fish tank"], Words: "new membrane on the oxygen probe",
			}}})
		}
	}
}
