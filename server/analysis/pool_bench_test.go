package analysis_test

import (
	"flag"
	"fmt"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server"
	"freshet.example/server/servertest"
)

// comparedSites is how many sites the benchmark of a comparison has.
var comparedSites = flag.Int("compare.sites", 100, "sites of the comparison's benchmark, each with three years of sums")

// fillCompared makes sites with three years of sums by month, as Push keeps them:
// a quarter noted only eight months of the twelve. A comparison reads no more.
func fillCompared(b *testing.B, url string, sites int) {
	b.Helper()
	conn, err := pgx.Connect(b.Context(), url)
	if err != nil {
		b.Fatal(err)
	}
	defer conn.Close(b.Context())
	for _, statement := range []string{
		`INSERT INTO sites (id, name, time_zone, latitude_degrees) SELECT md5('site' || i)::uuid, 'Site ' || i, 'UTC', i % 120 - 60 FROM generate_series(1, ` + fmt.Sprint(sites) + `) i`,
		`INSERT INTO systems (id, site_id, name) SELECT md5('loop' || name)::uuid, id, 'Loop' FROM sites WHERE name LIKE 'Site %'`,
		`INSERT INTO vessels (id, site_id, system_id, name, volume_l) SELECT md5('tank' || name)::uuid, id, md5('loop' || name)::uuid, 'Tank', 500 + abs(hashtext(name)) % 50000 FROM sites WHERE name LIKE 'Site %'`,
		`INSERT INTO cohorts (id, site_id, system_id, name, species) SELECT md5('fish' || name)::uuid, id, md5('loop' || name)::uuid, 'Fish', (ARRAY['nile_tilapia', 'rainbow_trout', 'yellow_perch'])[1 + abs(hashtext(name)) % 3] FROM sites WHERE name LIKE 'Site %'`,
		`INSERT INTO beds (id, site_id, name, kind, area_m2, system_id, covered) SELECT md5(b || name)::uuid, id, 'Bed ' || b, 2, 3 + b, md5('loop' || name)::uuid, b % 2 = 0 FROM sites, generate_series(1, 4) b WHERE name LIKE 'Site %'`,
		`INSERT INTO plantings (id, site_id, crop, bed_id) SELECT md5('planting' || id)::uuid, site_id, 'basil', id FROM beds`,
		`INSERT INTO monthly SELECT s.id, noun, q, subject, m::date, 30, (1e9 * (1 + abs(hashtext(s.name || m || noun)) % 1000 / 500.0))::numeric, 1, 1e9, x'3fffffff'::integer
			FROM sites s, generate_series(date_trunc('month', now()) - interval '36 months', date_trunc('month', now()) - interval '1 month', interval '1 month') m,
				LATERAL (SELECT 'feedings' AS noun, 0 AS q, '00000000-0000-0000-0000-000000000000'::uuid AS subject
					UNION ALL SELECT 'readings', 1, '00000000-0000-0000-0000-000000000000' UNION ALL SELECT 'waters_in', 0, '00000000-0000-0000-0000-000000000000'
					UNION ALL SELECT 'bed_harvests', 0, p.id FROM plantings p WHERE p.site_id = s.id) k
			WHERE s.name LIKE 'Site %' AND (abs(hashtext(s.name)) % 4 > 0 OR extract(month FROM m) < 9)`,
		`UPDATE monthly SET sum_micro = 20e6 * n WHERE noun = 'readings'`,
		`INSERT INTO sharings SELECT id, 'all', 2, now() - interval '1 day', '00000000-0000-0000-0000-000000000001' FROM sites WHERE name LIKE 'Site %'`,
		"VACUUM ANALYZE",
	} {
		if _, err := conn.Exec(b.Context(), statement); err != nil {
			b.Fatalf("%s: %v", statement, err)
		}
	}
}

// BenchmarkCompare asks for the whole answer over gRPC: sites set on one year,
// pulled towards the group, ranked where they are few, and those most alike.
func BenchmarkCompare(b *testing.B) {
	s := servertest.Start(b, server.Options{})
	who := s.Join(freshetv1.Role_ROLE_GROWER, "Who asks")
	began := time.Now()
	fillCompared(b, s.DatabaseURL, *comparedSites)
	b.Logf("%d sites made in %s", *comparedSites, time.Since(began).Round(time.Second))
	for name, measure := range map[string]freshetv1.PoolMeasure{"produce": freshetv1.PoolMeasure_POOL_MEASURE_PRODUCE_KG_PER_M2_YEAR, "water": freshetv1.PoolMeasure_POOL_MEASURE_WATER_L_PER_KG} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				m, err := who.Pool.CompareSites(b.Context(), &freshetv1.CompareSitesRequest{Measure: measure})
				if err != nil || len(m.GetSites()) != *comparedSites {
					b.Fatal(len(m.GetSites()), err)
				}
			}
		})
	}
}
