package main

import (
	"bytes"
	"flag"
	"math/rand/v2"
	"regexp"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/server/servertest"
)

// kills is how often the device is killed; make crash kills it 200 times.
var kills = flag.Int("crash.kills", 10, "how often freshet is killed while it notes and syncs")

var notedAs = regexp.MustCompile(`Noted as entry (\d+)`)

// freshet is killed with -9 at any moment of noting and of syncing: whatever it
// said was noted is there, and comes to the server once.
func TestNotedStaysNotedThroughKills(t *testing.T) {
	s := servertest.New(t)
	home := t.TempDir()
	mustRun(t, home, "join", invite(t, s, freshetv1.Role_ROLE_GROWER), "--server", s.GRPCAddress().String(), "--name", "Ana", "--device", "laptop")
	mustRun(t, home, "set", "site", "Barn", "time_zone=UTC")
	usual := howLong(t, home)
	shown, killed := map[string]bool{}, 0
	for try := 0; killed < *kills || len(shown) < *kills/2; try++ {
		args := []string{"note", "reading", "ph", "7.2"}
		if try%3 == 2 {
			args = []string{"sync"}
		}
		said, ended := killedAfter(t, home, rand.N(2*usual), args...) //nolint:gosec // any moment will do
		if ended {
			usual -= usual / 10
		} else {
			killed, usual = killed+1, usual+usual/10 // a machine that others use grows slower
		}
		if found := notedAs.FindSubmatch(said); found != nil {
			shown[string(found[1])] = true
		}
	}
	mustRun(t, home, "sync")
	count := len(shown)
	everyOneIsThere(t, home, s.DatabaseURL, shown)
	t.Logf("%d kills, %d entries shown as noted, each there once", killed, count)
}

// howLong is how long freshet usually takes to note something.
func howLong(t *testing.T, home string) time.Duration {
	t.Helper()
	began := time.Now()
	mustRun(t, home, "note", "reading", "ph", "7.0")
	return time.Since(began)
}

// killedAfter runs freshet and kills it after a while; what it had said by then
// counts. ended is true where it was done before.
func killedAfter(t *testing.T, home string, after time.Duration, args ...string) (said []byte, ended bool) {
	t.Helper()
	var out bytes.Buffer
	c := process(t, home, args...)
	c.Stdout = &out
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	timer := time.AfterFunc(after, func() { _ = c.Process.Kill() }) // it may have ended by itself
	err := c.Wait()
	timer.Stop()
	return out.Bytes(), err == nil
}

func everyOneIsThere(t *testing.T, home, url string, shown map[string]bool) {
	t.Helper()
	d, err := device.Open(home)
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close() //nolint:errcheck // only read from
	entries, err := d.Entries(t.Context(), device.Want{Kinds: []string{"reading"}})
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		delete(shown, d.Short(e.ID))
	}
	if len(shown) > 0 {
		t.Errorf("shown as noted and lost: %v", shown)
	}
	conn, err := pgx.Connect(t.Context(), url)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close(t.Context()) //nolint:errcheck // only read from
	var stored, different int
	err = conn.QueryRow(t.Context(), "SELECT count(*), count(DISTINCT id) FROM readings").Scan(&stored, &different)
	if err != nil || stored != len(entries) || different != stored {
		t.Errorf("the server has %d readings, %d of them different, the device %d: %v", stored, different, len(entries), err)
	}
}
