package demo

import (
	freshetv1 "freshet.example/api/freshet/v1"
)

// Months of record before today.
const recordDays = 425

// grower is one member with one site and one loop.
type grower struct {
	name string
	role freshetv1.Role
	seed uint64
	site *freshetv1.Site
	// Record begins this many days before today.
	days int

	climate climate
	system  *freshetv1.System
	vessels []vesselPlan
	beds    []bedPlan
	cohorts []cohortPlan
	feed    *freshetv1.Feed
	// What the household uses, kg a week.
	uses map[string]float64
	// Hourly probes; none where the grower has only hand tests.
	probes  []freshetv1.Quantity
	kit     kit
	cover   float64 // degrees that sun under cover adds at noon in high summer
	heatTo  float64 // degC that a heater keeps the water at; 0 none
	sharing freshetv1.Sharing
	trouble []trouble
}

// kit is the units and bases a grower's tests speak.
type kit struct {
	temperature freshetv1.Unit
	ammonia     freshetv1.Basis
	nitrate     freshetv1.Basis
	alkalinity  freshetv1.Unit
	volume      string // how the grower counts top-up: litres, or gallons turned into litres on the phone
}

type vesselPlan struct {
	name    string
	kind    freshetv1.VesselKind
	volumeL float64
	mediaL  float64
	ssa     float64
	flowLPH float64
}

type bedPlan struct {
	name   string
	kind   freshetv1.BedKind
	areaM2 float64
	// Crops that follow one another here.
	rotation []string
}

type cohortPlan struct {
	name     string
	species  string
	purpose  freshetv1.CohortPurpose
	count    int
	weightG  float64
	targetG  float64
	stockDay int // days after the record begins
	optimumC float64
	toleranC float64 // half-width of the temperature response, degC
	growth   float64 // gain at the optimum, g^(1/3) a day
	ration   float64 // percent of body weight a day at 100 g and the optimum
}

var (
	metric = kit{freshetv1.Unit_UNIT_CELSIUS, freshetv1.Basis_BASIS_AS_N, freshetv1.Basis_BASIS_AS_NO3, freshetv1.Unit_UNIT_MG_PER_L, "L"}
	us     = kit{freshetv1.Unit_UNIT_FAHRENHEIT, freshetv1.Basis_BASIS_AS_NH3, freshetv1.Basis_BASIS_AS_NO3, freshetv1.Unit_UNIT_PPM_CACO3, "gal"}
	german = kit{freshetv1.Unit_UNIT_CELSIUS, freshetv1.Basis_BASIS_AS_NH4, freshetv1.Basis_BASIS_AS_NO3, freshetv1.Unit_UNIT_DEGREES_KH, "L"}
)

var table, sentinel = freshetv1.CohortPurpose_COHORT_PURPOSE_TABLE, freshetv1.CohortPurpose_COHORT_PURPOSE_SENTINEL

// loopOf lists vessels in the order the water runs, sized from the fish tank.
func loopOf(tankL, mediaL, flowLPH float64) []vesselPlan {
	return []vesselPlan{
		{"Fish tank", freshetv1.VesselKind_VESSEL_KIND_FISH_TANK, tankL, 0, 0, flowLPH},
		{"Settler", freshetv1.VesselKind_VESSEL_KIND_SETTLER, tankL * 0.12, 0, 0, flowLPH},
		{"Media filter", freshetv1.VesselKind_VESSEL_KIND_MEDIA_FILTER, mediaL * 1.4, mediaL, 300, flowLPH},
		{"Pump tank", freshetv1.VesselKind_VESSEL_KIND_PUMP_TANK, tankL * 0.25, 0, 0, flowLPH},
		{"Beds", freshetv1.VesselKind_VESSEL_KIND_BED, tankL * 0.9, 0, 0, flowLPH},
		{"Return tank", freshetv1.VesselKind_VESSEL_KIND_RETURN_TANK, tankL * 0.2, 0, 0, flowLPH},
	}
}

func tilapia(name string, count int, weight float64, day int) cohortPlan {
	return cohortPlan{name, "nile_tilapia", table, count, weight, 550, day, 29, 7, 0.021, 3.2}
}

func trout(name string, count int, weight float64, day int) cohortPlan {
	return cohortPlan{name, "rainbow_trout", table, count, weight, 320, day, 15, 7, 0.0165, 2.2}
}

// cast is the cooperative: different climates, hemispheres, sizes and habits of measuring.
func cast() []grower {
	return []grower{brackenBarn(), coldwell(), saltbush(), terraceNine(), quinceYard(), lowmoor()}
}

const (
	water  = freshetv1.Quantity_QUANTITY_WATER_TEMPERATURE
	air    = freshetv1.Quantity_QUANTITY_AIR_TEMPERATURE
	ph     = freshetv1.Quantity_QUANTITY_PH
	oxygen = freshetv1.Quantity_QUANTITY_DISSOLVED_OXYGEN
	salts  = freshetv1.Quantity_QUANTITY_CONDUCTIVITY
)

// brackenBarn is a heated barn with warm-water fish and goldfish that show trouble early.
func brackenBarn() grower {
	return grower{
		name: "Maren", role: freshetv1.Role_ROLE_STEWARD, seed: 11, days: recordDays,
		site: &freshetv1.Site{
			Name: "Bracken Barn", LatitudeDegrees: 45.3, LongitudeDegrees: -89.8, ElevationM: 440, TimeZone: "America/Chicago",
			LastFrost: "05-20", FirstFrost: "09-25", SourceAlkalinityMgPerL: 140, SourceHardnessMgPerL: 160, SourceNitrateMgPerL: 1,
			SourceDisinfectant: freshetv1.Disinfectant_DISINFECTANT_NONE, HouseholdPeople: 5, Climate: "cold winters, heated barn",
		},
		climate: climate{mean: 6, swing: 16, daily: 5, restless: 3}, cover: 9, heatTo: 25.5,
		system:  &freshetv1.System{Name: "Barn loop", Growing: freshetv1.Growing_GROWING_MEDIA},
		vessels: loopOf(6000, 700, 9000),
		beds: []bedPlan{
			{"North bed 1", freshetv1.BedKind_BED_KIND_MEDIA, 6, []string{"tomato", "lettuce"}},
			{"North bed 2", freshetv1.BedKind_BED_KIND_MEDIA, 6, []string{"lettuce", "basil"}},
			{"North bed 3", freshetv1.BedKind_BED_KIND_MEDIA, 6, []string{"kale", "cucumber"}},
			{"South bed 1", freshetv1.BedKind_BED_KIND_MEDIA, 6, []string{"chard", "lettuce"}},
			{"South bed 2", freshetv1.BedKind_BED_KIND_MEDIA, 6, []string{"basil", "parsley"}},
			{"South bed 3", freshetv1.BedKind_BED_KIND_MEDIA, 6, []string{"lettuce", "lettuce", "spinach"}},
			{"South bed 4", freshetv1.BedKind_BED_KIND_MEDIA, 4, nil},
			{"Garden plot", freshetv1.BedKind_BED_KIND_SOIL, 20, []string{"tomato"}},
			{"Garden strip", freshetv1.BedKind_BED_KIND_SOIL, 10, []string{"lettuce", "kale"}},
		},
		cohorts: []cohortPlan{
			tilapia("Autumn tilapia", 170, 35, 2), tilapia("Spring tilapia", 170, 20, 205),
			{"Goldfish", "goldfish", sentinel, 12, 60, 0, 0, 22, 12, 0.003, 1.2},
		},
		feed:   &freshetv1.Feed{Name: "Floating 36", ProteinPercent: 36, PhosphorusPercent: 1.1, MoisturePercent: 9, PriceMinorPerKg: 210, Currency: "USD"},
		uses:   map[string]float64{"lettuce": 1.5, "tomato": 3, "basil": 0.3, "kale": 0.8, "cucumber": 1.5, "chard": 0.6},
		probes: []freshetv1.Quantity{water, air, ph, oxygen}, kit: us, sharing: freshetv1.Sharing_SHARING_NAMED,
		trouble: []trouble{
			{kind: filterCleanedTooWell, day: 6, hours: 24},
			{kind: powerCut, day: 150, hours: 7},
		},
	}
}

// coldwell is spring water and trout; its oxygen probe drifts.
func coldwell() grower {
	return grower{
		name: "Ottar", role: freshetv1.Role_ROLE_GROWER, seed: 23, days: recordDays,
		site: &freshetv1.Site{
			Name: "Coldwell Race", LatitudeDegrees: 57.4, LongitudeDegrees: 14.2, ElevationM: 210, TimeZone: "Europe/Stockholm",
			LastFrost: "05-25", FirstFrost: "09-15", SourceAlkalinityMgPerL: 90, SourceHardnessMgPerL: 70, SourceNitrateMgPerL: 0.6,
			SourceDisinfectant: freshetv1.Disinfectant_DISINFECTANT_NONE, HouseholdPeople: 4, Climate: "cool, long summer days",
		},
		climate: climate{mean: 6, swing: 11, daily: 4, restless: 2.5}, cover: 5, heatTo: 9.5,
		system:  &freshetv1.System{Name: "Spring loop", Growing: freshetv1.Growing_GROWING_RAFT},
		vessels: loopOf(8000, 1500, 12000),
		beds: []bedPlan{
			{"Raft A", freshetv1.BedKind_BED_KIND_RAFT, 12, []string{"lettuce"}},
			{"Raft B", freshetv1.BedKind_BED_KIND_RAFT, 12, []string{"kale", "spinach"}},
			{"Raft C", freshetv1.BedKind_BED_KIND_RAFT, 12, []string{"watercress", "chard"}},
			{"Raft D", freshetv1.BedKind_BED_KIND_RAFT, 12, []string{"parsley", "lettuce"}},
		},
		cohorts: []cohortPlan{trout("First trout", 280, 60, 3), trout("Second trout", 280, 25, 190)},
		feed:    &freshetv1.Feed{Name: "Trout 44", ProteinPercent: 44, PhosphorusPercent: 1.2, MoisturePercent: 8, PriceMinorPerKg: 2600, Currency: "SEK"},
		uses:    map[string]float64{"lettuce": 1.2, "kale": 1, "spinach": 0.6, "parsley": 0.1},
		probes:  []freshetv1.Quantity{water, air, ph, oxygen}, kit: metric, sharing: freshetv1.Sharing_SHARING_NAMED,
		trouble: []trouble{{kind: oxygenDrift, day: 70, hours: 60 * 24}},
	}
}

// saltbush is a school: nobody tests in the holidays.
func saltbush() grower {
	return grower{
		name: "Yindi", role: freshetv1.Role_ROLE_GROWER, seed: 37, days: recordDays,
		site: &freshetv1.Site{
			Name: "Saltbush Lane School", LatitudeDegrees: -34.8, LongitudeDegrees: 139.1, ElevationM: 60, TimeZone: "Australia/Adelaide",
			SourceAlkalinityMgPerL: 70, SourceHardnessMgPerL: 95, SourceNitrateMgPerL: 0.4,
			SourceDisinfectant: freshetv1.Disinfectant_DISINFECTANT_CHLORAMINE, HouseholdPeople: 30, Climate: "hot dry summers, mild winters",
		},
		climate: climate{mean: 17, swing: 7, daily: 6, restless: 2.5, south: true}, cover: 4,
		system:  &freshetv1.System{Name: "Classroom loop", Growing: freshetv1.Growing_GROWING_MIXED},
		vessels: loopOf(1500, 250, 2200),
		beds: []bedPlan{
			{"Window bed", freshetv1.BedKind_BED_KIND_MEDIA, 3, []string{"basil", "lettuce"}},
			{"Door bed", freshetv1.BedKind_BED_KIND_MEDIA, 3, []string{"lettuce", "parsley"}},
			{"Raft", freshetv1.BedKind_BED_KIND_RAFT, 4, []string{"lettuce"}},
			{"Yard bed", freshetv1.BedKind_BED_KIND_SOIL, 6, []string{"lettuce"}},
		},
		cohorts: []cohortPlan{{"Class perch", "silver_perch", table, 60, 25, 300, 4, 25, 15, 0.0115, 2.4}},
		feed:    &freshetv1.Feed{Name: "School pellets", ProteinPercent: 38, PhosphorusPercent: 1.3, MoisturePercent: 10},
		uses:    map[string]float64{"lettuce": 2, "basil": 0.2},
		probes:  []freshetv1.Quantity{water, ph}, kit: german, sharing: freshetv1.Sharing_SHARING_FIGURES,
		trouble: []trouble{{kind: holiday, day: 330, hours: 42 * 24}, {kind: holiday, day: 230, hours: 14 * 24}, {kind: holiday, day: 132, hours: 14 * 24}},
	}
}

// terraceNine is a rooftop in thin air, whose pH slides; its pepper spacings are on trial.
func terraceNine() grower {
	pepper := []string{"sweet pepper"}
	return grower{
		name: "Itzel", role: freshetv1.Role_ROLE_GROWER, seed: 41, days: recordDays,
		site: &freshetv1.Site{
			Name: "Terrace Nine", LatitudeDegrees: 19.5, LongitudeDegrees: -99.0, ElevationM: 2240, TimeZone: "America/Mexico_City",
			SourceAlkalinityMgPerL: 45, SourceHardnessMgPerL: 60, SourceNitrateMgPerL: 2,
			SourceDisinfectant: freshetv1.Disinfectant_DISINFECTANT_CHLORINE, HouseholdPeople: 6, Climate: "high, mild, strong sun",
		},
		climate: climate{mean: 17, swing: 3, daily: 7, restless: 1.5}, cover: 10, heatTo: 24.5,
		system:  &freshetv1.System{Name: "Roof loop", Growing: freshetv1.Growing_GROWING_CHANNEL},
		vessels: loopOf(3000, 420, 4500),
		beds: []bedPlan{
			{"Pepper bed 1", freshetv1.BedKind_BED_KIND_MEDIA, 2.5, pepper}, {"Pepper bed 2", freshetv1.BedKind_BED_KIND_MEDIA, 2.5, pepper},
			{"Pepper bed 3", freshetv1.BedKind_BED_KIND_MEDIA, 2.5, pepper}, {"Pepper bed 4", freshetv1.BedKind_BED_KIND_MEDIA, 2.5, pepper},
			{"Pepper bed 5", freshetv1.BedKind_BED_KIND_MEDIA, 2.5, pepper}, {"Pepper bed 6", freshetv1.BedKind_BED_KIND_MEDIA, 2.5, pepper},
			{"Channel", freshetv1.BedKind_BED_KIND_CHANNEL, 5, []string{"lettuce", "cilantro"}},
		},
		cohorts: []cohortPlan{tilapia("Roof tilapia", 120, 40, 3)},
		feed:    &freshetv1.Feed{Name: "Grower 32", ProteinPercent: 32, PhosphorusPercent: 1, MoisturePercent: 10, PriceMinorPerKg: 3800, Currency: "MXN"},
		uses:    map[string]float64{"sweet pepper": 1.5, "lettuce": 0.8, "cilantro": 0.2},
		probes:  []freshetv1.Quantity{water, air, salts}, kit: metric, sharing: freshetv1.Sharing_SHARING_NAMED,
		trouble: []trouble{{kind: phSlide, day: 60, hours: 45 * 24}},
	}
}

// quinceYard is a small yard with hand tests only.
func quinceYard() grower {
	return grower{
		name: "Dario", role: freshetv1.Role_ROLE_GROWER, seed: 53, days: recordDays,
		site: &freshetv1.Site{
			Name: "Quince Yard", LatitudeDegrees: 40.1, LongitudeDegrees: -3.4, ElevationM: 690, TimeZone: "Europe/Madrid",
			LastFrost: "04-15", FirstFrost: "11-05", SourceAlkalinityMgPerL: 110, SourceHardnessMgPerL: 140, SourceNitrateMgPerL: 3,
			SourceDisinfectant: freshetv1.Disinfectant_DISINFECTANT_CHLORINE, HouseholdPeople: 3, Climate: "hot summers, frosty nights in winter",
		},
		climate: climate{mean: 15, swing: 10, daily: 6, restless: 2}, cover: 4, heatTo: 12,
		system:  &freshetv1.System{Name: "Yard loop", Growing: freshetv1.Growing_GROWING_MEDIA},
		vessels: loopOf(1200, 260, 1800),
		beds: []bedPlan{
			{"Bed one", freshetv1.BedKind_BED_KIND_MEDIA, 2.5, []string{"tomato", "spinach"}},
			{"Bed two", freshetv1.BedKind_BED_KIND_MEDIA, 2.5, []string{"lettuce", "chard"}},
			{"Quince plot", freshetv1.BedKind_BED_KIND_SOIL, 8, []string{"tomato"}},
		},
		cohorts: []cohortPlan{{"Yard carp", "common_carp", table, 45, 90, 900, 5, 26, 16, 0.014, 2.2}},
		feed:    &freshetv1.Feed{Name: "Sinking 30", ProteinPercent: 30, PhosphorusPercent: 1, MoisturePercent: 10},
		uses:    map[string]float64{"tomato": 2, "lettuce": 0.8, "spinach": 0.4, "chard": 0.4},
		kit:     metric, sharing: freshetv1.Sharing_SHARING_FIGURES,
	}
}

// lowmoor joined seven months ago: its record is short.
func lowmoor() grower {
	return grower{
		name: "Gwen", role: freshetv1.Role_ROLE_GROWER, seed: 67, days: 210,
		site: &freshetv1.Site{
			Name: "Lowmoor Shed", LatitudeDegrees: 33.2, LongitudeDegrees: -88.6, ElevationM: 70, TimeZone: "America/Chicago",
			LastFrost: "03-25", FirstFrost: "11-05", SourceAlkalinityMgPerL: 60, SourceHardnessMgPerL: 40, SourceNitrateMgPerL: 0.5,
			SourceDisinfectant: freshetv1.Disinfectant_DISINFECTANT_CHLORAMINE, HouseholdPeople: 4, Climate: "hot humid summers, short winters",
		},
		climate: climate{mean: 18, swing: 10, daily: 6, restless: 2}, cover: 3, heatTo: 20,
		system:  &freshetv1.System{Name: "Shed loop", Growing: freshetv1.Growing_GROWING_MEDIA},
		vessels: loopOf(2500, 420, 4000),
		beds: []bedPlan{
			{"Long bed", freshetv1.BedKind_BED_KIND_MEDIA, 5, []string{"okra", "collards"}},
			{"Short bed", freshetv1.BedKind_BED_KIND_MEDIA, 3, []string{"lettuce", "basil"}},
		},
		cohorts: []cohortPlan{{"Shed catfish", "channel_catfish", table, 110, 30, 600, 2, 28, 9, 0.0165, 2.6}},
		feed:    &freshetv1.Feed{Name: "Catfish 32", ProteinPercent: 32, PhosphorusPercent: 1, MoisturePercent: 10, PriceMinorPerKg: 140, Currency: "USD"},
		uses:    map[string]float64{"okra": 1, "collards": 1, "lettuce": 0.6},
		kit:     us, sharing: freshetv1.Sharing_SHARING_FIGURES,
	}
}
