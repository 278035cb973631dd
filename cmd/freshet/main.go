// Command freshet is the grower's and the steward's notebook at a terminal:
// it notes, reads and asks on one device, with or without a network.
//
// Exit status: 0 done; 1 not done, since something given was wrong or was
// refused; 2 not done now, since the co-op's server was not reached or could
// not answer: what was noted is kept, try again later.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
	"time"
)

func main() { os.Exit(run(time.Now)) }

// run obeys the command line, by a clock.
func run(now func() time.Time) int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	a := &app{in: os.Stdin, out: os.Stdout, err: os.Stderr, now: now}
	defer a.close()
	root := rootCommand(a)
	if err := root.ExecuteContext(ctx); err != nil {
		return a.complain(err)
	}
	return 0
}
