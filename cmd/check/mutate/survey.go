package mutate

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"golang.org/x/sync/errgroup"
)

// A test is one test function of the package.
type test struct {
	name    string
	cost    float64 // seconds of processor time
	reached map[int]bool

	tried, noticed int // changes of numbers that it reaches
}

// call names a test and its cost for a test program.
func (t *test) call() string { return fmt.Sprintf("%s:%.3f", t.name, t.cost) }

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
			e.tests[i] = &test{name: name, cost: r.cost, reached: map[int]bool{}}
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
// the last change near it, then those that notice most for their cost.
func (e *examination) reaching(l *Literal) []*test {
	e.mutex.Lock()
	defer e.mutex.Unlock()
	var list []*test
	for _, t := range e.tests {
		if t.reached[l.number] {
			list = append(list, t)
		}
	}
	near := e.lucky[[2]string{l.File, l.Declaration}]
	slices.SortFunc(list, func(a, b *test) int {
		return cmp.Or(cmp.Compare(aside(a == near), aside(b == near)), cmp.Compare(a.price(), b.price()))
	})
	return list
}

// aside is 0 for what comes first, and 1 for the rest.
func aside(first bool) int {
	if first {
		return 0
	}
	return 1
}

// price is the processor time for each change that a test notices, by how it did
// so far.
func (t *test) price() float64 { return t.cost * float64(t.tried+2) / float64(t.noticed+1) }

// learn keeps how tests did that were run in this order up to the named one,
// which noticed the change of a literal; with no name none did.
func (e *examination) learn(l *Literal, tests []*test, name string) {
	e.mutex.Lock()
	defer e.mutex.Unlock()
	for _, t := range tests {
		t.tried++
		if t.name == name {
			t.noticed++
			e.lucky[[2]string{l.File, l.Declaration}] = t
			return
		}
	}
}
