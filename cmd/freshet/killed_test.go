package main

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"freshet.example/clients/device"
)

// process is this test binary run as freshet.
func process(t *testing.T, home string, args ...string) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	c := exec.CommandContext(t.Context(), self)
	c.Args = append([]string{"freshet", "--home", home}, args...)
	c.Env = append(os.Environ(), "COLUMNS=80", "TZ=UTC")
	return c
}

func mustRun(t *testing.T, home string, args ...string) {
	t.Helper()
	if out, err := process(t, home, args...).CombinedOutput(); err != nil {
		t.Fatalf("freshet %v: %v\n%s", args, err, out)
	}
}

// An import that is killed with -9, again and again, and then run to its end
// keeps every row once.
func TestImportKilledKeepsEveryRowOnce(t *testing.T) {
	const rows = 40_000
	home := t.TempDir()
	mustRun(t, home, "set", "site", "Barn", "time_zone=UTC")
	file := longSheet(t, rows)
	killed := 0
	for after := 1; killed < 3; after++ {
		c := process(t, home, "import", file)
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		if reached(t, home, after*5000) {
			killed++
		}
		_ = c.Process.Kill() // it may have ended by itself
		_ = c.Wait()
	}
	mustRun(t, home, "import", file)
	if n := entriesOf(t, home); n != rows {
		t.Fatalf("%d entries of %d rows", n, rows)
	}
}

// reached waits until so many rows were committed.
func reached(t *testing.T, home string, want int) bool {
	t.Helper()
	d, err := device.Open(home)
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close() //nolint:errcheck // only read from
	for range 3000 {
		known, err := d.Imported(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		if len(known) >= want {
			return true
		}
		time.Sleep(10 * time.Millisecond)
	}
	return false
}

func entriesOf(t *testing.T, home string) int {
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
	return len(entries)
}

func longSheet(t *testing.T, rows int) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "long.csv")
	f, err := os.Create(file)
	if err != nil {
		t.Fatal(err)
	}
	w := bufio.NewWriter(f)
	_, _ = w.WriteString("when,quantity,value,unit\n") // Flush gives the error
	at := time.Date(2024, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := range rows {
		fmt.Fprintf(w, "%s,temperature,%d.5,C\n", at.Add(time.Duration(i)*15*time.Minute).Format("2006-01-02 15:04"), 15+i%8)
	}
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	return file
}
