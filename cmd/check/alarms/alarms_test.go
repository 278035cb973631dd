package alarms

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A few months of what make alarms does with many: fewer than one sign a month
// where nothing is wrong, and each fault found in time in most months that show it.
func TestSignsComeInTimeAndSeldomWrongly(t *testing.T) {
	const months = 12
	quiet, err := watchMonths(months, 8)
	if err != nil {
		t.Fatal(err)
	}
	total := 0
	for _, n := range quiet {
		total += n
	}
	if total >= months {
		t.Errorf("%d signs in %d months in which nothing is wrong: %v", total, months, quiet)
	}
	var outcomes []outcome
	for _, f := range faults {
		hours, err := findFaults(months, f)
		if err != nil {
			t.Fatal(err)
		}
		o := outcome{f, hours}
		outcomes = append(outcomes, o)
		within, ever := o.found()
		if n := len(hours); n == 0 || 3*within < 2*n || ever < n-1 {
			t.Errorf("%s: found in %d of %d months in time, in %d at all: %v", f.title, within, n, ever, hours)
		}
	}
	if page := quietTable(quiet, months) + faultTable(outcomes, months); strings.Count(page, "\n| ") != 2*2+1+len(quiet)+len(faults) {
		t.Errorf("the page:\n%s", page)
	}
}

// The page is written whole, even of one month.
func TestRunWritesThePage(t *testing.T) {
	to := t.TempDir()
	if err := Run(Options{Months: 1, To: to, Command: "this"}); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join(to, "alarms.md"))
	if err != nil || !strings.Contains(string(text), "Made by `this`") || !strings.Contains(string(text), "| pump and air stand | 1 | 1 | 1 |") {
		t.Errorf("%v\n%s", err, text)
	}
}
