package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/server/servertest"
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

// A hundred thousand rows, of which thirty-seven are bad: each of those is
// reported with its line, the others come to the server once, and the same
// sheet again brings nothing.
func TestImportOfALongSheetWithBadRows(t *testing.T) {
	const rows, bad = 100_000, 37
	s := servertest.New(t)
	home := t.TempDir()
	mustRun(t, home, "join", invite(t, s, freshetv1.Role_ROLE_GROWER), "--server", s.GRPCAddress().String(), "--name", "Ana", "--device", "laptop")
	mustRun(t, home, "set", "site", "Barn", "time_zone=UTC")
	file, lines := longSheet(t, rows), []int{}
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	all := strings.SplitAfter(string(text), "\n")
	for i := range bad {
		n := 13 + i*2700
		all[n-1] = []string{"2024-13-01 00:00,temperature,20,C\n", "2024-01-01 00:00,temperature,warm,C\n", "2024-01-01 00:00,temperature,200,C\n", "2024-01-01 00:00,clouds,2,C\n"}[i%4]
		lines = append(lines, n)
	}
	if err := os.WriteFile(file, []byte(strings.Join(all, "")), 0o600); err != nil {
		t.Fatal(err)
	}
	first := printedBy(t, home, "import", file, "--bad", "skip")
	var told []string
	for _, list := range regexp.MustCompile(`lines ([0-9, ]+), `).FindAllStringSubmatch(strings.Join(strings.Fields(first), " "), -1) {
		told = append(told, strings.Split(list[1], ", ")...)
	}
	for _, n := range lines {
		if !slices.Contains(told, strconv.Itoa(n)) {
			t.Errorf("line %d is not reported", n)
		}
	}
	if len(told) != bad {
		t.Errorf("%d lines are reported: %v", len(told), told)
	}
	if again := printedBy(t, home, "import", file, "--bad", "skip"); !strings.Contains(again, "Kept 0 rows") {
		t.Errorf("the second time:\n%s", again)
	}
	mustRun(t, home, "sync")
	conn, err := pgx.Connect(t.Context(), s.DatabaseURL)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close(t.Context()) //nolint:errcheck // only read from
	var stored int
	if err := conn.QueryRow(t.Context(), "SELECT count(*) FROM readings").Scan(&stored); err != nil || stored != rows-bad {
		t.Errorf("%d readings stored, %v", stored, err)
	}
}

// printedBy runs freshet and gives what it printed; an import with bad rows ends with status 1.
func printedBy(t *testing.T, home string, args ...string) string {
	t.Helper()
	out, err := process(t, home, args...).CombinedOutput()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		t.Fatalf("freshet %v: %v", args, err)
	}
	return string(out)
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
