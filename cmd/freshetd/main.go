// Command freshetd is the server of a cooperative: it keeps the growers' records
// in Postgres and answers their devices.
//
// Without a database of its own it starts a private Postgres in a folder, so
// that a cooperative needs no more than this program and Debian's packages.
package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"
)

func main() {
	ctx, restore := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	// A second signal ends the program at once.
	context.AfterFunc(ctx, restore)
	os.Exit(run(ctx, os.Args[1:], os.Stdout, os.Stderr))
}

// run runs one command until it is done or the context ends, and returns the
// exit status: 0, or 1 with a sentence on stderr.
func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	root := rootCommand()
	root.SetArgs(args)
	root.SetOut(stdout)
	root.SetErr(stderr)
	if err := root.ExecuteContext(ctx); err != nil {
		say(stderr, "freshetd: %v\n", err)
		return 1
	}
	return 0
}

// say writes to a person, who may have closed the terminal: then there is
// nobody to tell.
func say(to io.Writer, format string, values ...any) {
	_, _ = fmt.Fprintf(to, format, values...)
}
