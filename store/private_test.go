package store_test

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"freshet.example/store"
	"freshet.example/store/storetest"
)

// keeperFolder makes the test's own program start a private Postgres, say its
// URL, and wait to be killed.
const keeperFolder = "FRESHET_TEST_KEEPER"

func TestMain(m *testing.M) {
	if dir := os.Getenv(keeperFolder); dir != "" {
		os.Exit(keep(dir))
	}
	code := storetest.Run(m)
	if made != "" {
		os.RemoveAll(made)
	}
	os.Exit(code)
}

func keep(dir string) int {
	private, err := store.StartPrivate(context.Background(), dir)
	if err != nil {
		fmt.Println("failed:", err)
		return 1
	}
	fmt.Println(private.URL())
	select {}
}

// startKeeper starts a process of its own that keeps a private Postgres on dir.
func startKeeper(t *testing.T, dir string, as *syscall.Credential) (url string, process *exec.Cmd) {
	t.Helper()
	process = exec.Command("/proc/self/exe")
	process.Env = append(os.Environ(), keeperFolder+"="+dir)
	process.SysProcAttr = &syscall.SysProcAttr{Credential: as, Pdeathsig: syscall.SIGKILL}
	out, err := process.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := process.Start(); err != nil {
		t.Fatal(err)
	}
	said := bufio.NewScanner(out)
	said.Scan()
	if !strings.HasPrefix(said.Text(), "postgres://") {
		t.Fatalf("keeper said %q", said.Text())
	}
	return said.Text(), process
}

func kill(t *testing.T, process *exec.Cmd) {
	t.Helper()
	if err := process.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	_ = process.Wait() // "signal: killed" is what is wanted
}

func write(t testing.TB, url, statement string) {
	t.Helper()
	conn, err := pgx.Connect(context.Background(), url)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close(context.Background())
	if _, err := conn.Exec(context.Background(), statement); err != nil {
		t.Fatal(err)
	}
}

func count(t *testing.T, url string) (n int) {
	t.Helper()
	conn, err := pgx.Connect(context.Background(), url)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close(context.Background())
	if err := conn.QueryRow(context.Background(), "SELECT count(*) FROM kept").Scan(&n); err != nil {
		t.Fatal(err)
	}
	return n
}

// made is the folder of privateFolder: making the data takes longer than all
// the rest, so tests that end tidily use one after another.
var made string

// privateFolder is reachable by root alone, as a home folder is.
func privateFolder(t *testing.T) string {
	t.Helper()
	if made == "" {
		dir, err := os.MkdirTemp("", "freshet-private-")
		if err != nil {
			t.Fatal(err)
		}
		made = dir
	}
	t.Cleanup(func() {
		if t.Failed() { // what is left there is not to disturb the next
			os.RemoveAll(made)
			made = ""
		}
	})
	return filepath.Join(made, "pg")
}

func postmasterOf(t *testing.T, dir string) int {
	t.Helper()
	content, err := os.ReadFile(filepath.Join(dir, "data", "postmaster.pid"))
	if err != nil {
		t.Fatal(err)
	}
	var pid int
	if _, err := fmt.Sscan(string(content), &pid); err != nil {
		t.Fatal(err)
	}
	return pid
}

func awaitEnd(t *testing.T, pid int) {
	t.Helper()
	for range 1000 {
		if errors.Is(syscall.Kill(pid, 0), syscall.ESRCH) {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Fatalf("process %d still runs", pid)
}

func TestPrivateEndsWithItsKilledParentAndStartsAgain(t *testing.T) {
	dir := privateFolder(t)
	url, keeper := startKeeper(t, dir, nil)
	write(t, url, "DROP TABLE IF EXISTS kept; CREATE TABLE kept AS SELECT 1 AS a")
	pid := postmasterOf(t, dir)
	kill(t, keeper)
	awaitEnd(t, pid)

	private := mustStart(t, dir)
	if n := count(t, private.URL()); n != 1 {
		t.Errorf("%d rows after the parent was killed, want 1", n)
	}
	mustStop(t, private)
}

func TestPrivateStartsAtOnceAfterItsParentWasKilled(t *testing.T) {
	dir := privateFolder(t)
	for range 3 { // the earlier Postgres may still be stopping
		_, keeper := startKeeper(t, dir, nil)
		kill(t, keeper)
	}
	mustStop(t, mustStart(t, dir))
}

func TestPrivateStartsAfterBothWereKilled(t *testing.T) {
	dir := privateFolder(t)
	url, keeper := startKeeper(t, dir, nil)
	write(t, url, "DROP TABLE IF EXISTS kept; CREATE TABLE kept AS SELECT generate_series(1, 100) AS a")
	pid := postmasterOf(t, dir)
	// The keeper first: it would otherwise tell of its Postgres's end.
	if err := keeper.Process.Signal(syscall.SIGSTOP); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Kill(pid, syscall.SIGKILL); err != nil {
		t.Fatal(err)
	}
	kill(t, keeper)

	private := mustStart(t, dir)
	if n := count(t, private.URL()); n != 100 {
		t.Errorf("%d rows after both were killed, want 100", n)
	}
	mustStop(t, private)
}

func TestPrivateStopsAnOrphan(t *testing.T) {
	dir := privateFolder(t)
	mustStop(t, mustStart(t, dir)) // makes the data
	pid := startOrphan(t, dir)
	private := mustStart(t, dir)
	defer mustStop(t, private)
	awaitEnd(t, pid)
	if now := postmasterOf(t, dir); now == pid {
		t.Errorf("process %d was not replaced", pid)
	}
}

// startOrphan starts Postgres on dir with no parent that it would end with.
func startOrphan(t *testing.T, dir string) int {
	t.Helper()
	bins, err := filepath.Glob("/usr/lib/postgresql/*/bin/postgres")
	if err != nil || len(bins) == 0 {
		t.Fatal("no Postgres in /usr/lib/postgresql")
	}
	data, err := os.Open(filepath.Join(dir, "data"))
	if err != nil {
		t.Fatal(err)
	}
	defer data.Close()
	info, err := data.Stat()
	if err != nil {
		t.Fatal(err)
	}
	owner := info.Sys().(*syscall.Stat_t)
	postgres := exec.Command(bins[len(bins)-1], "-D", "/proc/self/fd/3", "-k", ".", "-c", "listen_addresses=")
	postgres.ExtraFiles = []*os.File{data}
	postgres.Dir = "/"
	postgres.SysProcAttr = &syscall.SysProcAttr{Setsid: true}
	if os.Geteuid() == 0 {
		postgres.SysProcAttr.Credential = &syscall.Credential{Uid: owner.Uid, Gid: owner.Gid}
	}
	if err := postgres.Start(); err != nil {
		t.Fatal(err)
	}
	go func() { _ = postgres.Wait() }() // else it stays as a zombie
	for range 500 {
		content, _ := os.ReadFile(filepath.Join(dir, "data", "postmaster.pid"))
		if strings.Contains(string(content), "ready") {
			return postgres.Process.Pid
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Fatal("the orphan does not become ready")
	return 0
}

func TestPrivateRefusesAFolderInUse(t *testing.T) {
	dir := privateFolder(t)
	private := mustStart(t, dir)
	defer mustStop(t, private)
	_, err := store.StartPrivate(context.Background(), dir)
	if err == nil || !strings.Contains(err.Error(), "another process uses") {
		t.Errorf("second start on one folder: %v", err)
	}
}

func TestPrivateSaysWhatIsMissing(t *testing.T) {
	t.Setenv("FRESHET_POSTGRES_BIN", t.TempDir())
	_, err := store.StartPrivate(context.Background(), t.TempDir())
	if !errors.Is(err, store.ErrNoPostgres) {
		t.Errorf("without programs: %v", err)
	}
}

func TestPrivateSaysThatDataIsOfAnotherRelease(t *testing.T) {
	dir := t.TempDir()
	if err := os.MkdirAll(filepath.Join(dir, "data"), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "data", "PG_VERSION"), []byte("9\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	_, err := store.StartPrivate(context.Background(), dir)
	if err == nil || !strings.Contains(err.Error(), "was made by Postgres 9") {
		t.Errorf("data of another release: %v", err)
	}
}

func TestPrivateRunsForAnUnprivilegedUser(t *testing.T) {
	if os.Geteuid() != 0 {
		return // every other test here has shown it
	}
	dir, err := os.MkdirTemp("", "freshet-nobody-")
	if err != nil {
		t.Fatal(err)
	}
	defer os.RemoveAll(dir)
	const nobody = 65534
	if err := os.Chown(dir, nobody, nobody); err != nil {
		t.Fatal(err)
	}
	url, keeper := startKeeper(t, dir, &syscall.Credential{Uid: nobody, Gid: nobody})
	write(t, url, "DROP TABLE IF EXISTS kept; CREATE TABLE kept AS SELECT 1 AS a")
	pid := postmasterOf(t, dir)
	kill(t, keeper)
	awaitEnd(t, pid)
}

func TestPrivateIsDurableAndClosed(t *testing.T) {
	private := mustStart(t, privateFolder(t))
	defer mustStop(t, private)
	conn, err := pgx.Connect(context.Background(), private.URL())
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close(context.Background())
	for name, want := range map[string]string{
		"data_checksums": "on", "fsync": "on", "synchronous_commit": "on", "full_page_writes": "on",
		"listen_addresses": "", "server_encoding": "UTF8",
	} {
		var got string
		if err := conn.QueryRow(context.Background(), "SELECT current_setting($1)", name).Scan(&got); err != nil || got != want {
			t.Errorf("%s is %q (%v), want %q", name, got, err, want)
		}
	}
}

func mustStart(t *testing.T, dir string) *store.Private {
	t.Helper()
	private, err := store.StartPrivate(context.Background(), dir)
	if err != nil {
		t.Fatal(err)
	}
	return private
}

func mustStop(t *testing.T, private *store.Private) {
	t.Helper()
	if err := private.Stop(); err != nil {
		t.Error(err)
	}
}
