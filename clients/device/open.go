package device

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"google.golang.org/grpc"
	"modernc.org/sqlite" // also the database driver: database/sql finds it in no other way

	"freshet.example/api/wire"
)

// Device is one grower's device. Its methods may be called from several
// goroutines, and several processes may have the same folder open.
type Device struct {
	dir      string
	db       *sql.DB
	install  atomic.Pointer[wire.Install]
	clock    Clock
	pause    Pause
	dialling []grpc.DialOption
	room     int
	noted    chan struct{} // holds something when Follow has not seen yet that something was noted
	// serverSchema is what the server said at the last Hello that it knows.
	serverSchema atomic.Uint32

	mu         sync.Mutex
	connection *grpc.ClientConn
	renewal    sync.Mutex // held while a token is renewed
}

// A Setting changes how a device is opened.
type Setting func(*Device)

// WithClock makes the device read its clocks elsewhere; for tests and for
// records entered about the past.
func WithClock(c Clock) Setting { return func(d *Device) { d.clock = c } }

// WithInstall gives the install that is kept at the first start; a device that
// has one keeps it. For tests: else it is made at random.
func WithInstall(i wire.Install) Setting { return func(d *Device) { d.install.Store(&i) } }

// A Pause waits, or until the context ends.
type Pause func(context.Context, time.Duration)

// WithPause makes the device wait elsewhere between its tries; for tests.
func WithPause(p Pause) Setting { return func(d *Device) { d.pause = p } }

func wait(ctx context.Context, d time.Duration) {
	select {
	case <-ctx.Done():
	case <-time.After(d):
	}
}

// WithDialling adds options to the connection; for tests and proxies.
func WithDialling(options ...grpc.DialOption) Setting {
	return func(d *Device) { d.dialling = append(d.dialling, options...) }
}

// WithRoom lets the database grow to so many pages of 4096 bytes, as on a disk
// that is full; for tests. 0: what the disk has.
func WithRoom(pages int) Setting { return func(d *Device) { d.room = pages } }

// Open opens the device in a folder, and makes it where there is none. It
// needs no network and no token.
func Open(dir string, settings ...Setting) (*Device, error) {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, fmt.Errorf("make the device's folder: %w", err)
	}
	d := &Device{dir: dir, clock: ThisMachine(), pause: wait, noted: make(chan struct{}, 1)}
	fresh := wire.NewInstall()
	d.install.Store(&fresh)
	for _, set := range settings {
		set(d)
	}
	var err error
	if d.db, err = openDatabase(filepath.Join(dir, "device.db"), d.room); err != nil {
		return nil, err
	}
	if err := d.ownInstall(context.Background()); err != nil {
		return nil, errors.Join(err, d.db.Close())
	}
	return d, nil
}

// openDatabase opens the file so that what was committed outlives a crash of
// the machine: write-ahead log, synced at each commit. Room is in pages; 0: all
// there is.
func openDatabase(file string, room int) (*sql.DB, error) {
	settings := url.Values{"_pragma": {
		"busy_timeout(20000)", "journal_mode(WAL)", "synchronous(FULL)", "cache_size(-16000)",
	}, "_txlock": {"immediate"}}
	if room > 0 {
		settings.Add("_pragma", fmt.Sprintf("max_page_count(%d)", room))
	}
	db, err := sql.Open("sqlite", "file:"+(&url.URL{Path: file}).EscapedPath()+"?"+settings.Encode())
	if err != nil {
		return nil, fmt.Errorf("open %s: %w", file, err)
	}
	if _, err := db.Exec(schema); err != nil {
		return nil, errors.Join(fmt.Errorf("open %s: %w", file, err), db.Close())
	}
	return db, os.Chmod(file, 0o600)
}

// ownInstall reads the install, and keeps a fresh one at the first start.
func (d *Device) ownInstall(ctx context.Context) error {
	fresh := d.Install()
	if _, err := d.db.ExecContext(ctx, `INSERT OR IGNORE INTO facts VALUES ('install', ?)`, fresh[:]); err != nil {
		return fmt.Errorf("keep the install: %w", err)
	}
	_, err := d.readInstall(ctx, d.db)
	return err
}

// readInstall reads the install as it is now: another process may have found
// that this device is a copy, and given it one of its own.
func (d *Device) readInstall(ctx context.Context, q queryer) (wire.Install, error) {
	var b []byte
	if err := q.QueryRowContext(ctx, `SELECT value FROM facts WHERE name = 'install'`).Scan(&b); err != nil {
		return wire.Install{}, fmt.Errorf("read the install: %w", err)
	}
	install, err := wire.ParseInstall(b)
	if err == nil {
		d.install.Store(&install)
	}
	return install, err
}

// Close lets go of the database and the connection.
func (d *Device) Close() error {
	d.mu.Lock()
	defer d.mu.Unlock()
	var hungUp error
	if d.connection != nil {
		hungUp = d.connection.Close()
		d.connection = nil
	}
	return errors.Join(hungUp, d.db.Close())
}

// Install is the device's own install: half of every id it makes. It changes
// when the device turns out to be a copy of another.
func (d *Device) Install() wire.Install { return *d.install.Load() }

// Dir is the device's folder.
func (d *Device) Dir() string { return d.dir }

func (d *Device) tokenFile() string { return filepath.Join(d.dir, "token") }

// token is empty before joining.
func (d *Device) token() (string, error) {
	b, err := os.ReadFile(d.tokenFile())
	if errors.Is(err, fs.ErrNotExist) {
		return "", nil
	}
	return strings.TrimSpace(string(b)), err
}

func (d *Device) keepToken(token string) error {
	return d.replace(d.tokenFile(), []byte(token+"\n"))
}

// replace exchanges a file's content, so that a crash leaves the one or the
// other, for its owner's eyes only.
func (d *Device) replace(name string, content []byte) error {
	beside, err := d.writeBeside(content)
	if err != nil {
		return err
	}
	return os.Rename(beside, name)
}

// writeBeside writes a file with a name that no other program has.
func (d *Device) writeBeside(content []byte) (name string, err error) {
	file, err := os.CreateTemp(d.dir, "*.new")
	if err != nil {
		return "", err
	}
	_, err = file.Write(content)
	return file.Name(), errors.Join(err, file.Sync(), file.Close())
}

// inTransaction runs work and commits, or changes nothing.
func (d *Device) inTransaction(ctx context.Context, work func(*sql.Tx) error) error {
	tx, err := d.db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	if err := work(tx); err != nil {
		return roomy(errors.Join(err, tx.Rollback()))
	}
	return roomy(tx.Commit())
}

// roomy says in words where an error is that the disk is full.
func roomy(err error) error {
	var failed *sqlite.Error
	if !errors.As(err, &failed) || failed.Code() != sqliteFull {
		return err
	}
	return &Trouble{Words: "this device has no room left: nothing was kept", Reason: "STORAGE_FULL", Hint: "free some room on its disk, and do it again", cause: err}
}

// sqliteFull is SQLITE_FULL, <https://www.sqlite.org/rescode.html#full>.
const sqliteFull = 13
