package store_test

import (
	"cmp"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5/pgtype"

	"freshet.example/migrations"
	"freshet.example/store"
)

// histories to try; each prints its seed where it fails.
const histories = 3

// seeded draws from a seed that is printed where the test fails.
func seeded(t *testing.T, seed uint64) *rand.Rand {
	t.Helper()
	t.Logf("seed %d", seed)
	return rand.New(rand.NewPCG(seed, 0))
}

// edit is one install's setting of some fields of a vessel.
type edit struct {
	phone  int
	ms     int64
	fields map[string]any
}

// randomEdits are in the order in which each phone made them.
func randomEdits(r *rand.Rand) []edit {
	var edits []edit
	for range 16 {
		e := edit{phone: r.IntN(3), ms: 1000 + int64(r.IntN(6)), fields: map[string]any{}}
		for _, column := range []string{"name", "media"} {
			if r.IntN(2) == 0 {
				e.fields[column] = fmt.Sprint(column, r.IntN(1000))
			}
		}
		if r.IntN(2) == 0 {
			e.fields["volume_l"] = float64(r.IntN(1000))
		}
		edits = append(edits, e)
	}
	return edits
}

// merged is what all must end with, reckoned the plain way.
func merged(edits []edit) map[string]any {
	values, set := map[string]any{}, map[string]edit{}
	for _, e := range edits {
		for column, value := range e.fields {
			before, ok := set[column]
			if !ok || e.ms > before.ms || e.ms == before.ms && e.phone >= before.phone {
				values[column], set[column] = value, e
			}
		}
	}
	return values
}

// shuffled keeps each phone's own order.
func shuffled(r *rand.Rand, edits []edit) []edit {
	queues := map[int][]edit{}
	for _, e := range edits {
		queues[e.phone] = append(queues[e.phone], e)
	}
	var order []edit
	for len(order) < len(edits) {
		if phone := r.IntN(3); len(queues[phone]) > 0 {
			order = append(order, queues[phone][0])
			queues[phone] = queues[phone][1:]
		}
	}
	return order
}

func TestFieldsMergeAlikeInAnyOrderOfArrival(t *testing.T) {
	p, url := cooperative(t)
	phones := []*phone{p.another(10), p.another(11), p.another(12)}
	for seed := range uint64(histories) {
		r := seeded(t, seed)
		edits := randomEdits(r)
		want := merged(edits)
		for range 3 {
			id := uuid.New()
			for _, e := range shuffled(r, edits) {
				phones[e.phone].push(func(push *store.Push) { push.Edits = []store.RecordEdit{e.of(id, p.site)} })
			}
			got := query[map[string]any](t, url, "SELECT jsonb_strip_nulls(jsonb_build_object('name', name, 'media', media, 'volume_l', volume_l)) FROM vessels WHERE id = $1", id)
			if fmt.Sprint(got[0]) != fmt.Sprint(want) {
				t.Fatalf("seed %d: merged to %v, want %v", seed, got[0], want)
			}
		}
	}
}

func (e edit) of(id, site uuid.UUID) store.RecordEdit {
	made := store.RecordEdit{Noun: "vessel", ID: id, SiteID: site, EnteredMs: e.ms}
	for column, value := range e.fields {
		made.Fields = append(made.Fields, store.Field{Column: column, Value: value})
	}
	return made
}

func TestSeveralEditsOfOnePushMergeLikeSeveralPushes(t *testing.T) {
	p, url := cooperative(t)
	id := uuid.New()
	p.push(func(push *store.Push) {
		for i, name := range []string{"first", "second", "third"} {
			push.Edits = append(push.Edits, store.RecordEdit{Noun: "bed", ID: id, SiteID: p.site, EnteredMs: []int64{5, 9, 9}[i],
				Fields: []store.Field{{Column: "name", Value: name}}})
		}
	})
	if got := query[string](t, url, "SELECT name FROM beds WHERE id = $1", id)[0]; got != "third" {
		t.Errorf("the bed is called %q", got)
	}
}

func TestTheEarliestRemovalHoldsAndLaterEditsDoNotRevive(t *testing.T) {
	p, url := cooperative(t)
	id := uuid.New()
	p.push(func(push *store.Push) {
		push.Edits = []store.RecordEdit{{Noun: "bed", ID: id, SiteID: p.site, EnteredMs: 1, Fields: []store.Field{{Column: "name", Value: "A"}}}}
	})
	for _, ms := range []int64{3000, 1000, 2000} {
		p.push(func(push *store.Push) {
			push.Removals = []store.RecordRemoval{{Noun: "bed", ID: id, EnteredMs: ms}}
		})
	}
	p.push(func(push *store.Push) {
		push.Edits = []store.RecordEdit{{Noun: "bed", ID: id, SiteID: p.site, EnteredMs: 9000, Fields: []store.Field{{Column: "name", Value: "B"}}}}
	})
	removed := query[time.Time](t, url, "SELECT removed_at FROM beds WHERE id = $1 AND name = 'B'", id)
	if len(removed) != 1 || removed[0].UnixMilli() != 1000 {
		t.Errorf("removed at %v, want 1 s after 1970", removed)
	}
}

// fix is a correction of the event (target -1) or of an earlier fix.
type fix struct {
	phone, target int
	entered       time.Time
	mass          float64 // of the feeding put in place; 0: void
}

func randomFixes(r *rand.Rand) []fix {
	day := time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC)
	fixes := make([]fix, 8)
	for i := range fixes {
		fixes[i] = fix{r.IntN(3), r.IntN(i+1) - 1, day.Add(time.Duration(r.IntN(5)) * time.Hour), float64(r.IntN(3) * (i + 1))}
	}
	return fixes
}

func TestCorrectionsEndAlikeInAnyOrderOfArrival(t *testing.T) {
	for seed := range uint64(histories) {
		r := seeded(t, seed)
		fixes := randomFixes(r)
		p, url := cooperative(t)
		phones := []*phone{p.another(10), p.another(11), p.another(12)}
		var first string
		for try := range 4 {
			write(t, url, "TRUNCATE feedings, corrections, daily, monthly, monthly_bins")
			got := applyFixes(t, r, fixes, p, phones, url)
			if try == 0 {
				first = got
			} else if got != first {
				t.Fatalf("seed %d: one order ends with\n%s\nanother with\n%s", seed, first, got)
			}
		}
	}
}

// applyFixes brings fixes in an order that respects each phone's own and that a
// fix follows what it fixes, and tells the end state.
func applyFixes(t *testing.T, r *rand.Rand, fixes []fix, p *phone, phones []*phone, url string) string {
	at := time.Date(2026, 2, 27, 23, 30, 0, 0, time.UTC)
	event := p.feeding(at, uuid.Nil, 100)
	p.push(func(push *store.Push) { push.Events = []store.EventRow{event} })
	ids := make([]uuid.UUID, len(fixes))
	for done := 0; done < len(fixes); {
		i := r.IntN(len(fixes))
		if !ready(fixes, ids, i) {
			continue
		}
		f, by := fixes[i], phones[fixes[i].phone]
		ids[i] = by.id()
		target := event.ID
		if f.target >= 0 {
			target = ids[f.target]
		}
		by.push(func(push *store.Push) { push.Corrections = []store.Correction{by.correction(ids[i], target, f, at)} })
		done++
	}
	checkFamily(t, url, fixes, ids)
	checkSums(t, p, url)
	end := fmt.Sprint(query[string](t, url, `SELECT id || ' ' || mass_g || ' ' || coalesce(corrected_by::text, '-') FROM feedings ORDER BY id`),
		query[string](t, url, "SELECT id || ' ' || coalesce(corrected_by::text, '-') FROM corrections ORDER BY id"))
	end = strings.ReplaceAll(end, event.ID.String(), "event")
	for i, id := range ids { // numbers go on from try to try
		end = strings.ReplaceAll(end, id.String(), fmt.Sprint("fix", i))
	}
	return end
}

func ready(fixes []fix, ids []uuid.UUID, i int) bool {
	if ids[i] != uuid.Nil || fixes[i].target >= 0 && ids[fixes[i].target] == uuid.Nil {
		return false
	}
	for j := range i { // the phone's own order
		if fixes[j].phone == fixes[i].phone && ids[j] == uuid.Nil {
			return false
		}
	}
	return true
}

// correction moves the feeding by a day for each fix, so that sums of several
// days change.
func (p *phone) correction(id, target uuid.UUID, f fix, at time.Time) store.Correction {
	c := store.Correction{ID: id, SiteID: p.site, OccurredAt: at, EnteredAt: f.entered, EventID: target, Words: "typing"}
	if f.mass > 0 {
		e := p.feeding(at.AddDate(0, 0, int(f.mass)%3), uuid.Nil, f.mass)
		e.ID = id
		c.Replacement = &e
	}
	return c
}

// checkFamily: one fix holds, and its feeding alone counts.
func checkFamily(t *testing.T, url string, fixes []fix, ids []uuid.UUID) {
	t.Helper()
	holds := 0
	for i := range fixes {
		if c := cmp.Or(fixes[i].entered.Compare(fixes[holds].entered), slices.Compare(ids[i][:], ids[holds][:])); c > 0 {
			holds = i
		}
	}
	var want []float64
	if fixes[holds].mass > 0 {
		want = []float64{fixes[holds].mass}
	}
	if got := query[float64](t, url, "SELECT mass_g FROM feedings WHERE corrected_by IS NULL"); !slices.Equal(got, want) {
		t.Errorf("feedings that count: %v, want %v", got, want)
	}
}

// scan is all that sums are made of, row by row, with the day in the site's zone.
const scan = `SELECT 'readings' AS noun, quantity, coalesce(place_id, '00000000-0000-0000-0000-000000000000') AS subject, (occurred_at AT TIME ZONE $1)::date AS day, value_micro AS micro FROM readings WHERE corrected_by IS NULL
	UNION ALL SELECT 'feedings', 0, coalesce(cohort_id, vessel_id, '00000000-0000-0000-0000-000000000000'), (occurred_at AT TIME ZONE $1)::date, ((mass_g - left_g) * 1e6)::bigint FROM feedings WHERE corrected_by IS NULL
	UNION ALL SELECT 'deaths', 0, coalesce(cohort_id, '00000000-0000-0000-0000-000000000000'), (occurred_at AT TIME ZONE $1)::date, (mass_g * 1e6)::bigint FROM deaths WHERE corrected_by IS NULL
	UNION ALL SELECT 'deaths', 1, coalesce(cohort_id, '00000000-0000-0000-0000-000000000000'), (occurred_at AT TIME ZONE $1)::date, (count::float8 * 1e6)::bigint FROM deaths WHERE corrected_by IS NULL`

// checkSums: the sums by day and month and the bins are those of a scan of all rows.
func checkSums(t *testing.T, p *phone, url string) {
	t.Helper()
	zone := query[string](t, url, "SELECT time_zone FROM sites WHERE id = $1", p.site)[0]
	for _, table := range []struct{ kept, scanned string }{
		{"SELECT concat_ws(' ', noun, quantity, subject_id, day, n, sum_micro, low_micro, high_micro) FROM daily ORDER BY 1",
			"SELECT concat_ws(' ', noun, quantity, subject, day, count(*), sum(micro), min(micro), max(micro)) FROM (" + scan + ") AS rows GROUP BY noun, quantity, subject, day ORDER BY 1"},
		{"SELECT concat_ws(' ', noun, quantity, subject_id, month, n, sum_micro, low_micro, high_micro, bit_count(days::bit(31))) FROM monthly ORDER BY 1",
			"SELECT concat_ws(' ', noun, quantity, subject, date_trunc('month', day)::date, count(*), sum(micro), min(micro), max(micro), count(DISTINCT day)) FROM (" + scan + ") AS rows GROUP BY noun, quantity, subject, date_trunc('month', day) ORDER BY 1"},
		{"SELECT concat_ws(' ', quantity, subject_id, month, bin, n) FROM monthly_bins ORDER BY 1",
			"SELECT concat_ws(' ', quantity, subject, date_trunc('month', day)::date, floor(micro / " + widths + "), count(*)) FROM (" + scan + ") AS rows WHERE noun = 'readings' GROUP BY quantity, subject, date_trunc('month', day), floor(micro / " + widths + ") ORDER BY 1"},
	} {
		kept, scanned := query[string](t, url, table.kept), query[string](t, url, table.scanned, zone)
		if !slices.Equal(kept, scanned) {
			t.Errorf("kept sums\n%q\nwant, by a scan of the rows,\n%q", kept, scanned)
		}
	}
}

// widths of the bins of the quantities that randomReadings draws: water and air
// temperature by half a kelvin, pH by a tenth.
const widths = "CASE quantity WHEN 3 THEN 100000 ELSE 500000 END::numeric"

func TestDaySumsEqualAScanOfTheRows(t *testing.T) {
	for seed := range uint64(histories) {
		p, url := cooperative(t)
		r := seeded(t, seed)
		places := []uuid.UUID{uuid.Nil, uuid.New(), uuid.New()}
		var known []store.EventRow
		for step := range 40 {
			switch {
			case step == 25:
				p.push(func(push *store.Push) {
					push.Edits = []store.RecordEdit{{Noun: "site", ID: p.site, SiteID: p.site, EnteredMs: 2,
						Fields: []store.Field{{Column: "time_zone", Value: "Pacific/Auckland"}}}}
				})
			case r.IntN(4) == 0 && len(known) > 0:
				fix := p.randomFix(r, known[r.IntN(len(known))])
				p.push(func(push *store.Push) { push.Corrections = []store.Correction{fix} })
			default:
				e := p.randomEvent(r, places)
				known = append(known, e)
				readings := p.randomReadings(r, places)
				p.push(func(push *store.Push) { push.Events, push.Readings = []store.EventRow{e}, readings })
			}
		}
		checkSums(t, p, url)
	}
}

func randomMoment(r *rand.Rand) time.Time {
	// Around the changes of summer time in both hemispheres, and the ends of months.
	days := []time.Time{time.Date(2026, 3, 28, 0, 0, 0, 0, time.UTC), time.Date(2026, 9, 26, 0, 0, 0, 0, time.UTC)}
	return days[r.IntN(2)].Add(time.Duration(r.IntN(6*24*3600)) * time.Second)
}

func (p *phone) randomEvent(r *rand.Rand, subjects []uuid.UUID) store.EventRow {
	at := randomMoment(r)
	if r.IntN(2) == 0 {
		return p.feeding(at, subjects[r.IntN(len(subjects))], r.Float64()*100)
	}
	cohort := subjects[r.IntN(len(subjects))]
	return store.EventRow{Noun: "death", ID: p.id(), SiteID: p.site, OccurredAt: at, EnteredAt: at,
		Columns: []string{"cohort_id", "count", "suspected_cause", "mass_g"},
		Values:  []any{pgtype.UUID{Bytes: cohort, Valid: cohort != uuid.Nil}, int64(r.IntN(9)), int16(0), r.Float64() * 100}}
}

// randomReadings are now few, now so many that they are copied.
func (p *phone) randomReadings(r *rand.Rand, places []uuid.UUID) []store.ReadingRow {
	rows := make([]store.ReadingRow, r.IntN(60))
	for i := range rows {
		at := randomMoment(r).UnixMilli()
		rows[i] = store.ReadingRow{ID: uuid.New(), SiteID: p.site, OccurredMs: at, EnteredMs: at, Quantity: int16(1 + r.IntN(3)),
			Digits: 1, Unit: 1, PlaceID: places[r.IntN(len(places))], ValueMicro: r.Int64N(1e9) - 5e8}
	}
	return rows
}

func (p *phone) randomFix(r *rand.Rand, of store.EventRow) store.Correction {
	c := store.Correction{ID: p.id(), SiteID: p.site, OccurredAt: of.OccurredAt, EnteredAt: time.UnixMilli(int64(r.IntN(1000))), EventID: of.ID}
	if r.IntN(2) == 0 {
		e := of
		e.ID, e.OccurredAt = c.ID, randomMoment(r)
		c.Replacement = &e
	}
	return c
}

func TestACorrectedReadingLeavesTheSums(t *testing.T) {
	p, url := cooperative(t)
	reading := p.randomReadings(rand.New(rand.NewPCG(1, 1)), []uuid.UUID{uuid.Nil})[:2]
	reading[0].ID = p.id()
	reading[0].ValueMicro, reading[1].ValueMicro = 9e9, 1
	reading[1].OccurredMs, reading[1].Quantity = reading[0].OccurredMs, reading[0].Quantity
	p.push(func(push *store.Push) { push.Readings = reading })
	id := p.id()
	p.push(func(push *store.Push) {
		push.Corrections = []store.Correction{{ID: id, SiteID: p.site, OccurredAt: time.Now(), EnteredAt: time.Now(), EventID: reading[0].ID}}
	})
	checkSums(t, p, url)
	sums, err := p.s.DaySums(p.acting(), p.site, "readings", reading[0].Quantity, time.UnixMilli(reading[0].OccurredMs).AddDate(0, 0, -2), time.Now().AddDate(1, 0, 0))
	if err != nil || len(sums) != 1 || sums[0].N != 1 || sums[0].High != 1e-6 {
		t.Errorf("%+v, %v", sums, err)
	}
}

// TestSumsByMonthAreMadeForWhatIsThere runs the step that makes the tables over
// rows that were stored before it.
func TestSumsByMonthAreMadeForWhatIsThere(t *testing.T) {
	p, url := cooperative(t)
	r := seeded(t, 5)
	places := []uuid.UUID{uuid.Nil, uuid.New()}
	for range 10 {
		e, readings := p.randomEvent(r, places), p.randomReadings(r, places)
		p.push(func(push *store.Push) { push.Events, push.Readings = []store.EventRow{e}, readings })
	}
	const makes = "0010_monthly"
	back, err := fs.Glob(migrations.Files, "*.down.sql")
	if err != nil {
		t.Fatal(err)
	}
	back = slices.DeleteFunc(back, func(step string) bool { return step < makes })
	slices.Reverse(back)
	for _, step := range append(back, makes+".up.sql") {
		sql, err := migrations.Files.ReadFile(step)
		if err != nil {
			t.Fatal(err)
		}
		write(t, url, string(sql))
	}
	checkSums(t, p, url)
}
