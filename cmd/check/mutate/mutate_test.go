package mutate

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
)

const (
	lamp     = "./cmd/check/mutate/testdata/lamp"
	lampFile = "cmd/check/mutate/testdata/lamp/lamp.go"
)

// examine changes the numbers of the package lamp, with exemptions.
func examine(t *testing.T, exempt string, budget time.Duration) *Result {
	t.Helper()
	name := filepath.Join(t.TempDir(), "exempt.txt")
	if err := os.WriteFile(name, []byte("# a remark\n\n"+exempt), 0o600); err != nil {
		t.Fatal(err)
	}
	var results []*Result
	err := Run(t.Context(), Options{Root: root(t), Exempt: name, Budget: budget, Workers: 2}, []string{lamp}, func(r *Result) error {
		results = append(results, r)
		return nil
	})
	if err != nil || len(results) != 1 {
		t.Fatal(len(results), err)
	}
	return results[0]
}

func root(t *testing.T) string {
	t.Helper()
	folder, err := filepath.Abs("../../..")
	if err != nil {
		t.Fatal(err)
	}
	return folder
}

// TestOnly: what is not asked about is counted as not tried, and said to be neither.
func TestOnly(t *testing.T) {
	var r *Result
	err := Run(t.Context(), Options{Root: root(t), Workers: 2, Only: regexp.MustCompile(`unpinned  1\.75`)}, []string{lamp}, func(one *Result) error {
		r = one
		return nil
	})
	if err != nil || len(r.Unnoticed) != 1 || r.Unnoticed[0].Declaration != "unpinned" || r.Untried != r.Literals-1 || r.Clean() {
		t.Errorf("%+v, %v", r, err)
	}
}

// TestLamp: of all the places in which a number can stand, only those are
// named that the tests of lamp leave alone; and of the exemptions one whose
// number is gone and one that a test notices.
func TestLamp(t *testing.T) {
	r := examine(t, lampFile+" exempt 1e-300 1 less is never asked\n"+
		lampFile+" Pinned 0.25 1 for no reason\n"+lampFile+" Pinned 0.75 1 long gone\ncmd/elsewhere/x.go f 1 1 not asked about\n", 0)
	var unnoticed []string
	for _, l := range r.Unnoticed {
		unnoticed = append(unnoticed, l.Declaration+" "+l.Text)
	}
	if want := []string{"unpinned 1.75", "unpinned 0", "unreached 2.25"}; !slices.Equal(unnoticed, want) {
		t.Errorf("no test notices %q, want %q", unnoticed, want)
	}
	said := strings.Join(r.Stale, "\n")
	if len(r.Stale) != 2 || !strings.Contains(said, "0.25 (1) -> (2*0.25): exempt, yet test TestFunctions notices") || !strings.Contains(said, "0.75 (1): there is no such number") {
		t.Error(said)
	}
	if r.Literals != 22 || r.Exempt != 1 || r.Untried != 0 || r.Clean() {
		t.Errorf("%+v", r)
	}
}

// TestBudget: what there was no time for is not called noticed.
func TestBudget(t *testing.T) {
	r := examine(t, "", time.Millisecond)
	if r.Untried != r.Literals || r.Clean() || len(r.Unnoticed) > 0 {
		t.Errorf("%+v", r)
	}
}

func TestExemptionsRefused(t *testing.T) {
	for line, want := range map[string]string{
		"a.go f 1 1": "reason", "a.go f 1 first because": "by a number", "a.go f 1 1 because\na.go f 1 1 so": "twice",
	} {
		name := filepath.Join(t.TempDir(), "exempt.txt")
		if err := os.WriteFile(name, []byte(line), 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := readExemptions(name); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v", line, err)
		}
	}
}

// TestList: what each number would be changed to.
func TestList(t *testing.T) {
	all, err := List(t.Context(), Options{Root: root(t)}, []string{lamp})
	if err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	for _, l := range all {
		out.WriteString(l.String() + "\n")
	}
	for _, want := range []string{
		"lamp.go:14  pinnedHours  24 (1) -> (2*24)", "pinnedByItsEnd  0 (2) -> 1", "Pinned  1.0e-3 (1) -> 1.0e3", "pinnedSign  1 (1) -> (-1)", "pinnedSign  64 (1) -> 32",
	} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("nothing says %q in:\n%s", want, out.String())
		}
	}
}
