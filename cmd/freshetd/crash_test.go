package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"
	"google.golang.org/protobuf/types/known/fieldmaskpb"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
)

// How hard the test goes about it; make crash says 30, 10 and 20.
var (
	serverKills   = flag.Int("crash.server", 2, "how often freshetd is killed")
	postgresKills = flag.Int("crash.postgres", 1, "how often its Postgres is killed")
	crashDevices  = flag.Int("crash.devices", 3, "how many devices note and sync meanwhile")
)

// A gang is devices that note and sync whatever becomes of the server.
type gang struct {
	t       *testing.T
	site    string
	devices []*device.Device
	mu      sync.Mutex
	noted   map[int64]bool // when entries are said to have happened, which is unlike for all
}

// freshetd and its Postgres are killed with -9 under load, and the server
// comes back from an older backup: in the end every entry is in the server
// once, and every device reads the same.
func TestNothingIsLostThroughKillsAndARestore(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "data")
	p := start(t, "serve", "--data", dir)
	at := []string{"serve", "--data", dir, "--grpc", p.grpc, "--http", strings.TrimPrefix(p.http, "http://")}
	g := newGang(t, p)
	stop := g.work()
	t.Cleanup(stop)
	backup := filepath.Join(t.TempDir(), "backup")
	for i := range *serverKills + *postgresKills {
		g.goOn(rand.N(200)) //nolint:gosec // any moment will do
		if i%4 == 1 && i/4 < *postgresKills || i >= *serverKills+min(*postgresKills, i/4) {
			killPostgres(t, dir)
			g.goOn(50) // the server meets the loss
		}
		_ = p.end(syscall.SIGKILL)
		p = start(t, at...)
		if i == (*serverKills+*postgresKills)/2 {
			p = restart(t, p, at, func() error { return os.CopyFS(backup, os.DirFS(filepath.Join(dir, "data"))) })
		}
	}
	g.goOn(100)
	p = restart(t, p, at, func() error { return replaceFolder(filepath.Join(dir, "data"), backup) })
	g.goOn(100)
	stop()
	g.settle()
	g.same(dir)
	t.Logf("%d devices noted %d entries; the server was killed %d times, its Postgres %d times, and restored once: each entry is there once, on every device",
		len(g.devices), g.count(), *serverKills, *postgresKills)
	if err := p.end(syscall.SIGTERM); err != nil { // its Postgres ends with it, and leaves the folder
		t.Errorf("SIGTERM: %v", err)
	}
}

// restart does work on the data while nothing runs.
func restart(t *testing.T, p *process, at []string, work func() error) *process {
	t.Helper()
	if err := p.end(syscall.SIGTERM); err != nil {
		t.Fatalf("SIGTERM: %v\n%s", err, p.log)
	}
	if err := work(); err != nil {
		t.Fatal(err)
	}
	return start(t, at...)
}

// replaceFolder puts the files of an older copy in the place of a folder's,
// with the owner that the folder has.
func replaceFolder(folder, older string) error {
	info, err := os.Stat(folder)
	if err != nil {
		return err
	}
	if err := os.RemoveAll(folder); err != nil {
		return err
	}
	if err := os.CopyFS(folder, os.DirFS(older)); err != nil {
		return err
	}
	owner, ok := info.Sys().(*syscall.Stat_t)
	if !ok {
		return fmt.Errorf("%s has no owner", folder)
	}
	return filepath.WalkDir(folder, func(path string, entry os.DirEntry, err error) error {
		if err == nil && entry.IsDir() {
			err = os.Chmod(path, 0o700) //nolint:gosec // as Postgres wants its folders
		}
		if err == nil {
			err = os.Chown(path, int(owner.Uid), int(owner.Gid))
		}
		return err
	})
}

// killPostgres kills the postmaster; its children end when they see that it is gone.
func killPostgres(t *testing.T, dir string) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(dir, "data", "postmaster.pid"))
	if err != nil {
		t.Fatal(err)
	}
	var pid int
	if _, err := fmt.Sscan(string(text), &pid); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Kill(pid, syscall.SIGKILL); err != nil {
		t.Error(err)
	}
}

func newGang(t *testing.T, p *process) *gang {
	t.Helper()
	g := &gang{t: t, noted: map[int64]bool{}}
	code := codeShape.FindString(p.said)
	for range *crashDevices {
		g.devices = append(g.devices, joined(t, p.grpc, code, "Ines Vaart"))
		code = g.invite()
	}
	site, err := g.devices[0].Set(t.Context(), &freshetv1.Edit{Fields: &fieldmaskpb.FieldMask{Paths: []string{"name"}},
		Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{Name: "Barn"}}})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := g.devices[0].Sync(t.Context()); err != nil {
		t.Fatal(err)
	}
	g.site = site
	return g
}

// invite makes the code by which one more device comes.
func (g *gang) invite() string {
	g.t.Helper()
	made, err := device.Ask(g.t.Context(), g.devices[0], freshetv1.NewAccountServiceClient, freshetv1.AccountServiceClient.CreateInvitation, &freshetv1.CreateInvitationRequest{})
	if err != nil {
		g.t.Fatal(err)
	}
	return made.GetCode()
}

// work lets every device note and sync until it is stopped.
func (g *gang) work() (stop func()) {
	ctx, cancel := context.WithCancel(g.t.Context())
	var all sync.WaitGroup
	for i, d := range g.devices {
		all.Go(func() {
			for n := 0; ctx.Err() == nil; n++ {
				g.note(d, i, n)
				if n%5 == 0 {
					patient, done := context.WithTimeout(ctx, 2*time.Second)
					_, _ = d.Sync(patient) // the server may be away: what waits is sent later
					done()
				}
				time.Sleep(20 * time.Millisecond)
			}
		})
	}
	return func() { cancel(); all.Wait() }
}

// note enters one to twelve readings; once that returns they must last.
func (g *gang) note(d *device.Device, i, n int) {
	events, keys := make([]*freshetv1.Event, 1+n%12), []int64{}
	for k := range events {
		at := time.Unix(1_700_000_000+int64(i)*1_000_000+int64(n)*12+int64(k), 0)
		keys = append(keys, at.Unix())
		events[k] = &freshetv1.Event{SiteId: g.site, OccurredAt: timestamppb.New(at), Kind: &freshetv1.Event_Reading{Reading: &freshetv1.Reading{
			Quantity: freshetv1.Quantity_QUANTITY_PH, Digits: int64(70 + k), Decimals: 1, Unit: freshetv1.Unit_UNIT_NONE,
		}}}
	}
	if _, err := d.Note(context.Background(), events...); err != nil {
		g.t.Errorf("device %d cannot note: %v", i, err)
		return
	}
	g.mu.Lock()
	defer g.mu.Unlock()
	for _, key := range keys {
		g.noted[key] = true
	}
}

// goOn waits until so many more entries were noted, or a device failed.
func (g *gang) goOn(more int) {
	for enough := g.count() + more; g.count() < enough && !g.t.Failed(); {
		time.Sleep(10 * time.Millisecond)
	}
}

func (g *gang) count() int {
	g.mu.Lock()
	defer g.mu.Unlock()
	return len(g.noted)
}

// settle lets every device sync until nothing is new.
func (g *gang) settle() {
	g.t.Helper()
	for range 2 {
		for i, d := range g.devices {
			p, err := d.Sync(g.t.Context())
			for trouble := (*device.Trouble)(nil); errors.As(err, &trouble) && trouble.NoSignal; {
				p, err = d.Sync(g.t.Context())
			}
			if err != nil || p.Waiting > 0 || p.Left > 0 {
				g.t.Fatalf("device %d: %v, %d wait, %d left", i, err, p.Waiting, p.Left)
			}
		}
	}
}

// same holds every device, and the server, to what was noted.
func (g *gang) same(dir string) {
	g.t.Helper()
	want := slices.Sorted(maps.Keys(g.noted))
	for i, d := range g.devices {
		entries, err := d.Entries(g.t.Context(), device.Want{Kinds: []string{"reading"}})
		if err != nil {
			g.t.Fatal(err)
		}
		got := make([]int64, len(entries))
		for k, e := range entries {
			got[k] = e.Event.GetOccurredAt().GetSeconds()
		}
		slices.Sort(got)
		if !slices.Equal(got, want) {
			g.t.Errorf("device %d reads %d entries, %d were noted", i, len(got), len(want))
		}
	}
	url, err := os.ReadFile(filepath.Join(dir, "database-url"))
	if err != nil {
		g.t.Fatal(err)
	}
	conn, err := pgx.Connect(g.t.Context(), strings.TrimSpace(string(url)))
	if err != nil {
		g.t.Fatal(err)
	}
	defer conn.Close(g.t.Context()) //nolint:errcheck // only read from
	var stored, different int
	if err := conn.QueryRow(g.t.Context(), "SELECT count(*), count(DISTINCT occurred_at) FROM readings").Scan(&stored, &different); err != nil {
		g.t.Fatal(err)
	}
	if stored != len(want) || different != len(want) {
		g.t.Errorf("the server has %d readings, %d of them different; %d were noted", stored, different, len(want))
	}
}
