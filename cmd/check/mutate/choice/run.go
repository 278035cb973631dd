package choice

import (
	"flag"
	"fmt"
	"os"
	"os/signal"
	"strconv"
	"strings"
	"syscall"
)

// A changed number may make a loop endless or a list too long.
const (
	patience  = 5       // times what a test took
	leastTime = 2       // seconds of processor time that any test gets
	memory    = 1 << 30 // bytes
)

// Run runs the tests that were asked for, one after the other, and stops at the
// first that fails. It returns the exit status.
func Run(tests interface{ Run() int }) int {
	asked := strings.Fields(os.Getenv(Tests))
	if len(asked) == 0 {
		return tests.Run()
	}
	endWhenBound()
	out := os.NewFile(Descriptor, "report")
	for _, one := range asked {
		if status := runOne(tests, out, one); status != 0 {
			return status
		}
	}
	if err := report(out); err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	return 0
}

func runOne(tests interface{ Run() int }, out *os.File, asked string) int {
	name, seconds, _ := strings.Cut(asked, ":")
	cost, err := strconv.ParseFloat(seconds, 64)
	if err == nil {
		err = bound(cost)
	}
	if err == nil {
		err = flag.Set("test.run", "^"+name+"$")
	}
	if err == nil {
		_, err = fmt.Fprintln(out, Begun, name)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	return tests.Run()
}

// endWhenBound heeds the signal that Go leaves alone otherwise.
func endWhenBound() {
	over := make(chan os.Signal, 1)
	signal.Notify(over, syscall.SIGXCPU)
	go func() {
		<-over
		fmt.Fprintln(os.Stderr, "choice: this takes much longer than it did")
		os.Exit(1)
	}()
}

// bound ends this process when it uses much more than a test used before:
// processor time, which a busy machine does not stretch, and memory.
func bound(seconds float64) error {
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &used); err != nil {
		return err
	}
	limit := float64(used.Utime.Sec+used.Stime.Sec) + patience*seconds + leastTime
	if err := lower(syscall.RLIMIT_CPU, uint64(limit)); err != nil {
		return err
	}
	return lower(syscall.RLIMIT_DATA, memory)
}

// lower sets the limit that binds and leaves the one that could be asked for.
func lower(resource int, value uint64) error {
	var limit syscall.Rlimit
	if err := syscall.Getrlimit(resource, &limit); err != nil {
		return err
	}
	limit.Cur = min(value, limit.Max)
	return syscall.Setrlimit(resource, &limit)
}
