package mutate

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"strconv"
	"strings"

	"freshet.example/cmd/check/mutate/choice"
)

// names lists the tests, examples and fuzz targets of a test program.
func (e *examination) names(ctx context.Context, program string) ([]string, error) {
	list := exec.CommandContext(ctx, program, "-test.list", ".") //nolint:gosec // just built
	list.Dir = e.source.Dir
	said, err := list.Output()
	if err != nil {
		return nil, fmt.Errorf("listing tests: %w", err)
	}
	var names []string
	for name := range strings.Lines(string(said)) {
		name = strings.TrimSpace(name)
		if !strings.HasPrefix(name, "Benchmark") && (e.options.Tests == nil || e.options.Tests.MatchString(name)) {
			names = append(names, name)
		}
	}
	return names, nil
}

// A run is what a test program did.
type run struct {
	failed  bool
	last    string // the test begun last
	reached []int
	cost    float64 // seconds of processor time
	said    []byte
}

// start runs tests in the order given, with one literal changed or, for 0, none.
func (e *examination) start(ctx context.Context, program string, literal int, tests []string) (run, error) {
	ours, theirs, err := os.Pipe()
	if err != nil {
		return run{}, err
	}
	defer ours.Close() //nolint:errcheck // read to its end
	var said bytes.Buffer
	c := exec.CommandContext(ctx, program, "-test.failfast")
	c.Dir, c.Stdout, c.Stderr, c.ExtraFiles = e.source.Dir, &said, &said, []*os.File{theirs}
	c.Env = append(os.Environ(), choice.Literal+"="+fmt.Sprint(literal), choice.Tests+"="+strings.Join(tests, " "), "GOMAXPROCS=1")
	if err := c.Start(); err != nil {
		return run{}, errors.Join(err, theirs.Close())
	}
	if err := theirs.Close(); err != nil {
		return run{}, err
	}
	var r run
	r.hear(ours)
	err = c.Wait()
	if ctx.Err() != nil {
		return run{}, ctx.Err()
	}
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		return run{}, err
	}
	r.failed, r.said = err != nil, said.Bytes()
	r.cost = (c.ProcessState.UserTime() + c.ProcessState.SystemTime()).Seconds()
	return r, nil
}

// hear reads what the program reports until it ends.
func (r *run) hear(report io.Reader) {
	for lines := bufio.NewScanner(report); lines.Scan(); {
		switch word, rest, _ := strings.Cut(lines.Text(), " "); word {
		case choice.Begun:
			r.last = rest
		case choice.Reached:
			if n, err := strconv.Atoi(rest); err == nil {
				r.reached = append(r.reached, n)
			}
		}
	}
}
