package analysis_test

import (
	"math"
	"os"
	"slices"
	"testing"
	"time"

	"google.golang.org/protobuf/types/known/fieldmaskpb"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/servertest"
	"freshet.example/store/storetest"
)

func TestMain(m *testing.M) { os.Exit(storetest.Run(m)) }

// The raft system of the University of the Virgin Islands, as Rakocy, Bailey,
// Shultz and Thoman print it ("Update on tilapia and vegetable production in
// the UVI aquaponic system"): four tanks, one of them stocked every six weeks
// and harvested after twenty-four.
const (
	tankL, clarifierL, netFilterL, degasserL, raftL, sumpL, baseL = 7800, 3800, 700, 700, 11300, 600, 200

	plantM2       = 214
	growingDays   = 168
	intervalDays  = 42
	makeUpPercent = 1.5
	recordedDays  = 18 * intervalDays
)

// raftRun is one published run: a fish and what grew on its water.
type raftRun struct {
	name, species    string
	perM3            float64 // stocked
	startG, endG     float64 // mean weights; the first from SRAC publication 454, from memory
	survival, fcr    float64
	crop             string
	cropKgPerM2Year  float64
	pieces, survivor uint32
}

var raftRuns = []raftRun{
	{name: "Nile tilapia, staggered basil", species: "nile_tilapia", perM3: 77, startG: 79.2, endG: 813.8, survival: 0.983, fcr: 1.7, crop: "basil", cropKgPerM2Year: 23.4},
	{name: "Nile tilapia, batch basil", species: "nile_tilapia", perM3: 77, startG: 79.2, endG: 813.8, survival: 0.983, fcr: 1.7, crop: "basil", cropKgPerM2Year: 25.0},
	{name: "red tilapia, okra", species: "red_tilapia", perM3: 154, startG: 58.8, endG: 512.5, survival: 0.899, fcr: 1.8, crop: "okra", cropKgPerM2Year: 13.37},
}

// raftSite enters one run day by day through Push.
type raftSite struct {
	raftRun
	t        *testing.T
	p        *servertest.Person
	today    time.Time
	pending  []*freshetv1.Operation
	site     string
	system   string
	tanks    []string
	feed     string
	planting string
	cohorts  []string
}

func enterRaftSite(t *testing.T, s *servertest.Server, run raftRun) *raftSite {
	t.Helper()
	now := time.Now().UTC()
	r := &raftSite{raftRun: run, t: t, p: s.Join(freshetv1.Role_ROLE_GROWER, run.name), today: time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, time.UTC)}
	r.pieces = uint32(math.Round(run.perM3 * tankL / 1000))
	r.survivor = uint32(math.Round(float64(r.pieces) * run.survival))
	r.buildLoop()
	for ago := recordedDays; ago > 0; ago-- {
		r.day(ago)
	}
	r.flush()
	if _, err := r.p.Accounts.SetSharing(t.Context(), &freshetv1.SetSharingRequest{SiteId: r.site, Kind: "all", Sharing: freshetv1.Sharing_SHARING_NAMED}); err != nil {
		t.Fatal(err)
	}
	return r
}

func (r *raftSite) buildLoop() {
	r.site = r.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{Name: r.name, TimeZone: "UTC"}}}, "name", "time_zone")
	r.system = r.edit(&freshetv1.Edit{Record: &freshetv1.Edit_System{System: &freshetv1.System{
		Name: "Rafts", Growing: freshetv1.Growing_GROWING_RAFT, StartedOn: r.today.AddDate(-3, 0, 0).Format(time.DateOnly)}}}, "name", "growing", "started_on")
	for range 4 {
		r.tanks = append(r.tanks, r.vessel(freshetv1.VesselKind_VESSEL_KIND_FISH_TANK, tankL))
		r.blower(r.tanks[len(r.tanks)-1])
	}
	for kind, litres := range map[freshetv1.VesselKind][]float64{
		freshetv1.VesselKind_VESSEL_KIND_SETTLER:      {clarifierL, clarifierL},
		freshetv1.VesselKind_VESSEL_KIND_MEDIA_FILTER: {netFilterL, netFilterL, netFilterL, netFilterL, degasserL},
		freshetv1.VesselKind_VESSEL_KIND_BED:          slices.Repeat([]float64{raftL}, 6),
		freshetv1.VesselKind_VESSEL_KIND_PUMP_TANK:    {sumpL, baseL},
	} {
		for _, l := range litres {
			r.vessel(kind, l)
		}
	}
	bed := r.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Bed{Bed: &freshetv1.Bed{
		Name: "Rafts", Kind: freshetv1.BedKind_BED_KIND_RAFT, AreaM2: plantM2, SystemId: r.system}}}, "name", "kind", "area_m2", "system_id")
	r.planting = r.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Planting{Planting: &freshetv1.Planting{Crop: r.crop, BedId: bed, AreaM2: plantM2}}}, "crop", "bed_id", "area_m2")
	r.feed = r.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Feed{Feed: &freshetv1.Feed{Name: "32 % protein", ProteinPercent: 32}}}, "name", "protein_percent")
}

// blower hangs one of the tanks' air stones; 1.5 hp for the four, SRAC
// publication 454, from memory.
func (r *raftSite) blower(tank string) {
	const watts = 1.5 * 745.7 / 4
	r.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Equipment{Equipment: &freshetv1.Equipment{
		Name: "Air stones", Kind: freshetv1.EquipmentKind_EQUIPMENT_KIND_AERATOR, SystemId: r.system, VesselId: tank, PowerW: watts}}},
		"name", "kind", "system_id", "vessel_id", "power_w")
}

func (r *raftSite) vessel(kind freshetv1.VesselKind, litres float64) string {
	// 25 US gallons a minute through each tank: printed as a stay of 1.37 h.
	const flow = 94.6 * 60
	return r.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Vessel{Vessel: &freshetv1.Vessel{
		SystemId: r.system, Name: kind.String(), Kind: kind, VolumeL: litres, FlowLPerH: flow}}}, "system_id", "name", "kind", "volume_l", "flow_l_per_h")
}

// day enters what one day brought.
func (r *raftSite) day(ago int) {
	since := recordedDays - ago
	if since%intervalDays == 0 {
		r.stock(ago)
	}
	kgGained := (float64(r.survivor)*r.endG - float64(r.pieces)*r.startG) / 1000
	for i, cohort := range r.cohorts {
		age := since - i*intervalDays
		if age < growingDays {
			r.event(ago, 9, &freshetv1.Event{Kind: &freshetv1.Event_Feeding{Feeding: &freshetv1.Feeding{CohortId: cohort, VesselId: r.tanks[i%4], FeedId: r.feed, MassG: kgGained * r.fcr * 1000 / growingDays}}})
		}
		r.milestones(ago, age, cohort)
	}
	r.event(ago, 8, &freshetv1.Event{Kind: &freshetv1.Event_Reading{Reading: &freshetv1.Reading{
		Quantity: freshetv1.Quantity_QUANTITY_WATER_TEMPERATURE, Digits: 28, Unit: freshetv1.Unit_UNIT_CELSIUS, PlaceId: r.tanks[0]}}}) // from memory
	r.event(ago, 10, &freshetv1.Event{Kind: &freshetv1.Event_WaterIn{WaterIn: &freshetv1.WaterIn{SystemId: r.system, VolumeL: 110_000 * makeUpPercent / 100}}})
	// By the day, since whole months hold four weekly harvests or five.
	r.event(ago, 11, &freshetv1.Event{Kind: &freshetv1.Event_BedHarvest{BedHarvest: &freshetv1.BedHarvest{PlantingId: r.planting, MassG: r.cropKgPerM2Year * plantM2 / 365.25 * 1000}}})
}

// milestones are a cohort's deaths and its harvest: weights in between are not printed.
func (r *raftSite) milestones(ago, age int, cohort string) {
	switch age {
	case 1:
		r.event(ago, 12, &freshetv1.Event{Kind: &freshetv1.Event_Death{Death: &freshetv1.Death{CohortId: cohort, Count: r.pieces - r.survivor}}})
	case growingDays:
		r.event(ago, 7, &freshetv1.Event{Kind: &freshetv1.Event_FishHarvest{FishHarvest: &freshetv1.FishHarvest{CohortId: cohort, Count: r.survivor, MassG: float64(r.survivor) * r.endG}}})
	}
}

func (r *raftSite) stock(ago int) {
	id := r.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Cohort{Cohort: &freshetv1.Cohort{
		Name: r.today.AddDate(0, 0, -ago).Format("January 2006"), Species: r.species, SystemId: r.system, VesselId: r.tanks[len(r.cohorts)%4], TargetWeightG: r.endG}}},
		"name", "species", "system_id", "vessel_id", "target_weight_g")
	r.cohorts = append(r.cohorts, id)
	r.event(ago, 6, &freshetv1.Event{Kind: &freshetv1.Event_Stocking{Stocking: &freshetv1.Stocking{CohortId: id, Count: r.pieces, MassG: float64(r.pieces) * r.startG}}})
}

// edit makes a record and returns its id.
func (r *raftSite) edit(e *freshetv1.Edit, fields ...string) string {
	r.flush()
	id := r.p.NextID()
	e.RecordId, e.SiteId, e.Fields = id, r.site, &fieldmaskpb.FieldMask{Paths: fields}
	r.p.Push(r.t, &freshetv1.Operation{Change: &freshetv1.Operation_Edit{Edit: e}})
	return id
}

func (r *raftSite) event(ago, hour int, e *freshetv1.Event) {
	e.SiteId, e.OccurredAt = r.site, timestamppb.New(r.today.AddDate(0, 0, -ago).Add(time.Duration(hour)*time.Hour))
	r.pending = append(r.pending, &freshetv1.Operation{Change: &freshetv1.Operation_Event{Event: e}})
	if len(r.pending) == 500 {
		r.flush()
	}
}

func (r *raftSite) flush() {
	if len(r.pending) > 0 {
		r.p.Push(r.t, r.pending...)
		r.pending = nil
	}
}
