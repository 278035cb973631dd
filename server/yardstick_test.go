package server_test

import (
	"context"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5/pgxpool"

	"freshet.example/store/storetest"
)

// BenchmarkYardstickRows is what a push is measured beside: eight writers, each
// inserting 500 plain rows a transaction into a table with a key and two
// indexes, with a check for rows that are there already, and no server between.
func BenchmarkYardstickRows(b *testing.B) {
	pool, err := pgxpool.New(b.Context(), storetest.URL(b))
	if err != nil {
		b.Fatal(err)
	}
	defer pool.Close()
	for _, statement := range []string{
		`CREATE TABLE yard (id uuid PRIMARY KEY, site uuid, place uuid, quantity int2, occurred_ms int8, value int8)`,
		`CREATE INDEX ON yard (site, quantity, occurred_ms)`, `CREATE INDEX ON yard (place, occurred_ms)`,
	} {
		if _, err := pool.Exec(b.Context(), statement); err != nil {
			b.Fatal(err)
		}
	}
	site, n := uuid.New(), atomic.Int64{}
	var left atomic.Int64
	left.Store(int64(b.N))
	var group sync.WaitGroup
	b.ResetTimer()
	for range writers {
		group.Go(func() {
			for left.Add(-1) >= 0 {
				if err := insertRows(b.Context(), pool, site, n.Add(rowsPerPush)); err != nil {
					b.Error(err)
					return
				}
			}
		})
	}
	group.Wait()
	b.ReportMetric(float64(b.N*rowsPerPush)/b.Elapsed().Seconds(), "rows/s")
}

func insertRows(ctx context.Context, pool *pgxpool.Pool, site uuid.UUID, from int64) error {
	ids, at, values := make([]uuid.UUID, rowsPerPush), make([]int64, rowsPerPush), make([]int64, rowsPerPush)
	for i := range ids {
		ids[i], at[i], values[i] = uuid.New(), (from+int64(i))*60_000, 680+int64(i%40)
	}
	_, err := pool.Exec(ctx, `INSERT INTO yard SELECT id, $2, $2, 3, at, value FROM unnest($1::uuid[], $3::int8[], $4::int8[]) AS r (id, at, value)
		ON CONFLICT DO NOTHING`, ids, site, at, values)
	return err
}
