package store

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"time"
)

// folder is where a private Postgres lives:
//
//	DIR/lock          held by the process that uses the folder
//	DIR/postgres.log  what Postgres says
//	DIR/data          Postgres's own; data.new while it is being made
//
// The socket is elsewhere: its whole path must fit into 107 bytes.
type folder struct {
	dir    string
	lock   *os.File
	socket string
	owner  *syscall.Credential // nil: this process's own user
}

const logLimit = 8 << 20

// openFolder makes dir where it is missing and takes it for this process.
func openFolder(dir string) (*folder, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, fmt.Errorf("data folder: %w", err)
	}
	f := &folder{dir: dir}
	if f.owner, err = unprivileged(); err != nil {
		return nil, err
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, fmt.Errorf("data folder: %w", err)
	}
	if err := f.take(); err != nil {
		return nil, err
	}
	if err := f.makeSocketFolder(); err != nil {
		f.close()
		return nil, err
	}
	return f, nil
}

func (f *folder) data() string { return filepath.Join(f.dir, "data") }
func (f *folder) log() string  { return filepath.Join(f.dir, "postgres.log") }

// take locks the folder. The kernel frees the lock of a process that ends, so
// only a live one can hold it; its end may lag a moment behind its parent's.
func (f *folder) take() error {
	lock, err := os.OpenFile(filepath.Join(f.dir, "lock"), os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		return fmt.Errorf("data folder: %w", err)
	}
	for range 20 {
		if err = syscall.Flock(int(lock.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); err == nil {
			f.lock = lock
			return nil
		}
		time.Sleep(50 * time.Millisecond)
	}
	lock.Close()
	return fmt.Errorf("another process uses %s; stop it or choose another folder: %w", f.dir, err)
}

// makeSocketFolder takes a short path that follows from dir, so that a process
// killed before it could tidy up leaves no more than one behind.
func (f *folder) makeSocketFolder() error {
	sum := sha256.Sum256([]byte(f.dir))
	f.socket = filepath.Join(os.TempDir(), "freshet-"+hex.EncodeToString(sum[:6]))
	if len(f.socket) > 80 {
		return fmt.Errorf("the path %s is too long for a unix socket; set TMPDIR to a shorter folder", f.socket)
	}
	if err := os.Mkdir(f.socket, 0o700); err != nil && !errors.Is(err, os.ErrExist) {
		return fmt.Errorf("socket folder: %w", err)
	}
	// Another user of this machine may have made it first, to listen in.
	found, err := os.Lstat(f.socket)
	if err != nil {
		return fmt.Errorf("socket folder: %w", err)
	}
	if owner, ok := found.Sys().(*syscall.Stat_t); !ok || !found.IsDir() || found.Mode().Perm() != 0o700 || !f.ours(owner.Uid) {
		return fmt.Errorf("%s is not a closed folder of this user; look who made it and remove it", f.socket)
	}
	return f.giveAway(f.socket)
}

func (f *folder) ours(uid uint32) bool {
	return int(uid) == os.Geteuid() || f.owner != nil && uid == f.owner.Uid
}

// close gives the folder free for others.
func (f *folder) close() {
	if f.socket != "" {
		os.RemoveAll(f.socket)
	}
	f.lock.Close()
}

// giveAway makes path the property of whoever runs Postgres.
func (f *folder) giveAway(path string) error {
	if f.owner == nil {
		return nil
	}
	if err := os.Chown(path, int(f.owner.Uid), int(f.owner.Gid)); err != nil {
		return fmt.Errorf("data folder: %w", err)
	}
	return nil
}

// initialize makes the data where there is none. It is made beside its place
// and moved there when whole, so that a start cut short leaves nothing half made.
func (f *folder) initialize(ctx context.Context, programs programs) error {
	if _, err := os.Stat(filepath.Join(f.data(), "PG_VERSION")); err == nil {
		return nil
	}
	raw := f.data() + ".new"
	if err := os.RemoveAll(raw); err != nil {
		return fmt.Errorf("data folder: %w", err)
	}
	if err := os.Mkdir(raw, 0o700); err != nil {
		return fmt.Errorf("data folder: %w", err)
	}
	if err := f.giveAway(raw); err != nil {
		return err
	}
	if err := f.runInitdb(ctx, programs, raw); err != nil {
		return err
	}
	return os.Rename(raw, f.data())
}

func (f *folder) runInitdb(ctx context.Context, programs programs, raw string) error {
	at, err := f.reach(raw)
	if err != nil {
		return err
	}
	defer at.Close()
	initdb := exec.CommandContext(ctx, programs.path("initdb"), "--pgdata", handed,
		"--username", privateUser, "--encoding", "UTF8", "--locale", "C.UTF-8",
		"--data-checksums", "--auth-local", "trust", "--auth-host", "reject")
	initdb.Dir = "/"
	initdb.Env = quietEnvironment()
	initdb.ExtraFiles = []*os.File{at}
	initdb.SysProcAttr = &syscall.SysProcAttr{Credential: f.owner, Pdeathsig: syscall.SIGKILL}
	if said, err := initdb.CombinedOutput(); err != nil {
		return fmt.Errorf("initdb: %w: %s", err, strings.TrimSpace(string(said)))
	}
	return nil
}

// handed is how Postgres knows its data folder: as the descriptor it is given.
// Its user need not be able to walk the path there, which may lead through a
// home folder that is closed to others.
const handed = "/proc/self/fd/3"

func (f *folder) reach(path string) (*os.File, error) {
	at, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("data folder: %w", err)
	}
	return at, nil
}

// unprivileged picks the user that runs Postgres; nil for this process's own.
func unprivileged() (*syscall.Credential, error) {
	if os.Geteuid() != 0 {
		return nil, nil
	}
	for _, name := range []string{"postgres", "nobody"} {
		found, err := user.Lookup(name)
		if err != nil {
			continue
		}
		uid, uidErr := strconv.ParseUint(found.Uid, 10, 32)
		gid, gidErr := strconv.ParseUint(found.Gid, 10, 32)
		if uidErr == nil && gidErr == nil {
			return &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}, nil
		}
	}
	return nil, errors.New("Postgres may not run as root, and there is neither a user postgres nor nobody; start as another user")
}

// quietEnvironment keeps settings of other databases out of ours.
func quietEnvironment() []string {
	var kept []string
	for _, entry := range os.Environ() {
		if !strings.HasPrefix(entry, "PG") {
			kept = append(kept, entry)
		}
	}
	return append(kept, "LC_ALL=C.UTF-8", "TZ=UTC")
}
