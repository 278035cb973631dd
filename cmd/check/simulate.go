package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime"
	"sync"
	"sync/atomic"

	"github.com/spf13/cobra"

	"freshet.example/clients/device/simulation"
)

// A run of simulated histories.
type run struct {
	dir        string
	first, n   uint64
	planted    string
	out        io.Writer
	mu         sync.Mutex
	played     atomic.Uint64
	violations atomic.Uint64
	failed     error
}

func simulateCommand() *cobra.Command {
	r := &run{}
	var replay string
	c := &cobra.Command{
		Use:   "simulate",
		Short: "Weeks of sync that follow from seeds, and the promises that none may break",
		Long: "simulate plays histories of devices that sync over bad lines, each made from its seed, and looks for broken promises\n" +
			"(see the package clients/device/simulation). A failing seed is printed with its history, reduced to the steps that matter;\n" +
			"saved as a file it plays again with --replay. With --plant a fault is planted, and the first seed that finds it ends the run.",
		Example: "  check simulate --seeds 2000 --first-seed 1\n  check simulate --plant I6\n  check simulate --replay history.txt",
		Args:    cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) (err error) {
			r.out = c.OutOrStdout()
			if r.dir, err = memoryFolder(); err != nil {
				return err
			}
			defer func() { err = errors.Join(err, os.RemoveAll(r.dir)) }()
			if replay != "" {
				return r.replay(c.Context(), replay)
			}
			return r.all(c.Context())
		},
	}
	c.Flags().Uint64Var(&r.n, "seeds", 200, "how many histories")
	c.Flags().Uint64Var(&r.first, "first-seed", 1, "the first one's seed")
	c.Flags().StringVar(&r.planted, "plant", "", "plant the fault that breaks this promise, I1 to I15")
	c.Flags().StringVar(&replay, "replay", "", "play the history of this file")
	return c
}

// memoryFolder is a folder whose files cost no disk, where the system has one:
// what outlives a power cut is tried elsewhere, on processes that are killed.
func memoryFolder() (string, error) {
	if dir, err := os.MkdirTemp("/dev/shm", "freshet-simulation-"); err == nil {
		return dir, nil
	}
	return os.MkdirTemp("", "freshet-simulation-")
}

func (r *run) replay(ctx context.Context, file string) error {
	text, err := os.ReadFile(file) //nolint:gosec // the caller names the file
	if err != nil {
		return err
	}
	h, err := simulation.Parse(string(text))
	if err != nil {
		return err
	}
	found, err := simulation.Play(ctx, r.dir, h, r.planted)
	if err != nil {
		return err
	}
	if found != nil {
		fmt.Fprintln(r.out, found)
		return errFaults
	}
	fmt.Fprintln(r.out, "every promise held")
	return nil
}

// all plays the seeds on every core.
func (r *run) all(ctx context.Context) error {
	var next atomic.Uint64
	var workers sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		workers.Go(func() {
			for n := next.Add(1) - 1; n < r.n && r.goesOn(); n = next.Add(1) - 1 {
				if err := r.one(ctx, r.first+n); err != nil {
					r.fail(err)
				}
			}
		})
	}
	workers.Wait()
	if r.failed != nil {
		return r.failed
	}
	return r.tell()
}

// goesOn is over when something failed, or when the planted fault was found.
func (r *run) goesOn() bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.failed == nil && (r.planted == "" || r.violations.Load() == 0)
}

func (r *run) fail(err error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.failed = errors.Join(r.failed, err)
}

// one plays a seed, and shows a failing one reduced. A planted fault may break
// other promises first: the seed that breaks its own is looked for.
func (r *run) one(ctx context.Context, seed uint64) error {
	h := simulation.Made(seed)
	found, err := simulation.Play(ctx, r.dir, h, r.planted)
	r.played.Add(1)
	if err != nil {
		return fmt.Errorf("seed %d: %w", seed, err)
	}
	if found == nil || r.planted != "" && found.Promise != r.planted {
		return nil
	}
	reduced := simulation.Reduced(h, func(try simulation.History) bool {
		again, err := simulation.Play(ctx, r.dir, try, r.planted)
		return err == nil && again != nil && again.Promise == found.Promise
	})
	again, err := simulation.Play(ctx, r.dir, reduced, r.planted)
	if err == nil && again == nil {
		err = fmt.Errorf("the reduced history of seed %d no longer fails", seed)
	}
	if err == nil && r.planted != "" {
		err = r.holds(ctx, reduced)
	}
	if err != nil {
		return err
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	r.violations.Add(1)
	fmt.Fprintf(r.out, "seed %d: %v\nreduced from %d steps to %d: %v\n%s\n", seed, found, len(h.Steps), len(reduced.Steps), again, reduced)
	return nil
}

// holds plays a history without the planted fault: it must keep every promise.
func (r *run) holds(ctx context.Context, h simulation.History) error {
	found, err := simulation.Play(ctx, r.dir, h, "")
	if err == nil && found != nil {
		err = fmt.Errorf("without the planted fault: %w\n%s", found, h)
	}
	return err
}

// tell says how many promises were broken, on the last line.
func (r *run) tell() error {
	broken, played := r.violations.Load(), r.played.Load()
	fmt.Fprintf(r.out, "%d violations in %d seeds from %d\n", broken, played, r.first)
	if broken > 0 {
		return errFaults
	}
	return nil
}
