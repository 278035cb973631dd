// Package mutate finds numbers in code that no test would miss. It changes one
// number at a time, runs the tests that reach it, and lists what none of them
// noticed.
//
// How, for each package:
//
//	literal.go   which numbers there are, and what each is changed to
//	constant.go  which constants depend on which numbers
//	rewrite.go   the package rewritten: each constant expression a switch
//	build.go     compiled once, through an overlay; the tree is not touched
//	survey.go    each test run once, unchanged: what it costs, what it reaches
//	attempt.go   each number changed: the tests that reach it, those that notice most for their cost first
//	exempt.go    numbers that no test can notice, listed with a reason
//	report.go    what came of it
//
// Constant arithmetic stays the compiler's: for 1.0/3 both the expression as
// written and the expression with 2*3 in the place of 3 are compiled. A number
// that must stay constant, such as the length of an array, has a compilation
// of its own. Constants are switched in the package's own code and in its
// tests inside the package; other packages see them unchanged, so that a
// package must hold its numbers by its own tests.
package mutate

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"time"

	"golang.org/x/tools/go/packages"
)

// Options say what to examine.
type Options struct {
	Root    string                        // the folder of the module
	Exempt  string                        // the file of exemptions; none when empty
	Budget  time.Duration                 // stop after this long; no limit when 0
	Workers int                           // how many test programs run at once, from 1
	Keep    func(packagePath string) bool // which packages; all when nil
	Only    *regexp.Regexp                // which numbers, by the line that names them; all when nil
	Tests   *regexp.Regexp                // which tests; all when nil
}

// Run examines the packages that the patterns name, as the go command reads
// patterns, and tells each result as soon as it stands.
func Run(ctx context.Context, options Options, patterns []string, tell func(*Result) error) (err error) {
	exemptions, err := readExemptions(options.Exempt)
	if err != nil {
		return err
	}
	loaded, err := load(ctx, options, patterns)
	if err != nil {
		return err
	}
	scratch, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(scratch)) }()
	budget, stop := within(ctx, options.Budget)
	defer stop()
	for i, p := range loaded {
		e := examination{options: options, source: p, exempt: exemptions, scratch: filepath.Join(scratch, fmt.Sprint(i))}
		result, err := e.run(budget)
		if err != nil {
			return fmt.Errorf("%s: %w", p.PkgPath, err)
		}
		if err := tell(result); err != nil {
			return err
		}
	}
	return nil
}

// List returns the literals of the packages without changing any.
func List(ctx context.Context, options Options, patterns []string) ([]*Literal, error) {
	loaded, err := load(ctx, options, patterns)
	var all []*Literal
	for _, p := range loaded {
		all = append(all, literals(options.Root, p)...)
	}
	return all, err
}

func within(ctx context.Context, budget time.Duration) (context.Context, context.CancelFunc) {
	if budget == 0 {
		return context.WithCancel(ctx)
	}
	return context.WithTimeout(ctx, budget)
}

// load reads packages with their types, each together with its tests.
func load(ctx context.Context, options Options, patterns []string) ([]*packages.Package, error) {
	const mode = packages.NeedName | packages.NeedFiles | packages.NeedCompiledGoFiles | packages.NeedSyntax | packages.NeedTypes | packages.NeedTypesInfo | packages.NeedImports | packages.NeedForTest
	all, err := packages.Load(&packages.Config{Context: ctx, Mode: mode, Dir: options.Root, Tests: true}, patterns...)
	if err != nil {
		return nil, err
	}
	var chosen []*packages.Package
	for _, p := range all {
		for _, fault := range p.Errors {
			return nil, fault
		}
		if isWhole(p, all) && (options.Keep == nil || options.Keep(p.PkgPath)) {
			chosen = append(chosen, p)
		}
	}
	if len(chosen) == 0 {
		return nil, errors.New("no package is meant")
	}
	return chosen, nil
}

// isWhole says that p is a package with its inside tests, or has none.
func isWhole(p *packages.Package, all []*packages.Package) bool {
	if p.ForTest != "" {
		return p.ForTest == p.PkgPath
	}
	if p.Name == "main" && filepath.Ext(p.PkgPath) == ".test" {
		return false
	}
	for _, other := range all {
		if other.ForTest == p.PkgPath && other.PkgPath == p.PkgPath {
			return false
		}
	}
	return true
}
