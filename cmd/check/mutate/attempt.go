package mutate

import (
	"context"
	"errors"
	"fmt"
	"path"
	"path/filepath"
	"sync"
	"syscall"
	"time"

	"golang.org/x/sync/errgroup"
	"golang.org/x/tools/go/packages"
)

// An examination is one package's.
type examination struct {
	options Options
	source  *packages.Package
	exempt  *exemptions
	scratch string

	constants *constants
	program   string
	tests     []*test // the cheapest first
	mutex     sync.Mutex
	lucky     map[[2]string]*test // which test noticed a change last, by file and declaration
	result    Result
}

func (e *examination) run(ctx context.Context) (*Result, error) {
	began, before := time.Now(), children()
	found := literals(e.options.Root, e.source)
	folder, err := filepath.Rel(e.options.Root, e.source.Dir)
	if err != nil {
		return nil, err
	}
	e.result = Result{Package: filepath.ToSlash(folder), Literals: len(found), Stale: e.exempt.missing(filepath.ToSlash(folder), found)}
	e.lucky = map[[2]string]*test{}
	if len(found) > 0 {
		spent := func() bool { return errors.Is(ctx.Err(), context.DeadlineExceeded) }
		if err := e.examine(ctx, found); err != nil && !spent() {
			return nil, err
		}
	}
	e.result.finish(time.Since(began), children()-before)
	return &e.result, nil
}

// children is the processor time, in seconds, of the programs started so far.
func children() float64 {
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_CHILDREN, &used); err != nil {
		return 0
	}
	return time.Duration(used.Utime.Nano() + used.Stime.Nano()).Seconds()
}

func (e *examination) examine(ctx context.Context, found []*Literal) (err error) {
	if e.constants, err = newConstants(e.source, found); err != nil {
		return err
	}
	e.result.Untried = len(found)
	if e.program, err = e.compile(ctx, "switched", rewrite(e.source, e.constants)); err != nil {
		return err
	}
	if err := e.survey(ctx); err != nil {
		return err
	}
	group, ctx := errgroup.WithContext(ctx)
	group.SetLimit(e.options.Workers)
	for _, l := range found {
		if e.options.Only != nil && !e.options.Only.MatchString(l.String()) {
			continue
		}
		group.Go(func() error {
			test, err := e.attempt(ctx, l)
			if err == nil {
				e.note(l, test)
			}
			return err
		})
	}
	return group.Wait()
}

// attempt changes one literal and returns the test that noticed, empty when
// none did.
func (e *examination) attempt(ctx context.Context, l *Literal) (string, error) {
	if l.alone {
		return e.attemptAlone(ctx, l)
	}
	tests := e.reaching(l)
	if len(tests) == 0 || ctx.Err() != nil {
		return "", ctx.Err()
	}
	r, err := e.start(ctx, e.program, l.number, calls(tests))
	if err != nil {
		return "", err
	}
	if !r.failed {
		e.learn(l, tests, "")
		return "", nil
	}
	e.learn(l, tests, r.last)
	return "test " + r.last, nil
}

// attemptAlone compiles the package for one literal and runs all its tests. A
// package that does not compile has been noticed.
func (e *examination) attemptAlone(ctx context.Context, l *Literal) (string, error) {
	name := e.source.Fset.Position(l.node.Pos()).Filename
	at := e.source.Fset.Position(l.node.Pos()).Offset
	text := string(e.constants.text[name])
	program, err := e.compile(ctx, fmt.Sprint("alone", l.number), map[string]string{
		name: text[:at] + l.Changed + text[at+len(l.Text):],
		path.Join(e.source.Dir, "choice_of_test.go"): testMain(e.source),
	})
	if ctx.Err() != nil {
		return "", ctx.Err()
	}
	if err != nil {
		return "the compiler", nil //nolint:nilerr // that is the finding
	}
	if len(e.tests) == 0 {
		return "", nil
	}
	r, err := e.start(ctx, program, 0, calls(e.tests))
	if err != nil || !r.failed {
		return "", err
	}
	return "test " + r.last, nil
}

func calls(tests []*test) []string {
	var list []string
	for _, t := range tests {
		list = append(list, t.call())
	}
	return list
}

// note keeps what came of a literal.
func (e *examination) note(l *Literal, noticedBy string) {
	e.mutex.Lock()
	defer e.mutex.Unlock()
	e.result.Untried--
	switch reason := e.exempt.reason(l); {
	case reason == "" && noticedBy == "":
		e.result.Unnoticed = append(e.result.Unnoticed, l)
	case reason != "" && noticedBy == "":
		e.result.Exempt++
	case reason != "":
		e.result.Stale = append(e.result.Stale, fmt.Sprintf("%v: exempt, yet %s notices", l, noticedBy))
	}
}
