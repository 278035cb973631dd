package simulation_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"freshet.example/clients/device/simulation"
)

// disk is a folder whose files cost no disk, where the system has one.
func disk(t *testing.T) string {
	t.Helper()
	dir, err := os.MkdirTemp("/dev/shm", "freshet-simulation-")
	if err != nil {
		return t.TempDir()
	}
	t.Cleanup(func() { _ = os.RemoveAll(dir) }) // the system empties it too
	return dir
}

func play(t *testing.T, dir string, h simulation.History, planted string) *simulation.Violation {
	t.Helper()
	found, err := simulation.Play(t.Context(), dir, h, planted)
	if err != nil {
		t.Fatalf("%v\n%s", err, h)
	}
	return found
}

// Many more are played by make simulate.
func TestHistoriesKeepEveryPromise(t *testing.T) {
	dir := disk(t)
	for seed := range uint64(30) {
		if found := play(t, dir, simulation.Made(seed+1), ""); found != nil {
			t.Fatalf("seed %d: %v\n%s", seed+1, found, simulation.Made(seed+1))
		}
	}
}

// testdata keeps histories that once broke a promise, reduced, by what they are about.
func TestHistoriesThatOnceFailed(t *testing.T) {
	files, err := filepath.Glob("testdata/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatalf("%d histories, %v", len(files), err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txt"), func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			h, err := simulation.Parse(string(text))
			if err != nil {
				t.Fatal(err)
			}
			if found := play(t, disk(t), h, ""); found != nil {
				t.Error(found)
			}
		})
	}
}

// A fault planted for each promise is found by a history that keeps all
// promises without it.
func TestEachPromiseHasAPlantedFaultThatIsFound(t *testing.T) {
	dir := disk(t)
	for n := range 15 {
		promise := fmt.Sprint("I", n+1)
		t.Run(promise, func(t *testing.T) {
			for seed := range uint64(1000) {
				h := simulation.Made(seed + 1)
				found := play(t, dir, h, promise)
				if found == nil || found.Promise != promise {
					continue
				}
				if sound := play(t, dir, h, ""); sound != nil {
					t.Fatalf("seed %d fails without the fault: %v", seed+1, sound)
				}
				t.Logf("seed %d: %v", seed+1, found)
				return
			}
			t.Error("no seed finds it")
		})
	}
}

// A failing history shrinks to the steps that matter, and its text plays again.
func TestAFailingHistoryIsReducedAndReplays(t *testing.T) {
	dir := disk(t)
	h := simulation.Made(2)
	if found := play(t, dir, h, "I13"); found == nil || found.Promise != "I13" {
		t.Fatalf("seed 2 finds %v", found)
	}
	reduced := simulation.Reduced(h, func(try simulation.History) bool {
		found := play(t, dir, try, "I13")
		return found != nil && found.Promise == "I13"
	})
	if len(reduced.Steps) != 1 || reduced.Steps[0].Verb != "badgroup" {
		t.Errorf("reduced to\n%s", reduced)
	}
	again, err := simulation.Parse(reduced.String())
	if err != nil || again.String() != reduced.String() {
		t.Fatalf("read again as %q, %v", again, err)
	}
	if found := play(t, dir, again, "I13"); found == nil {
		t.Error("the text does not fail")
	}
	if _, err := simulation.Parse("devices 2 sites 1\nvanish 0 0 0\n"); err == nil {
		t.Error("an unknown verb is read")
	}
}
