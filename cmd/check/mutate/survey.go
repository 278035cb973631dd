package mutate

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"sync"

	"golang.org/x/sync/errgroup"
)

// A test is one test function of the package.
type test struct {
	name    string
	cost    float64 // seconds of processor time
	reached map[int]bool
}

// survey runs each test once, unchanged, in a process of its own, so that what
// one test prepared for the next does not hide what it reaches.
func (e *examination) survey(ctx context.Context) error {
	names, err := e.names(ctx, e.program)
	if err != nil {
		return err
	}
	e.tests = make([]*test, len(names))
	group, ctx := errgroup.WithContext(ctx)
	group.SetLimit(e.options.Workers)
	for i, name := range names {
		group.Go(func() error {
			r, err := e.start(ctx, e.program, 0, []string{name + ":60"})
			if err != nil {
				return err
			}
			if r.failed {
				return fmt.Errorf("%s fails with nothing changed:\n%s", name, r.said)
			}
			e.tests[i] = &test{name, r.cost, map[int]bool{}}
			for _, n := range r.reached {
				e.tests[i].reached[n] = true
			}
			return nil
		})
	}
	if err := group.Wait(); err != nil {
		return err
	}
	slices.SortFunc(e.tests, func(a, b *test) int { return cmp.Compare(a.cost, b.cost) })
	return nil
}

// reaching lists the tests that reach a literal: first the one that noticed
// the last change near it, then the cheapest.
func (e *examination) reaching(l *Literal) []string {
	first := e.lucky.of(l)
	var names []string
	for _, t := range e.tests {
		if !t.reached[l.number] {
			continue
		}
		call := fmt.Sprintf("%s:%.3f", t.name, t.cost)
		if t.name == first {
			names = slices.Insert(names, 0, call)
		} else {
			names = append(names, call)
		}
	}
	return names
}

// lucky remembers which test noticed a change last, by declaration.
type lucky struct {
	mutex sync.Mutex
	tests map[[2]string]string
}

func (k *lucky) of(l *Literal) string {
	k.mutex.Lock()
	defer k.mutex.Unlock()
	return k.tests[[2]string{l.File, l.Declaration}]
}

func (k *lucky) noticed(l *Literal, test string) {
	k.mutex.Lock()
	defer k.mutex.Unlock()
	k.tests[[2]string{l.File, l.Declaration}] = test
}
