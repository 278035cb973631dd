package demo

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"
	"google.golang.org/grpc"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
	"freshet.example/server/auth"
	"freshet.example/server/servertest"
	"freshet.example/store"
	"freshet.example/store/storetest"
)

func TestMain(m *testing.M) { os.Exit(storetest.Run(m)) }

// opened is the demo in a server, as its steward sees it.
type opened struct {
	*servertest.Person
	loaded *Loaded
	sites  map[string]string
	barn   string // Bracken Barn's loop

	stranger grpc.ClientConnInterface // carries whoever's token a call has
}

func load(t testing.TB) *opened {
	t.Helper()
	s := servertest.New(t)
	code, hash := auth.NewCode()
	first := store.Invitation{CodeHash: hash, Role: store.RoleSteward, ExpiresAt: time.Now().Add(time.Hour)}
	if err := s.Store.FoundCooperative(t.Context(), uuid.New(), first); err != nil {
		t.Fatal(err)
	}
	stranger := s.Stranger().Conn
	loaded, err := Load(t.Context(), stranger, code, time.Now())
	if err != nil {
		t.Fatal(err)
	}
	o := &opened{Person: s.WithToken(loaded.Steward.token), loaded: loaded, sites: loaded.Sites, stranger: stranger}
	morning, err := o.Analysis.GetMorning(t.Context(), &freshetv1.GetMorningRequest{SiteId: o.sites["Bracken Barn"]})
	if err != nil || len(morning.GetSystems()) != 1 {
		t.Fatalf("the morning page: %v, %d loops", err, len(morning.GetSystems()))
	}
	o.barn = morning.GetSystems()[0].GetSystemId()
	return o
}

// expected are the answers that hold on whichever day the demo is made.
type expected struct {
	EventsAtLeast  int      `json:"events_at_least"`
	Why            []string `json:"why_says"`
	LargestPart    string   `json:"largest_part"`
	BudgetSays     []string `json:"budget_says"`
	MorningSays    []string `json:"morning_says"`
	NamedSites     []string `json:"named_sites"`
	ComparedSites  int      `json:"compared_sites"`
	ProduceLow     float64  `json:"produce_low_kg_per_m2_year"`
	ProduceHigh    float64  `json:"produce_high_kg_per_m2_year"`
	LimitsTold     []string `json:"limits_told"`
	ForecastCohort string   `json:"forecast_cohort"`
}

func wanted(t *testing.T) expected {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "..", "testdata", "demo", "expected.json"))
	if err != nil {
		t.Fatal(err)
	}
	var e expected
	if err := json.Unmarshal(text, &e); err != nil {
		t.Fatal(err)
	}
	return e
}

func says(t *testing.T, what, text string, words []string) {
	t.Helper()
	for _, w := range words {
		if !strings.Contains(text, w) {
			t.Errorf("%s does not say %q:\n%s", what, w, text)
		}
	}
}

func TestTheDemoAnswersAsItsStoryGoes(t *testing.T) {
	o, e := load(t), wanted(t)
	if o.loaded.Events < e.EventsAtLeast {
		t.Errorf("%d events", o.loaded.Events)
	}
	t.Run("morning", func(t *testing.T) { o.morning(t, e) })
	t.Run("why", func(t *testing.T) { o.why(t, e) })
	t.Run("budgets close", func(t *testing.T) { o.budgets(t, e) })
	t.Run("limits", func(t *testing.T) { o.limits(t, e) })
	t.Run("fish", func(t *testing.T) { o.fish(t, e) })
	t.Run("outlook", func(t *testing.T) { o.outlook(t) })
	t.Run("signs", func(t *testing.T) { o.signs(t) })
	t.Run("compare", func(t *testing.T) { o.compare(t, e) })
	t.Run("season", func(t *testing.T) { o.season(t) })
	t.Run("name", func(t *testing.T) {
		if who, err := o.Accounts.WhoAmI(t.Context(), &freshetv1.WhoAmIRequest{}); err != nil || who.GetCooperativeName() != "Six Runnels Growers" {
			t.Errorf("the cooperative is called %q, %v", who.GetCooperativeName(), err)
		}
	})
}

// The season's plan keeps to the beds, passes no bound and leaves fewer gaps than sowing every second week.
func (o *opened) season(t *testing.T) {
	m, err := o.Analysis.PlanSowing(t.Context(), &freshetv1.PlanSowingRequest{SiteId: o.sites["Bracken Barn"]})
	if err != nil {
		t.Fatal(err)
	}
	if m.GetServedWeeks() > m.GetBoundWeeks()+1e-6 || m.GetBoundWeeks() > float64(m.GetWantedWeeks())+1e-6 || m.GetServedWeeks() < 0.98*m.GetBoundWeeks() {
		t.Errorf("%g weeks served, at most %g, %d wanted", m.GetServedWeeks(), m.GetBoundWeeks(), m.GetWantedWeeks())
	}
	if len(m.GetSowings()) == 0 || m.GetGapsCount() >= m.GetPracticeGapsCount() {
		t.Errorf("%d sowings, %d gaps, by practice %d", len(m.GetSowings()), m.GetGapsCount(), m.GetPracticeGapsCount())
	}
	for _, s := range m.GetSowings() {
		if s.GetBedId() == "" || s.GetWeekOn() < m.GetFromOn() || s.GetBearsFromOn() <= s.GetWeekOn() || s.GetEndsOn() < s.GetBearsFromOn() || s.GetArea().GetValue() > 20 {
			t.Errorf("%v", s)
		}
	}
	for weeks, want := range map[uint32]bool{3: false, 4: true, 104: true, 105: false} {
		if _, err := o.Analysis.PlanSowing(t.Context(), &freshetv1.PlanSowingRequest{SiteId: o.sites["Bracken Barn"], Weeks: weeks}); (err == nil) != want {
			t.Errorf("%d weeks: %v", weeks, err)
		}
	}
}

func (o *opened) morning(t *testing.T, e expected) {
	m, err := o.Analysis.GetMorning(t.Context(), &freshetv1.GetMorningRequest{SiteId: o.sites["Bracken Barn"]})
	if err != nil {
		t.Fatal(err)
	}
	var text strings.Builder
	for _, task := range m.GetSystems()[0].GetTasks() {
		text.WriteString(task.GetSentence() + "\n")
	}
	says(t, "the morning page", text.String(), e.MorningSays)
}

// The planted week shows in the sentence that explains the rise, and the
// shares add up to the change.
func (o *opened) why(t *testing.T, e expected) {
	m, err := o.Analysis.ExplainChange(t.Context(), &freshetv1.ExplainChangeRequest{SystemId: o.barn})
	if err != nil {
		t.Fatal(err)
	}
	says(t, "why", m.GetSentence(), e.Why)
	sum, largest := 0.0, m.GetParts()[0]
	for _, p := range m.GetParts() {
		sum += p.GetShare()
		if p.GetShare() > largest.GetShare() {
			largest = p
		}
	}
	if change := m.GetAfter().GetEstimate().GetValue() - m.GetBefore().GetEstimate().GetValue(); !near(sum, change, 1e-12) {
		t.Errorf("shares sum to %g of a change of %g", sum, change)
	}
	if largest.GetInput() != e.LargestPart {
		t.Errorf("most of it is said to come with %s", largest.GetInput())
	}
}

func near(a, b, within float64) bool { return a-b <= within && b-a <= within }

func (o *opened) budgets(t *testing.T, e expected) {
	b, err := o.Analysis.GetNitrogenBudget(t.Context(), &freshetv1.GetNitrogenBudgetRequest{SystemId: o.barn})
	if err != nil {
		t.Fatal(err)
	}
	says(t, "the budget", b.GetSentence(), e.BudgetSays)
	for name, site := range o.sites {
		own := o.loaded.Growers[name].Context(t.Context())
		conn := freshetv1.NewAnalysisServiceClient(o.stranger)
		m, err := conn.GetMorning(own, &freshetv1.GetMorningRequest{SiteId: site})
		if err != nil || len(m.GetSystems()) == 0 {
			t.Errorf("%s: %v, %d loops", name, err, len(m.GetSystems()))
			continue
		}
		for _, system := range m.GetSystems() {
			b, err := conn.GetNitrogenBudget(own, &freshetv1.GetNitrogenBudgetRequest{SystemId: system.GetSystemId()})
			if err != nil {
				t.Errorf("%s: %v", name, err)
				continue
			}
			closes(t, name, b)
		}
	}
}

// closes wants a budget without a rest, whose unaccounted part has a name and an interval.
func closes(t *testing.T, name string, b *freshetv1.GetNitrogenBudgetResponse) {
	t.Helper()
	left := 0.0
	for _, l := range b.GetIn() {
		left += l.GetNitrogen().GetValue()
	}
	for _, l := range append(b.GetOut(), b.GetUnaccounted()) {
		left -= l.GetNitrogen().GetValue()
	}
	if !near(left, 0, 1e-6) || !near(b.GetClosureG(), 0, 1e-6) {
		t.Errorf("%s: the budget is open by %g g, and says %g", name, left, b.GetClosureG())
	}
	if u := b.GetUnaccounted(); u.GetWords() == "" || u.GetNitrogen().GetLow() >= u.GetNitrogen().GetHigh() {
		t.Errorf("%s: the unaccounted part has no name or no interval: %v", name, u)
	}
	t.Logf("%s: %s", name, b.GetSentence())
}

func (o *opened) limits(t *testing.T, e expected) {
	m, err := o.Analysis.GetStockingLimits(t.Context(), &freshetv1.GetStockingLimitsRequest{SystemId: o.barn})
	if err != nil {
		t.Fatal(err)
	}
	told, binding := map[string]float64{}, ""
	for _, l := range m.GetLimits() {
		told[l.GetName()] = l.GetFeed().GetValue()
		if l.GetBinding() {
			binding = l.GetName()
		}
	}
	for _, name := range e.LimitsTold {
		if told[name] <= 0 || told[name] < told[binding] {
			t.Errorf("limit %s is %g g a day, the binding one (%s) %g", name, told[name], binding, told[binding])
		}
	}
}

func (o *opened) fish(t *testing.T, e expected) {
	m, err := o.Analysis.ForecastFishHarvest(t.Context(), &freshetv1.ForecastFishHarvestRequest{SystemId: o.barn})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range m.GetForecasts() {
		if f.GetCohortName() != e.ForecastCohort {
			continue
		}
		if f.GetEarliestOn() >= f.GetMiddleOn() || f.GetMiddleOn() >= f.GetLatestOn() || f.GetEarliestOn() <= time.Now().Format(time.DateOnly) {
			t.Errorf("%s: %s, %s, %s", f.GetCohortName(), f.GetEarliestOn(), f.GetMiddleOn(), f.GetLatestOn())
		}
		return
	}
	t.Errorf("nothing is forecast of %s: %v", e.ForecastCohort, m)
}

// Sites that share figures only are counted and not named.
func (o *opened) compare(t *testing.T, e expected) {
	m, err := o.Pool.CompareSites(t.Context(), &freshetv1.CompareSitesRequest{
		Measure: freshetv1.PoolMeasure_POOL_MEASURE_PRODUCE_KG_PER_M2_YEAR, SiteId: o.sites["Bracken Barn"],
	})
	if err != nil {
		t.Fatal(err)
	}
	named := map[string]bool{}
	for _, s := range m.GetSites() {
		if s.GetSiteId() != "" {
			named[s.GetName()] = true
		}
		if s.GetPulled().GetLow() >= s.GetPulled().GetValue() || s.GetRankLow() > s.GetRankHigh() {
			t.Errorf("%s: %v, rank %d to %d", s.GetName(), s.GetPulled(), s.GetRankLow(), s.GetRankHigh())
		}
	}
	if len(m.GetSites()) != e.ComparedSites || len(named) != len(e.NamedSites) {
		t.Errorf("%d sites are compared, named are %v", len(m.GetSites()), named)
	}
	for _, name := range e.NamedSites {
		if !named[name] {
			t.Errorf("%s is not named", name)
		}
	}
	if len(m.GetClaims()) != 1 || m.GetDefinitionVersion() != 3 || m.GetOwnSoil() == nil {
		t.Errorf("claims %v, definition version %d, soil %v", m.GetClaims(), m.GetDefinitionVersion(), m.GetOwnSoil())
	}
	if g := m.GetGroup().GetValue(); g < e.ProduceLow || g > e.ProduceHigh {
		t.Errorf("the group's mean is %g kg/m2 a year", g)
	}
}

// Another member's site answers nobody who was not let in.
func TestOthersSitesStayClosed(t *testing.T) {
	o := load(t)
	_, err := o.Analysis.GetLarder(t.Context(), &freshetv1.GetLarderRequest{SiteId: o.sites["Coldwell Race"]})
	if err == nil {
		t.Error("a site that shares figures in comparisons opened its larder")
	}
}

// The story is the same each time, down to every operation.
func TestTheStoryRepeats(t *testing.T) {
	today := time.Date(2026, 6, 10, 0, 0, 0, 0, time.UTC)
	for i := range cast() {
		first, second := cast()[i], cast()[i]
		a, _, _, err := first.live(today)
		if err != nil {
			t.Fatal(err)
		}
		b, _, _, err := second.live(today)
		if err != nil {
			t.Fatal(err)
		}
		if len(a) != len(b) || a[len(a)-1].String() != b[len(b)-1].String() {
			t.Errorf("%s lives two lives", first.name)
		}
	}
}

// On whichever day the demo is made, every loop was fed in the four weeks before,
// so that its nitrogen can be reckoned.
func TestEveryLoopIsFedInEverySeason(t *testing.T) {
	for month := time.January; month <= time.December; month++ {
		today := time.Date(2027, month, 15, 0, 0, 0, 0, time.UTC)
		for _, g := range cast() {
			pushes, _, _, err := g.live(today)
			if err != nil {
				t.Fatal(err)
			}
			fed := 0
			for _, push := range pushes {
				for _, op := range push.GetOperations() {
					if e := op.GetEvent(); e.GetFeeding() != nil && e.GetOccurredAt().AsTime().After(today.AddDate(0, 0, -28)) {
						fed++
					}
				}
			}
			if fed < 5 {
				t.Errorf("%s in %v: fed %d times in four weeks", g.name, month, fed)
			}
		}
	}
}

// Nothing happened later than now, at whichever hour the demo is made.
func TestNothingIsNotedAheadOfNow(t *testing.T) {
	midnight := time.Date(2026, 3, 29, 0, 0, 0, 0, time.UTC)
	for i, g := range cast() {
		now := midnight.Add(time.Duration(4*i) * time.Hour)
		phone, gateway, _, err := g.live(now)
		if err != nil {
			t.Fatal(err)
		}
		last := latest(t, append(phone, gateway...))
		if last.After(now) || now.Sub(last) > 30*time.Hour {
			t.Errorf("%s notes until %v, and now is %v", g.name, last, now)
		}
	}
}

func latest(t *testing.T, pushes []*freshetv1.PushRequest) time.Time {
	t.Helper()
	var last int64
	for _, p := range pushes {
		for _, op := range p.GetOperations() {
			last = max(last, op.GetNoted().GetWallMs())
		}
		for _, columns := range p.GetReadings() {
			err := wire.EachReading(columns, func(r *wire.ReadingRow) error {
				last = max(last, r.OccurredMs)
				return nil
			})
			if err != nil {
				t.Fatal(err)
			}
		}
	}
	return time.UnixMilli(last)
}
