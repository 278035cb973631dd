package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/spf13/cobra"

	"freshet.example/server/servertest"
	"freshet.example/store"
)

// hosted is what the host answers to a line.
type hosted struct {
	Code  string `json:"code,omitempty"` // the cooperative's first invitation
	GRPC  string `json:"grpc,omitempty"`
	HTTP  string `json:"http,omitempty"`
	Now   int64  `json:"now_ms"` // the history's time
	Error string `json:"error,omitempty"`
}

func historiesCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "histories",
		Short: "A server for testdata/sync, whose steps come on standard input",
		Args:  cobra.NoArgs,
		RunE:  func(c *cobra.Command, _ []string) error { return histories(c.InOrStdin(), c.OutOrStdout()) },
	}
}

// histories serves the histories of testdata/sync to clients that are not
// written in Go: one step a line, as JSON, and one answer a line. {"new": true}
// begins a history; the other steps are servertest.HostStep. It ends with its
// input.
func histories(in io.Reader, out io.Writer) (err error) {
	ctx := context.Background()
	dir, err := os.MkdirTemp("", "freshet-histories-")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	postgres, err := store.StartPrivate(ctx, dir)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, postgres.Stop()) }()
	host := servertest.NewHost(postgres.URL())
	defer func() { err = errors.Join(err, host.Close()) }()
	answers := json.NewEncoder(out)
	for lines := bufio.NewScanner(in); lines.Scan(); {
		if err := answers.Encode(answered(ctx, host, lines.Bytes())); err != nil {
			return err
		}
	}
	return nil
}

func answered(ctx context.Context, host *servertest.Host, line []byte) hosted {
	var step struct {
		New bool `json:"new"`
		servertest.HostStep
	}
	reader := json.NewDecoder(bytes.NewReader(line))
	reader.DisallowUnknownFields()
	err := reader.Decode(&step)
	var a hosted
	switch {
	case err != nil:
	case step.New:
		a.Code, err = host.New(ctx)
	default:
		err = host.Do(ctx, step.HostStep)
	}
	a.GRPC, a.HTTP = host.Addresses()
	a.Now = host.Now().UnixMilli()
	if err != nil {
		a.Error = fmt.Sprint(err)
	}
	return a
}
