package store

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"syscall"
	"time"

	"github.com/jackc/pgx/v5"
)

// Private is a Postgres of our own, for those who have none: one folder, one
// unix socket, no network. It ends with the process that started it, however
// that process ends.
type Private struct {
	url    string
	folder *folder
	stop   sync.Once
	err    error
	server *postmaster
}

const (
	privateUser     = "freshet"
	privateDatabase = "freshet"
	// A Postgres that was killed leaves locks that its own children may hold for
	// a moment longer; a start in that moment is refused and tried again.
	startPatience = 30 * time.Second
	// A clean stop writes a checkpoint.
	stopPatience = 60 * time.Second
)

// StartPrivate starts Postgres on the data in dir, which it makes at first. An
// orphan that an earlier process left running on dir is stopped first. A folder
// that another live process uses, a machine without Postgres, and data of a
// release of Postgres that is not installed are errors that say what to do.
//
// Postgres refuses to run as root; started by root, it runs as the user
// postgres, or as nobody where there is none.
func StartPrivate(ctx context.Context, dir string) (*Private, error) {
	f, err := openFolder(dir)
	if err != nil {
		return nil, err
	}
	p := &Private{folder: f}
	if err := p.start(ctx); err != nil {
		f.close()
		return nil, err
	}
	return p, nil
}

// URL is what Open takes.
func (p *Private) URL() string { return p.url }

// Stop ends Postgres after its last transaction is on disk, and gives the
// folder free. It may be called again; the answer stays the same.
func (p *Private) Stop() error {
	p.stop.Do(func() {
		p.err = p.server.stop(stopPatience)
		p.folder.close()
	})
	return p.err
}

func (p *Private) start(ctx context.Context) error {
	programs, err := findPrograms(p.folder.data())
	if err != nil {
		return err
	}
	if err := stopOrphan(p.folder.data()); err != nil {
		return err
	}
	if err := p.folder.initialize(ctx, programs); err != nil {
		return err
	}
	deadline := time.Now().Add(startPatience)
	for {
		err := p.tryStart(ctx, programs)
		if err == nil || ctx.Err() != nil || time.Now().After(deadline) {
			return err
		}
		time.Sleep(200 * time.Millisecond)
	}
}

// tryStart starts Postgres once and waits until it answers.
func (p *Private) tryStart(ctx context.Context, programs programs) error {
	server, err := startPostmaster(programs, p.folder)
	if err != nil {
		return err
	}
	if err := p.awaitReady(ctx, server); err != nil {
		return errors.Join(err, server.stop(stopPatience))
	}
	p.server = server
	p.url = p.address(privateDatabase)
	return nil
}

func (p *Private) address(database string) string {
	return fmt.Sprintf("postgres:///%s?host=%s&user=%s&sslmode=disable", database, p.folder.socket, privateUser)
}

func (p *Private) awaitReady(ctx context.Context, server *postmaster) error {
	ctx, cancel := context.WithTimeout(ctx, startPatience)
	defer cancel()
	for {
		err := p.ensureDatabase(ctx)
		if err == nil {
			return nil
		}
		select {
		case <-server.ended:
			return fmt.Errorf("Postgres ended while starting: %w; its last words are in %s", server.waitErr, p.folder.log())
		case <-ctx.Done():
			return fmt.Errorf("Postgres does not answer: %w; its words are in %s", err, p.folder.log())
		case <-time.After(20 * time.Millisecond):
		}
	}
}

// ensureDatabase is also the first sign of life: it fails until Postgres answers.
func (p *Private) ensureDatabase(ctx context.Context) error {
	conn, err := pgx.Connect(ctx, p.address("postgres"))
	if err != nil {
		return err
	}
	defer conn.Close(ctx)
	var found bool
	err = conn.QueryRow(ctx, "SELECT EXISTS (SELECT FROM pg_database WHERE datname = $1)", privateDatabase).Scan(&found)
	if err == nil && !found {
		_, err = conn.Exec(ctx, "CREATE DATABASE "+privateDatabase)
	}
	return err
}

// stopOrphan ends a Postgres that runs on data although whoever started it is
// gone. A process id may long belong to somebody else, so only a process whose
// working folder is the data folder counts.
func stopOrphan(data string) error {
	pid := orphan(data)
	if pid == 0 {
		return nil
	}
	if err := syscall.Kill(pid, syscall.SIGINT); err != nil && !errors.Is(err, syscall.ESRCH) {
		return fmt.Errorf("an earlier Postgres (process %d) runs on %s and may not be stopped: %w", pid, data, err)
	}
	for deadline := time.Now().Add(stopPatience); orphan(data) == pid; time.Sleep(20 * time.Millisecond) {
		if time.Now().After(deadline) {
			return fmt.Errorf("an earlier Postgres (process %d) on %s does not stop; end it by hand", pid, data)
		}
	}
	return nil
}

// orphan is the process that runs on data, or 0.
func orphan(data string) int {
	content, err := os.ReadFile(filepath.Join(data, "postmaster.pid"))
	if err != nil {
		return 0
	}
	var pid int
	if _, err := fmt.Sscan(string(content), &pid); err != nil || pid <= 1 {
		return 0
	}
	cwd, err := os.Readlink(fmt.Sprintf("/proc/%d/cwd", pid))
	real, realErr := filepath.EvalSymlinks(data)
	if err != nil || realErr != nil || cwd != real {
		return 0
	}
	return pid
}
