package store_test

import (
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"freshet.example/store"
)

// How many sites the benchmark compares, over how long; make bench-pool asks for
// 1000 sites and three years: 26,304 hourly readings each.
var (
	poolSites = flag.Int("pool.sites", 5, "sites of the pool benchmark, each with hourly readings")
	poolYears = flag.Int("pool.years", 3, "years of them")
)

// The benchmark's time; it begins so many years before its end.
var (
	poolFrom time.Time
	poolTo   = time.Date(2025, 1, 1, 0, 0, 0, 0, time.UTC)
)

const waterTemperature = 1

// fillPool makes sites with a reading each hour, as probes store them: a day of
// one site after a day of another. All are shared, five are the phone's. Rows and
// their sums are made by SQL, since pushing 26 million readings takes a quarter of
// an hour; the random late
// events and corrections come by Push.
func fillPool(b *testing.B, p *phone, url string, sites int) {
	b.Helper()
	began := time.Now()
	poolFrom = poolTo.AddDate(-*poolYears, 0, 0)
	conn, err := pgx.Connect(context.Background(), url)
	if err != nil {
		b.Fatal(err)
	}
	defer conn.Close(context.Background())
	for _, statement := range []string{
		`INSERT INTO sites (id, name, time_zone) SELECT md5('site' || i)::uuid, 'Site ' || i, (ARRAY['Europe/Lisbon', 'America/Chicago', 'Pacific/Auckland', 'Asia/Kolkata'])[1 + i % 4] FROM generate_series(1, ` + fmt.Sprint(sites) + `) i`,
		"ALTER TABLE readings DROP CONSTRAINT readings_pkey",
		"DROP INDEX readings_series",
		`INSERT INTO readings (id, site_id, member_id, occurred_at, entered_at, quantity, digits, decimals, unit, basis, method, censoring, value_micro)
			SELECT md5(s.name || at)::uuid, s.id, '00000000-0000-0000-0000-000000000001', at, at, 1, 0, 0, 2, 0, 4, 0,
				(22e6 + 4e6 * sin(extract(epoch FROM at) / 5022643) + 1e6 * sin(extract(epoch FROM at) / 13751) + hashtext(s.name || at) / 2e3)::bigint
			FROM generate_series('` + poolFrom.Format(time.DateOnly) + `'::timestamptz, '` + poolTo.Format(time.DateOnly) + `'::timestamptz - interval '1 day', interval '1 day') day,
				(SELECT * FROM sites WHERE name LIKE 'Site %') s, LATERAL generate_series(day, day + interval '23 hours', interval '1 hour') at`,
		"ALTER TABLE readings ADD PRIMARY KEY (id)",
		"CREATE INDEX readings_series ON readings (site_id, quantity, occurred_at)",
		`INSERT INTO daily SELECT r.site_id, 'readings', quantity, '00000000-0000-0000-0000-000000000000', (occurred_at AT TIME ZONE time_zone)::date, count(*), sum(value_micro), min(value_micro), max(value_micro)
			FROM readings r JOIN sites s ON s.id = r.site_id GROUP BY 1, 3, 5`,
		`INSERT INTO monthly SELECT site_id, noun, quantity, subject_id, date_trunc('month', day)::date, sum(n), sum(sum_micro), min(low_micro), max(high_micro), bit_or(1 << (extract(day FROM day)::integer - 1))
			FROM daily GROUP BY 1, 2, 3, 4, 5`,
		`INSERT INTO monthly_bins SELECT r.site_id, quantity, '00000000-0000-0000-0000-000000000000', date_trunc('month', occurred_at AT TIME ZONE time_zone)::date, floor(value_micro / 500000::numeric), count(*)
			FROM readings r JOIN sites s ON s.id = r.site_id GROUP BY 1, 2, 4, 5`,
		`INSERT INTO sharings SELECT id, 'all', 2, now() - interval '1 day', '` + p.who.MemberID.String() + `' FROM sites`,
		`INSERT INTO account_sites SELECT '` + p.who.MemberID.String() + `', id FROM sites WHERE name LIKE 'Site %' ORDER BY id LIMIT 5`,
		"VACUUM ANALYZE",
	} {
		if _, err := conn.Exec(context.Background(), statement); err != nil {
			b.Fatalf("%s: %v", statement, err)
		}
	}
	size := query[string](b, url, "SELECT pg_size_pretty(pg_database_size(current_database()))")[0]
	b.Logf("%d readings of %d sites, %s, made in %s", query[int64](b, url, "SELECT count(*) FROM readings")[0], sites, size, time.Since(began).Round(time.Second))
}

// BenchmarkPool compares sites on the mean of a quantity, and on the share of
// readings within two values, over years of hourly readings: by months,
// by days, and by a scan of the readings; and stores what comes late.
func BenchmarkPool(b *testing.B) {
	p, url := cooperative(b)
	fillPool(b, p, url, *poolSites)
	sites := query[uuid.UUID](b, url, "SELECT id FROM sites WHERE name LIKE 'Site %' ORDER BY id")
	own := sites[:min(5, len(sites))]
	ctx, last := store.ForPool(p.acting()), poolTo.AddDate(0, 0, -1)
	compare := func(b *testing.B) {
		for b.Loop() {
			months, err := p.s.Months(ctx, sites, "readings", waterTemperature, poolFrom, last)
			if err != nil || len(months) < len(sites)*12**poolYears {
				b.Fatal(len(months), err)
			}
		}
	}
	within := func(b *testing.B) {
		for b.Loop() {
			months, err := p.s.MonthsWithin(ctx, spansFor(sites), waterTemperature, poolFrom, last)
			if err != nil || len(months) < len(sites)*12**poolYears {
				b.Fatal(len(months), err)
			}
		}
	}
	b.Run("means", compare)
	b.Run("shares", within)
	b.Run("late", func(b *testing.B) { comeLate(b, p, own) })
	b.Run("corrected", func(b *testing.B) { correctReadings(b, p, url, own) })
	b.Run("means-after", compare)
	b.Run("shares-after", within)
	b.Run("scan", func(b *testing.B) {
		for b.Loop() {
			scanPool(b, p, url, sites)
		}
	})
}

func spansFor(sites []uuid.UUID) []store.Span {
	spans := make([]store.Span, len(sites))
	for i, site := range sites {
		spans[i] = store.Span{SiteID: site, Low: 18, High: 26}
	}
	return spans
}

// comeLate pushes one reading of a random hour years ago, at one of the phone's sites.
func comeLate(b *testing.B, p *phone, sites []uuid.UUID) {
	r := rand.New(rand.NewPCG(1, 2))
	for b.Loop() {
		p.site = sites[r.IntN(len(sites))]
		p.push(func(push *store.Push) { push.Readings = []store.ReadingRow{randomPoolReading(r, p)} })
	}
}

func randomPoolReading(r *rand.Rand, p *phone) store.ReadingRow {
	at := poolFrom.Add(time.Duration(r.Int64N(int64(poolTo.Sub(poolFrom))))).UnixMilli()
	return store.ReadingRow{ID: p.idOf(p.next - 1), SiteID: p.site, OccurredMs: at, EnteredMs: at, Quantity: waterTemperature, Unit: 2, ValueMicro: 15e6 + r.Int64N(15e6)}
}

// correctReadings voids readings, or puts others in their place: each reckons
// the day and the month of a site anew.
func correctReadings(b *testing.B, p *phone, url string, sites []uuid.UUID) {
	r := rand.New(rand.NewPCG(3, 4))
	type target struct{ site, id uuid.UUID }
	var targets []target
	for range 2000 {
		site := sites[r.IntN(len(sites))]
		name := query[string](b, url, "SELECT name FROM sites WHERE id = $1", site)[0]
		at := poolFrom.Add(time.Duration(r.IntN(int(poolTo.Sub(poolFrom).Hours()))) * time.Hour)
		targets = append(targets, target{site, query[uuid.UUID](b, url, "SELECT md5($1 || $2::timestamptz)::uuid", name, at)[0]})
		if len(targets) == min(2000, b.N) {
			break
		}
	}
	b.ResetTimer()
	for i := range b.N {
		t := targets[i%len(targets)]
		p.site = t.site
		p.push(func(push *store.Push) {
			push.Corrections = []store.Correction{{ID: p.idOf(p.next - 1), SiteID: p.site, OccurredAt: poolTo, EnteredAt: poolTo, EventID: t.id, Words: "typing"}}
		})
	}
}

// scanPool answers from the readings themselves what Months and MonthsWithin
// answer from sums, and fails where one number differs.
func scanPool(b *testing.B, p *phone, url string, sites []uuid.UUID) {
	const sql = `SELECT concat_ws(' ', r.site_id, date_trunc('month', occurred_at AT TIME ZONE time_zone)::date, count(*), sum(value_micro)::float8::bigint,
			count(*) FILTER (WHERE value_micro >= 18000000 AND value_micro < 26000000))
		FROM readings r JOIN sites s ON s.id = r.site_id WHERE r.site_id = ANY ($1) AND quantity = 1 AND corrected_by IS NULL
		GROUP BY r.site_id, date_trunc('month', occurred_at AT TIME ZONE time_zone) ORDER BY 1`
	scanned := query[string](b, url, sql, sites)
	b.StopTimer()
	defer b.StartTimer()
	ctx, last := store.ForPool(p.acting()), poolTo
	sums, err := p.s.Months(ctx, sites, "readings", waterTemperature, poolFrom.AddDate(0, -1, 0), last)
	if err != nil {
		b.Fatal(err)
	}
	shares, err := p.s.MonthsWithin(ctx, spansFor(sites), waterTemperature, poolFrom.AddDate(0, -1, 0), last)
	if err != nil {
		b.Fatal(err)
	}
	var kept []string
	for i, m := range sums {
		kept = append(kept, fmt.Sprint(m.SiteID, " ", m.Month.Format(time.DateOnly), " ", m.Count, " ", int64(m.Micro), " ", shares[i].Within))
	}
	if slices.Sort(kept); !slices.Equal(kept, scanned) {
		b.Fatalf("%d months kept, %d scanned, and they differ", len(kept), len(scanned))
	}
}
