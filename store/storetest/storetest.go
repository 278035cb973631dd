// Package storetest gives each test a fresh, migrated database of its own on a
// real Postgres, cloned from a template.
//
// A package that uses it has
//
//	func TestMain(m *testing.M) { os.Exit(storetest.Run(m)) }
//
// Postgres starts at the first database asked for and ends with Run. A machine
// without Postgres fails the test; nothing is skipped.
package storetest

import (
	"context"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"

	"github.com/jackc/pgx/v5"

	"freshet.example/store"
)

const (
	template = "freshet_template"
	// WAL_LOG copies the template page by page through the log, FILE_COPY as
	// files between two checkpoints. BenchmarkClone, a clone and its drop with
	// fsync on: WAL_LOG 246 ms, FILE_COPY 288 ms.
	strategy = "WAL_LOG"
)

var cluster struct {
	once    sync.Once
	running bool // Run was called
	dir     string
	private *store.Private
	err     error
	clones  atomic.Int64
}

// Run runs the tests of a package and then ends Postgres. It returns the code
// to exit with.
func Run(m *testing.M) int {
	cluster.running = true
	code := m.Run()
	if cluster.private != nil {
		if err := cluster.private.Stop(); err != nil {
			fmt.Fprintln(os.Stderr, "storetest:", err)
			code = 1
		}
	}
	if cluster.dir != "" {
		os.RemoveAll(cluster.dir)
	}
	return code
}

// New opens a store on a fresh database. Both end with the test.
func New(t testing.TB) *store.Store {
	t.Helper()
	s, err := store.Open(context.Background(), URL(t))
	if err != nil {
		t.Fatalf("storetest: %v", err)
	}
	t.Cleanup(s.Close)
	return s
}

// URL is the address of a fresh database, which ends with the test.
func URL(t testing.TB) string {
	t.Helper()
	if !cluster.running {
		t.Fatal("storetest: the package needs TestMain; see storetest's package comment")
	}
	cluster.once.Do(start)
	if cluster.err != nil {
		t.Fatalf("storetest: %v", cluster.err)
	}
	name := fmt.Sprintf("freshet_%d", cluster.clones.Add(1))
	if err := administer("CREATE DATABASE " + name + " TEMPLATE " + template + " STRATEGY " + strategy); err != nil {
		t.Fatalf("storetest: %v", err)
	}
	t.Cleanup(func() {
		if err := administer("DROP DATABASE " + name + " WITH (FORCE)"); err != nil {
			t.Errorf("storetest: %v", err)
		}
	})
	if _, measured := t.(*testing.B); measured {
		return address(name)
	}
	// Tests kill servers, never their Postgres, so they need not wait for the disk.
	return address(name) + "&options=-csynchronous_commit%3Doff"
}

func start() {
	sweep()
	if cluster.dir, cluster.err = os.MkdirTemp("", "freshet-test-"); cluster.err != nil {
		return
	}
	if cluster.private, cluster.err = store.StartPrivate(context.Background(), cluster.dir); cluster.err != nil {
		return
	}
	if cluster.err = administer("CREATE DATABASE " + template); cluster.err != nil {
		return
	}
	s, err := store.Open(context.Background(), address(template))
	if cluster.err = err; err == nil {
		s.Close() // a template with a connection cannot be cloned
	}
}

// sweep removes what earlier runs left that could not tidy up: a folder whose
// lock is free belongs to nobody.
func sweep() {
	left, _ := filepath.Glob(filepath.Join(os.TempDir(), "freshet-test-*"))
	for _, dir := range left {
		lock, err := os.Open(filepath.Join(dir, "lock"))
		if err != nil {
			continue
		}
		if syscall.Flock(int(lock.Fd()), syscall.LOCK_EX|syscall.LOCK_NB) == nil {
			os.RemoveAll(dir)
		}
		lock.Close()
	}
}

func address(database string) string {
	u, err := url.Parse(cluster.private.URL())
	if err != nil {
		panic(err) // the store made it
	}
	u.Path = "/" + database
	return u.String()
}

// administer runs one statement beside the databases of the tests.
func administer(statement string) error {
	ctx := context.Background()
	conn, err := pgx.Connect(ctx, address("postgres"))
	if err != nil {
		return err
	}
	defer conn.Close(ctx)
	_, err = conn.Exec(ctx, statement)
	return err
}
