package analysis_test

import (
	"context"
	"math"
	"strings"
	"testing"
	"time"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server"
	"freshet.example/server/servertest"
)

// thinSite is a site with one tank and one cohort, and what a case notes besides.
type thinSite struct {
	*raftSite
	cohort string
}

func newThinSite(t *testing.T, s *servertest.Server, name string) *thinSite {
	t.Helper()
	now := time.Now().UTC()
	m := &thinSite{raftSite: &raftSite{t: t, p: s.Join(freshetv1.Role_ROLE_GROWER, name), today: time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, time.UTC)}}
	m.site = m.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{Name: name, TimeZone: "UTC", LatitudeDegrees: 40}}}, "name", "time_zone", "latitude_degrees")
	m.system = m.edit(&freshetv1.Edit{Record: &freshetv1.Edit_System{System: &freshetv1.System{Name: "Loop", Growing: freshetv1.Growing_GROWING_MEDIA}}}, "name", "growing")
	m.tanks = []string{m.vessel(freshetv1.VesselKind_VESSEL_KIND_FISH_TANK, 1000)}
	m.cohort = m.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Cohort{Cohort: &freshetv1.Cohort{
		Name: "Perch", Species: "yellow_perch", SystemId: m.system, VesselId: m.tanks[0], TargetWeightG: 250}}}, "name", "species", "system_id", "vessel_id", "target_weight_g")
	return m
}

func (m *thinSite) stock(ago int, count uint32) {
	m.event(ago, 6, &freshetv1.Event{Kind: &freshetv1.Event_Stocking{Stocking: &freshetv1.Stocking{CohortId: m.cohort, Count: count, MassG: 20 * float64(count)}}})
}

// read notes a value in hundredths of its canonical unit.
func (m *thinSite) read(ago int, q freshetv1.Quantity, hundredths int64, censoring freshetv1.Censoring) {
	unit, basis := freshetv1.Unit_UNIT_MG_PER_L, freshetv1.Basis_BASIS_AS_N
	switch q {
	case freshetv1.Quantity_QUANTITY_PH:
		unit, basis = freshetv1.Unit_UNIT_NONE, 0
	case freshetv1.Quantity_QUANTITY_WATER_TEMPERATURE:
		unit, basis = freshetv1.Unit_UNIT_CELSIUS, 0
	case freshetv1.Quantity_QUANTITY_DISSOLVED_OXYGEN:
		basis = 0
	}
	m.event(ago, 5, &freshetv1.Event{Kind: &freshetv1.Event_Reading{Reading: &freshetv1.Reading{
		Quantity: q, Digits: hundredths, Decimals: 2, Unit: unit, Basis: basis, Censoring: censoring, PlaceId: m.tanks[0], Method: freshetv1.Method_METHOD_DROPS}}})
}

const (
	warmth = freshetv1.Quantity_QUANTITY_WATER_TEMPERATURE
	ph     = freshetv1.Quantity_QUANTITY_PH
	tan    = freshetv1.Quantity_QUANTITY_TOTAL_AMMONIA
	oxygen = freshetv1.Quantity_QUANTITY_DISSOLVED_OXYGEN
	exact  = freshetv1.Censoring_CENSORING_UNSPECIFIED
	below  = freshetv1.Censoring_CENSORING_BELOW
)

// all reads the four figures of the water.
func (m *thinSite) all(ago int, celsius, acid, ammonia, o2 int64) {
	m.read(ago, warmth, celsius, exact)
	m.read(ago, ph, acid, exact)
	m.read(ago, tan, ammonia, exact)
	m.read(ago, oxygen, o2, exact)
}

var thinRecords = map[string]func(*thinSite){
	"nothing":               func(*thinSite) {},
	"fish and nothing read": func(m *thinSite) { m.stock(30, 40) },
	"one reading":           func(m *thinSite) { m.stock(30, 40); m.read(1, tan, 20, exact) },
	"all censored": func(m *thinSite) {
		m.stock(30, 40)
		for ago := 30; ago > 0; ago -= 3 {
			m.read(ago, tan, 5, below)
		}
	},
	"all equal": func(m *thinSite) {
		m.stock(40, 40)
		for ago := 40; ago > 0; ago -= 2 {
			m.all(ago, 2000, 700, 20, 700)
		}
	},
	"all nought": func(m *thinSite) {
		m.stock(40, 40)
		for ago := 40; ago > 0; ago -= 2 {
			m.all(ago, 0, 700, 0, 0)
		}
	},
	"ten years' gap": func(m *thinSite) { m.stock(3650, 40); m.all(3650, 2000, 700, 20, 700); m.all(1, 2000, 700, 20, 700) },
	"no gap, wild as it may be": func(m *thinSite) {
		m.stock(40, 40)
		for ago := 40; ago > 0; ago -= 2 {
			m.all(ago, int64(ago%4)*1600, 200+int64(ago%3)*500, int64(ago%5)*4900, int64(ago%7)*650)
		}
	},
	"counts that contradict": func(m *thinSite) {
		m.stock(40, 40)
		for i, n := range []uint32{3, 900, 0, 40} {
			m.event(30-i, 9, &freshetv1.Event{Kind: &freshetv1.Event_Count{Count: &freshetv1.Count{CohortId: m.cohort, Count: n}}})
		}
		for i, g := range []float64{1, 9000, 2} {
			m.event(20-i, 9, &freshetv1.Event{Kind: &freshetv1.Event_Weighing{Weighing: &freshetv1.Weighing{CohortId: m.cohort, SampleCount: 1, MassG: g}}})
		}
		m.all(1, 2000, 700, 20, 700)
	},
}

// Whatever a record is, each question has an answer or a refusal that says what
// is wrong or missing, and no answer holds what is no number.
func TestThinAndOddRecordsAreAnswered(t *testing.T) {
	s := servertest.New(t)
	for name, enter := range thinRecords {
		t.Run(name, func(t *testing.T) {
			m := newThinSite(t, s, name)
			enter(m)
			m.flush()
			for question, ask := range m.questions() {
				answer, err := ask(t.Context())
				switch status.Code(err) {
				case codes.OK:
					numbers(t, question, answer.ProtoReflect())
				case codes.FailedPrecondition, codes.InvalidArgument, codes.OutOfRange:
				default:
					t.Errorf("%s: %v", question, err)
				}
			}
		})
	}
}

func (m *thinSite) questions() map[string]func(context.Context) (proto.Message, error) {
	a := m.p.Analysis
	why := func(figure string) func(context.Context) (proto.Message, error) {
		return func(ctx context.Context) (proto.Message, error) {
			return a.ExplainChange(ctx, &freshetv1.ExplainChangeRequest{SystemId: m.system, Figure: figure})
		}
	}
	return map[string]func(context.Context) (proto.Message, error){
		"morning": func(ctx context.Context) (proto.Message, error) {
			return a.GetMorning(ctx, &freshetv1.GetMorningRequest{SiteId: m.site})
		},
		"water": func(ctx context.Context) (proto.Message, error) {
			return a.DescribeWater(ctx, &freshetv1.DescribeWaterRequest{SystemId: m.system})
		},
		"why":            why(""),
		"why ph":         why("ph"),
		"why ammonia":    why("total_ammonia"),
		"why nitrate":    why("nitrate"),
		"why alkalinity": why("alkalinity"),
		"trouble": func(ctx context.Context) (proto.Message, error) {
			return a.EstimateTrouble(ctx, &freshetv1.EstimateTroubleRequest{SystemId: m.system})
		},
		"ration": func(ctx context.Context) (proto.Message, error) {
			return a.SuggestRation(ctx, &freshetv1.SuggestRationRequest{SystemId: m.system})
		},
		"budget": func(ctx context.Context) (proto.Message, error) {
			return a.GetNitrogenBudget(ctx, &freshetv1.GetNitrogenBudgetRequest{SystemId: m.system})
		},
		"limits": func(ctx context.Context) (proto.Message, error) {
			return a.GetStockingLimits(ctx, &freshetv1.GetStockingLimitsRequest{SystemId: m.system})
		},
		"ready": func(ctx context.Context) (proto.Message, error) {
			return a.ForecastFishHarvest(ctx, &freshetv1.ForecastFishHarvestRequest{SystemId: m.system})
		},
		"outlook": func(ctx context.Context) (proto.Message, error) {
			return a.GetOutlook(ctx, &freshetv1.GetOutlookRequest{SystemId: m.system, Days: 2})
		},
		"signs": func(ctx context.Context) (proto.Message, error) {
			return a.FindSigns(ctx, &freshetv1.FindSignsRequest{SystemId: m.system})
		},
		"sow": func(ctx context.Context) (proto.Message, error) {
			return a.SuggestSowing(ctx, &freshetv1.SuggestSowingRequest{SiteId: m.site})
		},
	}
}

// numbers wants every number of an answer to be one, and no sentence to say otherwise.
func numbers(t *testing.T, where string, m protoreflect.Message) {
	t.Helper()
	m.Range(func(f protoreflect.FieldDescriptor, v protoreflect.Value) bool {
		at := where + "." + string(f.Name())
		if f.IsList() {
			for i := range v.List().Len() {
				number(t, at, f, v.List().Get(i))
			}
			return true
		}
		number(t, at, f, v)
		return true
	})
}

func number(t *testing.T, at string, f protoreflect.FieldDescriptor, v protoreflect.Value) {
	t.Helper()
	switch f.Kind() {
	case protoreflect.MessageKind:
		numbers(t, at, v.Message())
	case protoreflect.DoubleKind:
		if math.IsNaN(v.Float()) || math.IsInf(v.Float(), 0) {
			t.Errorf("%s is %g", at, v.Float())
		}
	case protoreflect.StringKind:
		if strings.Contains(v.String(), "NaN") || strings.Contains(v.String(), "Inf ") {
			t.Errorf("%s: %s", at, v.String())
		}
	}
}

// One test far from forty days alike: the days to come may doubt it, and say so; they
// do not say that nothing is near its limit. A day after a test as before they do. It
// is tried over the year and round the clock, since the forecast goes by both; oxygen is
// well above its limit, for a warning of the forecast's own would come first.
func TestTheDaysToComeDoNotTakeBackAWarning(t *testing.T) {
	var now time.Time
	s := servertest.Start(t, server.Options{Now: func() time.Time { return now }})
	for hour := 0; hour < 24; hour += 5 {
		now = time.Date(2026, time.Month(1+hour/2), 20, hour, 30, 0, 0, time.UTC)
		t.Run(now.Format("2 January 15:04"), func(t *testing.T) { warnedOf(t, s, now) })
	}
}

func warnedOf(t *testing.T, s *servertest.Server, now time.Time) {
	m := standsOut(t, s, now, 850)
	if s := m.foretold(); !strings.Contains(s, "Yet no limit is likely to be passed") || !strings.Contains(s, "Test again") {
		t.Errorf("after a test of 4 mg/L: %s", s)
	}
	m.all(1, 2000, 760, 20, 850)
	m.flush()
	if s := m.foretold(); !strings.HasPrefix(s, "Nothing that was read is likely to pass its limit") {
		t.Errorf("after another test: %s", s)
	}
}

// Where the forecast warns of something else, what is not well now is told all the same.
func TestAWarningOfTheDaysToComeDoesNotHideOneOfNow(t *testing.T) {
	now := time.Date(2026, time.March, 20, 5, 30, 0, 0, time.UTC)
	s := servertest.Start(t, server.Options{Now: func() time.Time { return now }})
	says := standsOut(t, s, now, 560).foretold()
	if !strings.HasPrefix(says, "Ammonia is not safe") || !strings.Contains(says, "Oxygen may fall below") {
		t.Errorf("after a test of 4 mg/L ammonia in water of 5.6 mg/L oxygen: %s", says)
	}
}

// standsOut is a loop of so much oxygen, in hundredths of a mg/L, whose last test has 4 mg/L of ammonia.
func standsOut(t *testing.T, s *servertest.Server, now time.Time, o2 int64) *thinSite {
	m := newThinSite(t, s, "A test that stands out")
	m.today = now.Truncate(24 * time.Hour)
	m.stock(40, 40)
	for ago := 40; ago > 2; ago -= 2 {
		m.all(ago, 2000, 760, 20, o2)
	}
	m.read(2, tan, 400, exact)
	m.flush()
	return m
}

// foretold is the sentence of the next two days.
func (m *thinSite) foretold() string {
	m.t.Helper()
	o, err := m.p.Analysis.GetOutlook(m.t.Context(), &freshetv1.GetOutlookRequest{SystemId: m.system, Days: 2})
	if err != nil {
		m.t.Fatal(err)
	}
	return o.GetSentence()
}
