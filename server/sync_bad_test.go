package server_test

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/types/known/fieldmaskpb"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
	"freshet.example/server/servertest"
)

// badCase is one operation that is not to be stored, and what is said of it.
type badCase struct {
	name, reason, field string
	op                  func(h *hand) *freshetv1.Operation
}

func feeding(change func(*freshetv1.Feeding)) func(*hand) *freshetv1.Operation {
	return func(h *hand) *freshetv1.Operation {
		f := &freshetv1.Feeding{VesselId: h.tank, MassG: 20}
		change(f)
		return h.event(&freshetv1.Event{Kind: &freshetv1.Event_Feeding{Feeding: f}})
	}
}

func reading(change func(*freshetv1.Reading)) func(*hand) *freshetv1.Operation {
	return func(h *hand) *freshetv1.Operation {
		r := &freshetv1.Reading{Quantity: freshetv1.Quantity_QUANTITY_PH, Digits: 70, Decimals: 1, Unit: freshetv1.Unit_UNIT_NONE, PlaceId: h.tank}
		change(r)
		return h.event(&freshetv1.Event{Kind: &freshetv1.Event_Reading{Reading: r}})
	}
}

func event(change func(*hand, *freshetv1.Event)) func(*hand) *freshetv1.Operation {
	return func(h *hand) *freshetv1.Operation {
		op := h.ph(70)
		change(h, op.GetEvent())
		return op
	}
}

func note(text string) func(*hand) *freshetv1.Operation {
	return func(h *hand) *freshetv1.Operation {
		return h.event(&freshetv1.Event{Kind: &freshetv1.Event_Note{Note: &freshetv1.Note{Text: text}}})
	}
}

func vessel(change func(*freshetv1.Edit)) func(*hand) *freshetv1.Operation {
	return func(h *hand) *freshetv1.Operation {
		op := h.edit(&freshetv1.Edit{SiteId: h.site, Record: &freshetv1.Edit_Vessel{Vessel: &freshetv1.Vessel{
			SystemId: h.system, Name: "New", Kind: freshetv1.VesselKind_VESSEL_KIND_SETTLER}}})
		change(op.GetEdit())
		return op
	}
}

func measured(q freshetv1.Quantity, digits int64, decimals uint32, unit freshetv1.Unit, basis freshetv1.Basis) func(*hand) *freshetv1.Operation {
	return reading(func(r *freshetv1.Reading) {
		r.Quantity, r.Digits, r.Decimals, r.Unit, r.Basis = q, digits, decimals, unit, basis
	})
}

const stranger = "6f1c0f0e-5c07-4a6e-9d0c-3c3f3a1f0d11"

func badCases() []badCase {
	return []badCase{
		{"not a number", "OUT_OF_RANGE", "event.feeding.mass_g", feeding(func(f *freshetv1.Feeding) { f.MassG = math.NaN() })},
		{"infinity", "OUT_OF_RANGE", "event.feeding.mass_g", feeding(func(f *freshetv1.Feeding) { f.MassG = math.Inf(1) })},
		{"minus infinity", "OUT_OF_RANGE", "event.feeding.left_g", feeding(func(f *freshetv1.Feeding) { f.LeftG = math.Inf(-1) })},
		{"1e308", "OUT_OF_RANGE", "event.feeding.mass_g", feeding(func(f *freshetv1.Feeding) { f.MassG = 1e308 })},
		{"negative mass", "OUT_OF_RANGE", "event.feeding.mass_g", feeding(func(f *freshetv1.Feeding) { f.MassG = -1 })},
		{"pH 15", "OUT_OF_RANGE", "event.reading.digits", reading(func(r *freshetv1.Reading) { r.Digits = 150 })},
		{"digits without end", "OUT_OF_RANGE", "event.reading.digits", reading(func(r *freshetv1.Reading) { r.Digits = math.MaxInt64 })},
		{"decimals without end", "OUT_OF_RANGE", "event.reading.decimals", reading(func(r *freshetv1.Reading) { r.Decimals = math.MaxUint32 })},
		{"-300 degrees", "OUT_OF_RANGE", "event.reading.digits",
			measured(freshetv1.Quantity_QUANTITY_WATER_TEMPERATURE, -300, 0, freshetv1.Unit_UNIT_CELSIUS, 0)},
		{"percent over 100", "OUT_OF_RANGE", "event.reading.digits",
			measured(freshetv1.Quantity_QUANTITY_HUMIDITY, 101, 0, freshetv1.Unit_UNIT_PERCENT, 0)},
		{"appetite of half a word", "OUT_OF_RANGE", "event.reading.digits",
			measured(freshetv1.Quantity_QUANTITY_APPETITE, 25, 1, freshetv1.Unit_UNIT_WORD, 0)},
		{"unknown quantity", "UNKNOWN_VALUE", "event.reading.quantity", reading(func(r *freshetv1.Reading) { r.Quantity = 999 })},
		{"unknown unit", "UNKNOWN_VALUE", "event.reading.unit", reading(func(r *freshetv1.Reading) { r.Unit = 999 })},
		{"unknown basis", "UNKNOWN_VALUE", "event.reading.basis", reading(func(r *freshetv1.Reading) { r.Basis = 999 })},
		{"unknown method", "UNKNOWN_VALUE", "event.reading.method", reading(func(r *freshetv1.Reading) { r.Method = 999 })},
		{"no quantity", "FIELD_MISSING", "event.reading.quantity", reading(func(r *freshetv1.Reading) { r.Quantity = 0 })},
		{"no unit", "FIELD_MISSING", "event.reading.unit", reading(func(r *freshetv1.Reading) { r.Unit = 0 })},
		{"unit of another quantity", "UNIT_MISMATCH", "event.reading.unit",
			measured(freshetv1.Quantity_QUANTITY_WATER_TEMPERATURE, 20, 0, freshetv1.Unit_UNIT_MG_PER_L, 0)},
		{"ammonia without basis", "BASIS_MISMATCH", "event.reading.basis",
			measured(freshetv1.Quantity_QUANTITY_TOTAL_AMMONIA, 1, 0, freshetv1.Unit_UNIT_MG_PER_L, 0)},
		{"nitrate as ammonia", "BASIS_MISMATCH", "event.reading.basis",
			measured(freshetv1.Quantity_QUANTITY_NITRATE, 1, 0, freshetv1.Unit_UNIT_MG_PER_L, freshetv1.Basis_BASIS_AS_NH3)},

		{"1970", "BAD_DATE", "event.occurred_at", event(func(_ *hand, e *freshetv1.Event) { e.OccurredAt = timestamppb.New(time.Unix(0, 0)) })},
		{"2099", "IN_THE_FUTURE", "event.occurred_at", event(func(_ *hand, e *freshetv1.Event) {
			e.OccurredAt = timestamppb.New(time.Date(2099, 1, 1, 0, 0, 0, 0, time.UTC))
		})},
		{"tomorrow", "IN_THE_FUTURE", "event.occurred_at", event(func(_ *hand, e *freshetv1.Event) { e.OccurredAt = timestamppb.New(time.Now().Add(24 * time.Hour)) })},
		{"no time", "FIELD_MISSING", "event.occurred_at", event(func(_ *hand, e *freshetv1.Event) { e.OccurredAt = nil })},
		{"a time that is none", "BAD_DATE", "event.occurred_at", event(func(_ *hand, e *freshetv1.Event) { e.OccurredAt = &timestamppb.Timestamp{Seconds: math.MinInt64} })},
		{"a second of a billion parts more", "BAD_DATE", "event.occurred_at", event(func(_ *hand, e *freshetv1.Event) { e.OccurredAt.Nanos = math.MaxInt32 })},
		{"energy that began after its end", "OUT_OF_RANGE", "event.energy.began_at", event(func(_ *hand, e *freshetv1.Event) {
			e.Kind = &freshetv1.Event_Energy{Energy: &freshetv1.Energy{EnergyKwh: 2, BeganAt: timestamppb.New(time.Now())}}
		})},

		{"a power cut that ended before it began", "OUT_OF_RANGE", "event.incident.ended_at", event(func(_ *hand, e *freshetv1.Event) {
			e.Kind = &freshetv1.Event_Incident{Incident: &freshetv1.Incident{Kind: freshetv1.IncidentKind_INCIDENT_KIND_POWER_CUT, EndedAt: timestamppb.New(e.GetOccurredAt().AsTime().Add(-time.Hour))}}
		})},

		{"long text", "TOO_LONG", "event.note.text", note(strings.Repeat("a", 10_001))},
		{"long text of wide letters", "TOO_LONG", "event.note.text", note(strings.Repeat("\u9c7c", 10_001))},
		{"control characters", "BAD_TEXT", "event.note.text", note("bell\a")},
		{"text turned around", "BAD_TEXT", "event.note.text", note("\u202egnp.exe")},
		{"a name of two lines", "BAD_TEXT", "edit.vessel.name", vessel(func(e *freshetv1.Edit) { e.GetVessel().Name = "a\nb" })},
		{"an empty note", "FIELD_MISSING", "event.note.text", note("")},
		{"a note of blanks", "FIELD_MISSING", "event.note.text", note(" \t")},
		{"half a hash", "OUT_OF_RANGE", "event.photo.sha256", event(func(_ *hand, e *freshetv1.Event) {
			e.Kind = &freshetv1.Event_Photo{Photo: &freshetv1.Photo{Sha256: make([]byte, 16), SizeBytes: 5}}
		})},

		{"a site that is none", "SITE_NOT_YOURS", "event.site_id", event(func(_ *hand, e *freshetv1.Event) { e.SiteId = stranger })},
		{"no site", "FIELD_MISSING", "event.site_id", event(func(_ *hand, e *freshetv1.Event) { e.SiteId = "" })},
		{"a site id that is none", "BAD_ID", "event.site_id", event(func(_ *hand, e *freshetv1.Event) { e.SiteId = "barn" })},
		{"an id in capitals", "BAD_ID", "event.reading.place_id", reading(func(r *freshetv1.Reading) { r.PlaceId = strings.ToUpper(stranger) })},
		{"a place that is none", "UNKNOWN_RECORD", "event.reading.place_id", reading(func(r *freshetv1.Reading) { r.PlaceId = stranger })},
		{"a place that is a cohort", "UNKNOWN_RECORD", "event.reading.place_id",
			func(h *hand) *freshetv1.Operation {
				return reading(func(r *freshetv1.Reading) { r.PlaceId = h.cohort })(h)
			}},
		{"a foreign id for a new record", "UNKNOWN_RECORD", "edit.record_id", vessel(func(e *freshetv1.Edit) { e.RecordId = stranger })},
		{"an id of another operation", "BAD_ID", "edit.record_id",
			func(h *hand) *freshetv1.Operation {
				return vessel(func(e *freshetv1.Edit) { e.RecordId = h.id(9999) })(h)
			}},
		{"an id of another kind", "UNKNOWN_RECORD", "edit.record_id",
			func(h *hand) *freshetv1.Operation { return vessel(func(e *freshetv1.Edit) { e.RecordId = h.bed })(h) }},
		{"no record id", "FIELD_MISSING", "edit.record_id", vessel(func(e *freshetv1.Edit) { e.RecordId = "" })},
		{"no fields", "FIELD_MISSING", "edit.fields", vessel(func(e *freshetv1.Edit) { e.Fields = nil })},
		{"a field that is none", "UNKNOWN_VALUE", "edit.fields", vessel(func(e *freshetv1.Edit) { e.Fields.Paths = append(e.Fields.Paths, "id") })},
		{"a new record without its name", "FIELD_MISSING", "edit.vessel.name", vessel(func(e *freshetv1.Edit) { e.Fields.Paths = []string{"system_id", "kind"} })},
		{"a name taken away", "FIELD_MISSING", "edit.vessel.name", func(h *hand) *freshetv1.Operation {
			return h.edit(&freshetv1.Edit{RecordId: h.tank, SiteId: h.site, Fields: &fieldmaskpb.FieldMask{Paths: []string{"name"}},
				Record: &freshetv1.Edit_Vessel{Vessel: &freshetv1.Vessel{}}})
		}},
		{"a vessel of no site", "FIELD_MISSING", "edit.site_id", vessel(func(e *freshetv1.Edit) { e.SiteId = "" })},
		{"a volume below nought", "OUT_OF_RANGE", "edit.vessel.volume_l", vessel(func(e *freshetv1.Edit) {
			e.GetVessel().VolumeL, e.Fields.Paths = -1, append(e.Fields.Paths, "volume_l")
		})},
		{"a flow to a place that is none", "UNKNOWN_RECORD", "edit.vessel.flows_to[1]", func(h *hand) *freshetv1.Operation {
			return vessel(func(e *freshetv1.Edit) {
				e.GetVessel().FlowsTo, e.Fields.Paths = []string{h.tank, stranger}, append(e.Fields.Paths, "flows_to")
			})(h)
		}},
		{"a species that is none", "UNKNOWN_NAME", "edit.cohort.species", func(h *hand) *freshetv1.Operation {
			return h.edit(&freshetv1.Edit{SiteId: h.site, Record: &freshetv1.Edit_Cohort{Cohort: &freshetv1.Cohort{Name: "x", Species: "unicorn", SystemId: h.system}}})
		}},
		{"a crop that is none", "UNKNOWN_NAME", "edit.planting.crop", func(h *hand) *freshetv1.Operation {
			return h.edit(&freshetv1.Edit{SiteId: h.site, Record: &freshetv1.Edit_Planting{Planting: &freshetv1.Planting{Crop: "unicorn", BedId: h.bed}}})
		}},
		{"a time zone that is none", "UNKNOWN_NAME", "edit.site.time_zone", func(h *hand) *freshetv1.Operation {
			return h.edit(&freshetv1.Edit{RecordId: h.site, Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{TimeZone: "../../etc/passwd"}}})
		}},
		{"a day that is none", "BAD_DATE", "edit.system.started_on", func(h *hand) *freshetv1.Operation {
			return h.edit(&freshetv1.Edit{RecordId: h.system, SiteId: h.site, Record: &freshetv1.Edit_System{System: &freshetv1.System{StartedOn: "2026-02-30"}}})
		}},
		{"a step of a plan in the year 3000", "BAD_DATE", "edit.plan.steps[0].on", func(h *hand) *freshetv1.Operation {
			return h.edit(&freshetv1.Edit{SiteId: h.site, Record: &freshetv1.Edit_Plan{Plan: &freshetv1.Plan{Name: "x", Steps: []*freshetv1.PlanStep{{On: "3000-01-01"}}}}})
		}},
		{"another member's settings", "ROLE_FORBIDS", "edit.record_id", func(h *hand) *freshetv1.Operation {
			return h.edit(&freshetv1.Edit{RecordId: stranger, Record: &freshetv1.Edit_Member{Member: &freshetv1.Member{DisplayName: "x"}}})
		}},
		{"the cooperative's name, by a grower", "ROLE_FORBIDS", "edit", func(h *hand) *freshetv1.Operation {
			return h.edit(&freshetv1.Edit{RecordId: stranger, Record: &freshetv1.Edit_Cooperative{Cooperative: &freshetv1.Cooperative{Name: "x"}}})
		}},
		{"removal of what is not there", "UNKNOWN_RECORD", "removal.record_id", func(h *hand) *freshetv1.Operation {
			op := h.operation()
			op.Change = &freshetv1.Operation_Removal{Removal: &freshetv1.Removal{RecordId: stranger, SiteId: h.site}}
			return op
		}},
		{"correction of what is not there", "UNKNOWN_RECORD", "event.correction.event_id", event(func(_ *hand, e *freshetv1.Event) {
			e.Kind = &freshetv1.Event_Correction{Correction: &freshetv1.Correction{EventId: stranger}}
		})},
		{"an operation that says nothing", "MALFORMED", "", func(h *hand) *freshetv1.Operation { return h.operation() }},
		{"an event that says nothing", "MALFORMED", "event", event(func(_ *hand, e *freshetv1.Event) { e.Kind = nil })},
		{"a disposition of nothing", "FIELD_MISSING", "event.disposition.crop", event(func(_ *hand, e *freshetv1.Event) {
			e.Kind = &freshetv1.Event_Disposition{Disposition: &freshetv1.Disposition{MassG: 5, Use: freshetv1.Use_USE_EATEN}}
		})},
	}
}

func TestBadInputIsRefusedWithReasonFieldAndHint(t *testing.T) {
	s := servertest.New(t)
	h := settled(t, s)
	before := rowsOf(t, s)
	for _, c := range badCases() {
		number := h.next
		op := c.op(h)
		out, err := h.try(op)
		if err != nil {
			t.Errorf("%s: the push failed: %v", c.name, err)
			h.next = number
			continue
		}
		if len(out.GetOutcomes()) != 1 || out.GetStoredCount() != 0 {
			t.Errorf("%s: %v", c.name, out)
			continue
		}
		o := out.GetOutcomes()[0]
		if o.GetNumber() != number || o.GetReason() != c.reason || o.GetField() != c.field || len(o.GetHint()) < 5 || o.GetKind() != freshetv1.OutcomeKind_OUTCOME_KIND_REFUSED {
			t.Errorf("%s: %v, want %s of %q", c.name, o, c.reason, c.field)
		}
	}
	if after := rowsOf(t, s); after != before {
		t.Errorf("rows before %s\nand after %s", before, after)
	}
	h.stores(h.ph(70)) // the server is up, and the device goes on
}

func TestHeldForReview(t *testing.T) {
	h := settled(t, servertest.New(t))
	h.stores(h.stocking(50), h.death(10))
	held := func(op *freshetv1.Operation, reason string) {
		t.Helper()
		out := h.push(op)
		if len(out.GetOutcomes()) != 1 || out.GetOutcomes()[0].GetReason() != reason || out.GetOutcomes()[0].GetKind() != freshetv1.OutcomeKind_OUTCOME_KIND_HELD_FOR_REVIEW {
			t.Errorf("%v, want %s", out, reason)
		}
	}
	held(h.death(41), "MORE_THAN_LIVED")
	h.stores(h.death(40))
	held(h.death(1), "MORE_THAN_LIVED")
	// A count shows that more lived than was known of, and is no licence for more.
	h.stores(h.event(&freshetv1.Event{Kind: &freshetv1.Event_Count{Count: &freshetv1.Count{CohortId: h.cohort, Count: 5}}}))
	h.stores(h.death(5))
	held(h.death(1), "MORE_THAN_LIVED")

	at := time.Now().AddDate(0, -3, 0)
	grown := func(e *freshetv1.Event, days int) *freshetv1.Operation {
		e.OccurredAt = timestamppb.New(at.AddDate(0, 0, days))
		return h.event(e)
	}
	sowing := func() *freshetv1.Event {
		return &freshetv1.Event{Kind: &freshetv1.Event_Sowing{Sowing: &freshetv1.Sowing{PlantingId: h.planting}}}
	}
	harvest := func() *freshetv1.Event {
		return &freshetv1.Event{Kind: &freshetv1.Event_BedHarvest{BedHarvest: &freshetv1.BedHarvest{PlantingId: h.planting, MassG: 100}}}
	}
	h.stores(grown(harvest(), 10)) // its sowing was never noted
	held(grown(sowing(), 11), "BEFORE_ITS_CAUSE")
	h.stores(grown(sowing(), 0))
	held(grown(harvest(), -1), "BEFORE_ITS_CAUSE")
	h.stores(grown(harvest(), 0), grown(harvest(), 60))
}

func TestAnotherMembersSite(t *testing.T) {
	s := servertest.New(t)
	h := settled(t, s)
	thief := newHand(t, s.Join(freshetv1.Role_ROLE_GROWER, "Rui"))
	thief.settleIn()
	own := thief.site
	before := rowsOf(t, s)
	// Their site by name; their records named from one's own site.
	for field, op := range map[string]func() *freshetv1.Operation{
		"event.site_id":            func() *freshetv1.Operation { thief.site = h.site; return thief.ph(70) },
		"edit.site_id":             func() *freshetv1.Operation { thief.site = h.site; return vessel(func(*freshetv1.Edit) {})(thief) },
		"event.reading.place_id":   func() *freshetv1.Operation { thief.tank = h.tank; return thief.ph(70) },
		"event.stocking.cohort_id": func() *freshetv1.Operation { thief.cohort = h.cohort; return thief.stocking(5) },
		"edit.record_id": func() *freshetv1.Operation {
			return thief.edit(&freshetv1.Edit{RecordId: h.site, Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{Name: "Mine"}}})
		},
	} {
		thief.site = own
		out := thief.push(op())
		if len(out.GetOutcomes()) != 1 || out.GetOutcomes()[0].GetField() != field {
			t.Errorf("%s: %v", field, out)
		}
	}
	if after := rowsOf(t, s); after != before {
		t.Errorf("rows before %s\nand after %s", before, after)
	}
}

func TestRolesBoundWhatIsEntered(t *testing.T) {
	s := servertest.New(t)
	h := settled(t, s)
	as := func(role freshetv1.Role) *hand {
		other := *h
		other.p = s.Invited(h.p, role, "Eva", h.site)
		other.install, other.next = wire.NewInstall(), 1
		return &other
	}
	helper, sensor, reader := as(freshetv1.Role_ROLE_HELPER), as(freshetv1.Role_ROLE_SENSOR), as(freshetv1.Role_ROLE_READER)
	helper.stores(helper.ph(70), helper.stocking(5))
	sensor.stores(sensor.ph(70))
	for _, c := range []struct {
		by     *hand
		op     *freshetv1.Operation
		reason string
	}{
		{sensor, sensor.stocking(5), "ROLE_FORBIDS"},
		{sensor, vessel(func(*freshetv1.Edit) {})(sensor), "ROLE_FORBIDS"},
		{helper, helper.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{Name: "New"}}}), "SITE_NOT_YOURS"},
		{helper, helper.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Feed{Feed: &freshetv1.Feed{Name: "New"}}}), "ROLE_FORBIDS"},
	} {
		out := c.by.push(c.op)
		if len(out.GetOutcomes()) != 1 || out.GetOutcomes()[0].GetReason() != c.reason {
			t.Errorf("%v by %s: %v", c.op, c.by.p.Role, out)
		}
	}
	out := reader.push(reader.ph(70))
	if len(out.GetOutcomes()) != 1 || out.GetOutcomes()[0].GetReason() != "SITE_NOT_YOURS" {
		t.Errorf("a reader's push: %v", out)
	}
}

// rowsOf counts what is in every table that growers' entries go to.
func rowsOf(t *testing.T, s *servertest.Server) string {
	t.Helper()
	var tables []string
	for _, name := range tablesOf(t, s) {
		if name != "outcomes" && name != "chronicle" && name != "installs" && name != "devices" && name != "schema_migrations" {
			tables = append(tables, "SELECT '"+name+"=' || count(*) FROM "+name)
		}
	}
	return peek[string](t, s, "SELECT string_agg(n, ' ' ORDER BY n) FROM ("+strings.Join(tables, " UNION ALL ")+") AS counts(n)")
}

func tablesOf(t *testing.T, s *servertest.Server) []string {
	t.Helper()
	return peek[[]string](t, s, "SELECT array_agg(tablename::text) FROM pg_tables WHERE schemaname = 'public'")
}

func TestNewSiteOfOnePushIsUsedInIt(t *testing.T) {
	s := servertest.New(t)
	h := newHand(t, s.Join(freshetv1.Role_ROLE_GROWER, "Tomas"))
	site := h.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{Name: "Barn", TimeZone: "Asia/Tokyo"}}})
	h.site = h.id(site.GetNumber())
	h.tank = ""
	h.stores(site, h.ph(70), h.ph(71))
	day := peek[string](t, s, "SELECT day || ' ' || n FROM daily")
	tokyo, err := time.LoadLocation("Asia/Tokyo")
	if err != nil {
		t.Fatal(err)
	}
	if want := time.Now().Add(-time.Hour).In(tokyo).Format(time.DateOnly) + " 2"; day != want {
		t.Errorf("day and count %q, want %q", day, want)
	}
	me, err := h.p.Accounts.WhoAmI(context.Background(), &freshetv1.WhoAmIRequest{})
	if err != nil || len(me.GetSiteIds()) != 1 || me.GetSiteIds()[0] != h.site {
		t.Errorf("%v, %v", me, err)
	}
	if _, err := uuid.Parse(h.site); err != nil {
		t.Error(err)
	}
}

// A cursor that no server gave, or of another history, begins the scope anew.
func TestCursorsThatNoServerGave(t *testing.T) {
	s := servertest.New(t)
	h := settled(t, s)
	scope := "site:" + h.site
	head := pull(t, h.p, &freshetv1.PullRequest{Scopes: []string{scope}}).heads[scope]
	for _, c := range []*freshetv1.Cursor{
		{Sequence: math.MaxUint64, Chain: head.GetChain()}, {Sequence: 1 << 63}, {Sequence: head.GetSequence() + 1, Chain: head.GetChain()},
		{Sequence: head.GetSequence()}, {Sequence: head.GetSequence(), Chain: make([]byte, 1000)},
	} {
		c.Scope, c.Epoch = scope, head.GetEpoch()
		got := pull(t, h.p, &freshetv1.PullRequest{Scopes: []string{scope}, Cursors: []*freshetv1.Cursor{c}})
		if !slices.Contains(got.reset, scope) || !proto.Equal(got.heads[scope], head) {
			t.Errorf("from %d: reset %v, up to %v", c.GetSequence(), got.reset, got.heads[scope])
		}
	}
}
