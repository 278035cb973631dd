package server_test

import (
	"slices"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/servertest"
)

// barrierDown takes row security off every table of a server's database: all
// else is as it was.
func barrierDown(b *testing.B, s *servertest.Server) {
	b.Helper()
	conn, err := pgx.Connect(b.Context(), s.DatabaseURL)
	if err != nil {
		b.Fatal(err)
	}
	defer conn.Close(b.Context()) //nolint:errcheck // all was said
	_, err = conn.Exec(b.Context(), `DO $$ DECLARE t regclass; BEGIN
		FOR t IN SELECT oid FROM pg_class WHERE relnamespace = 'public'::regnamespace AND relrowsecurity LOOP
			EXECUTE format('ALTER TABLE %s DISABLE ROW LEVEL SECURITY, NO FORCE ROW LEVEL SECURITY', t);
		END LOOP; END $$`)
	if err != nil {
		b.Fatal(err)
	}
}

// BenchmarkBarrier asks the same of two servers in turns, one of which has its
// database's row security taken away: a push of 500 readings, and a page of
// pull with the last of them. The ratio is of the medians.
func BenchmarkBarrier(b *testing.B) {
	with, without := servertest.New(b), servertest.New(b)
	hands := [2]*hand{settled(b, with), settled(b, without)}
	barrierDown(b, without)
	cursors := [2]*freshetv1.Cursor{}
	for i, h := range hands {
		cursors[i] = pull(b, h.p, &freshetv1.PullRequest{Scopes: []string{"site:" + h.site}}).heads["site:"+h.site]
	}
	var pushes, pulls [2][]time.Duration
	for b.Loop() {
		for i, h := range hands {
			began := time.Now()
			if err := h.pushColumns(500); err != nil {
				b.Fatal(err)
			}
			pushed := time.Now()
			got := pull(b, h.p, &freshetv1.PullRequest{Scopes: []string{cursors[i].GetScope()}, Cursors: []*freshetv1.Cursor{cursors[i]}})
			pulls[i] = append(pulls[i], time.Since(pushed))
			pushes[i] = append(pushes[i], pushed.Sub(began))
			cursors[i] = got.heads[cursors[i].GetScope()]
		}
	}
	for name, took := range map[string][2][]time.Duration{"push": pushes, "pull": pulls} {
		slices.Sort(took[0])
		slices.Sort(took[1])
		barrier, none := took[0][len(took[0])/2], took[1][len(took[1])/2]
		b.ReportMetric(float64(barrier.Microseconds())/1000, "ms-"+name)
		b.ReportMetric(float64(none.Microseconds())/1000, "ms-"+name+"-without")
		b.ReportMetric(float64(barrier)/float64(none), name+"-ratio")
	}
}
