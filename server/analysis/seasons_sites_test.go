package analysis_test

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/pool"
	"freshet.example/server/servertest"
)

// yearOfWeather is what a month gives a site, in mean months, from the first compared on.
var yearOfWeather = [12]float64{0.2, 0.3, 0.5, 0.9, 1.3, 1.7, 2.1, 1.9, 1.4, 0.9, 0.5, 0.3}

// monthlySite notes feed on every day of the months it keeps a record in, and
// harvests once in each: level kg from each m2 in a mean month, as the weather has it.
func monthlySite(t *testing.T, s *servertest.Server, name string, latitude, level, areaM2 float64, keeps func(month int) bool) *raftSite {
	t.Helper()
	now := time.Now().UTC()
	r := &raftSite{t: t, p: s.Join(freshetv1.Role_ROLE_GROWER, name), today: time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, time.UTC)}
	r.site = r.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{Name: name, TimeZone: "UTC", LatitudeDegrees: latitude}}}, "name", "time_zone", "latitude_degrees")
	r.system = r.edit(&freshetv1.Edit{Record: &freshetv1.Edit_System{System: &freshetv1.System{Name: "Loop"}}}, "name")
	bed := r.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Bed{Bed: &freshetv1.Bed{Name: "Bed", Kind: freshetv1.BedKind_BED_KIND_RAFT, AreaM2: areaM2, SystemId: r.system}}}, "name", "kind", "area_m2", "system_id")
	r.planting = r.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Planting{Planting: &freshetv1.Planting{Crop: "basil", BedId: bed}}}, "crop", "bed_id")
	for month := range 12 {
		if keeps(month) {
			r.month(month, latitude, level*areaM2)
		}
	}
	r.flush()
	if _, err := r.p.Accounts.SetSharing(t.Context(), &freshetv1.SetSharingRequest{SiteId: r.site, Kind: "all", Sharing: freshetv1.Sharing_SHARING_NAMED}); err != nil {
		t.Fatal(err)
	}
	return r
}

// month enters the days and the harvest of one of the twelve months before yesterday's.
func (r *raftSite) month(month int, latitude, kg float64) {
	y, m, _ := r.today.AddDate(0, 0, -1).Date()
	first := time.Date(y, m-12+time.Month(month), 1, 0, 0, 0, 0, time.UTC)
	season := month
	if latitude < 0 {
		season = (month + 6) % 12
	}
	for on := first; on.Before(first.AddDate(0, 1, 0)); on = on.AddDate(0, 0, 1) {
		r.event(int(r.today.Sub(on).Hours()/24), 9, &freshetv1.Event{Kind: &freshetv1.Event_Feeding{Feeding: &freshetv1.Feeding{MassG: 100}}})
	}
	days := first.AddDate(0, 1, -1).Day()
	r.event(int(r.today.Sub(first.AddDate(0, 0, 14)).Hours()/24), 10, &freshetv1.Event{Kind: &freshetv1.Event_BedHarvest{BedHarvest: &freshetv1.BedHarvest{
		PlantingId: r.planting, MassG: math.Round(1000 * kg * yearOfWeather[season] * float64(days) / 30)}}})
}

func always(int) bool { return true }

// Equal sites with records of different seasons, of different lengths, and south
// of the equator, come out equal; as recorded they lie far apart. What is told
// from sums by month is what a scan of the harvests tells.
func TestSitesOfDifferentSeasonsAreSetOnOneYear(t *testing.T) {
	s := servertest.New(t)
	steward := s.Steward()
	steward.Push(t, smallestGroup(t, steward, 3))
	monthlySite(t, s, "Whole year", 45, 1, 1000, always)
	monthlySite(t, s, "Whole year, less", 45, 0.7, 20, always)
	monthlySite(t, s, "Whole year, south", -35, 1.2, 20, always)
	warm := monthlySite(t, s, "Warm half", 45, 1, 10, func(month int) bool { return month >= 4 && month < 9 })
	cold := monthlySite(t, s, "Cold half", 45, 1, 10, func(month int) bool { return month < 5 })
	monthlySite(t, s, "Three months", 45, 1, 10, func(month int) bool { return month < 3 })
	figures := func(r *raftSite) (own *freshetv1.SiteFigure, all *freshetv1.CompareSitesResponse) {
		all, err := r.p.Pool.CompareSites(t.Context(), &freshetv1.CompareSitesRequest{Measure: freshetv1.PoolMeasure_POOL_MEASURE_PRODUCE_KG_PER_M2_YEAR, SiteId: r.site})
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range all.GetSites() {
			if f.GetOwn() {
				own = f
			}
		}
		return own, all
	}
	w, all := figures(warm)
	c, _ := figures(cold)
	if w.GetMonthsCount() != 5 || c.GetMonthsCount() != 5 || len(all.GetSites()) != 5 || len(all.GetLeftOut()) != 1 {
		t.Fatalf("%v\n%v\n%v", w, c, all)
	}
	if w.GetAsRecorded().GetValue() < 2*c.GetAsRecorded().GetValue() {
		t.Errorf("as recorded %g and %g", w.GetAsRecorded().GetValue(), c.GetAsRecorded().GetValue())
	}
	if a, b := w.GetAdjusted().GetValue(), c.GetAdjusted().GetValue(); math.Abs(a/b-1) > 2e-3 { // grams are whole
		t.Errorf("of one year %g and %g", a, b)
	}
	scanned(t, s.DatabaseURL, all)
}

// scanned works the adjusted figures out from the harvests themselves.
func scanned(t *testing.T, url string, all *freshetv1.CompareSitesResponse) {
	t.Helper()
	conn, err := pgx.Connect(t.Context(), url)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close(t.Context())
	rows, err := conn.Query(t.Context(), `SELECT s.name, (extract(month FROM h.occurred_at AT TIME ZONE 'UTC')::integer + CASE WHEN s.latitude_degrees < 0 THEN 6 ELSE 0 END) % 12,
			sum(h.mass_g) / 1000 / max(b.area_m2), extract(day FROM max(date_trunc('month', h.occurred_at AT TIME ZONE 'UTC')) + interval '1 month' - interval '1 day')::float8 / 365.25
		FROM bed_harvests h JOIN sites s ON s.id = h.site_id JOIN plantings p ON p.id = h.planting_id JOIN beds b ON b.id = p.bed_id
		WHERE h.corrected_by IS NULL AND s.name <> 'Three months' GROUP BY 1, 2 ORDER BY 1, 2`)
	if err != nil {
		t.Fatal(err)
	}
	var name string
	var season int
	var kg, years float64
	at, amounts, spans := map[string]int{}, [][]float64{}, [][]float64{}
	_, err = pgx.ForEachRow(rows, []any{&name, &season, &kg, &years}, func() error {
		if _, met := at[name]; !met {
			at[name], amounts, spans = len(amounts), append(amounts, make([]float64, 12)), append(spans, make([]float64, 12))
		}
		amounts[at[name]][season], spans[at[name]][season] = kg, years
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	means := make([]float64, len(amounts))
	for i := range amounts {
		kg, years := 0.0, 0.0
		for j := range amounts[i] {
			kg, years = kg+amounts[i][j], years+spans[i][j]
		}
		means[i] = kg / years
		for j := range amounts[i] {
			amounts[i][j] /= means[i]
		}
	}
	y, err := pool.Standardise(amounts, spans)
	if err != nil || len(all.GetSites()) != len(amounts) {
		t.Fatal(err, fmt.Sprint(at))
	}
	for _, f := range all.GetSites() {
		i := at[f.GetName()]
		if want := y.Sites[i].Rate * means[i]; math.Abs(f.GetAdjusted().GetValue()/want-1) > 1e-9 {
			t.Errorf("%s: %g from sums, %g from the harvests", f.GetName(), f.GetAdjusted().GetValue(), want)
		}
	}
}
