package storetest

import (
	"context"
	"fmt"
	"os"
	"testing"

	"github.com/jackc/pgx/v5"
)

func TestMain(m *testing.M) { os.Exit(Run(m)) }

func TestEachTestHasADatabaseOfItsOwn(t *testing.T) {
	first, second := URL(t), URL(t)
	ctx := context.Background()
	for _, at := range []string{first, second} {
		conn, err := pgx.Connect(ctx, at)
		if err != nil {
			t.Fatal(err)
		}
		defer conn.Close(ctx)
		if _, err := conn.Exec(ctx, "INSERT INTO scopes (name) VALUES ('coop')"); err != nil {
			t.Errorf("%s is not fresh: %v", at, err)
		}
	}
}

// BenchmarkClone is a clone and its drop by either strategy.
func BenchmarkClone(b *testing.B) {
	URL(b)
	for _, how := range []string{"WAL_LOG", "FILE_COPY"} {
		b.Run(how, func(b *testing.B) {
			for i := range b.N {
				name := fmt.Sprintf("freshet_bench_%d", i)
				if err := administer("CREATE DATABASE " + name + " TEMPLATE " + template + " STRATEGY " + how); err != nil {
					b.Fatal(err)
				}
				if err := administer("DROP DATABASE " + name); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
