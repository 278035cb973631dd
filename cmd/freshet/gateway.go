package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"strings"
	"sync"
	"time"

	"github.com/spf13/cobra"

	"freshet.example/clients/device"
	"freshet.example/cmd/freshet/probes"
)

func gatewayCommand(a *app) *cobra.Command {
	var listen, keyFile string
	c := &cobra.Command{
		Use:   "gateway SHEET",
		Short: "Take readings from probes and send them on",
		Long: "Take readings that probes send as SenML (RFC 8428), JSON or CBOR, by HTTP POST. They are noted on\n" +
			"this device and sent to the co-op as it can be reached. The sheet (CSV) says what each name stands for:\n\n" +
			"  name,quantity,at,unit\n" +
			"  urn:dev:ow:10e2073a0108:temperature,water_temperature,Fish tank,\n" +
			"  urn:dev:mac:0024befffe80:ph,ph,Fish tank,\n" +
			"  urn:dev:mac:0024befffe80:o2,dissolved_oxygen,Fish tank,mg/L\n\n" +
			"A name that is not in it is said here once, and told to the probe. An address that other machines\n" +
			"reach needs a key, which probes send as bearer token; it travels as plain text, so keep it to a network of your own.",
		Example: example("freshet gateway probes.csv", "freshet gateway probes.csv --listen 192.168.1.20:7413 --key probes.key"),
		Args:    oneArgument("the sheet of probes"),
		RunE: func(c *cobra.Command, args []string) error {
			key, err := gatewayKey(listen, keyFile)
			if err != nil {
				return err
			}
			return gateway(c.Context(), a, args[0], listen, key)
		},
	}
	c.Flags().StringVar(&listen, "listen", "127.0.0.1:7413", "address for probes, HOST:PORT")
	c.Flags().StringVar(&keyFile, "key", "", "file with the key that probes must send")
	return c
}

// gatewayKey reads the key; only probes on this machine need none.
func gatewayKey(listen, file string) (string, error) {
	host, _, err := net.SplitHostPort(listen)
	if err != nil {
		return "", wrong(fmt.Sprintf("%q is no address", listen), "write it HOST:PORT")
	}
	if file == "" {
		if ip := net.ParseIP(host); host == "localhost" || ip != nil && ip.IsLoopback() {
			return "", nil
		}
		return "", wrong("other machines reach "+listen, "give --key FILE, so that only your probes are heard")
	}
	text, err := os.ReadFile(file) //nolint:gosec // the person names the file
	if err != nil {
		return "", err
	}
	key := strings.TrimSpace(string(text))
	if len(key) < 16 {
		return "", wrong("the key in "+file+" is short enough to be guessed", "write 16 characters or more into it")
	}
	return key, nil
}

// gateway listens and follows until it is stopped.
func gateway(ctx context.Context, a *app, sheet, listen, key string) error {
	known, err := readProbes(ctx, a, sheet)
	if err != nil {
		return err
	}
	g, err := probes.New(ctx, a.dev, known, a.now)
	if err != nil {
		return err
	}
	listener, err := (&net.ListenConfig{}).Listen(ctx, "tcp", listen)
	if err != nil {
		return err
	}
	t := &teller{app: a, told: map[string]bool{}}
	server := &http.Server{Handler: g.Handler(key, t.unknown), ReadHeaderTimeout: 10 * time.Second, ReadTimeout: 30 * time.Second, MaxHeaderBytes: 16 << 10}
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(listener) }()
	following, stop := context.WithCancel(ctx)
	var follower sync.WaitGroup
	follower.Go(func() { a.dev.Follow(following, t.contact) })
	say(a.out, "Listening for probes on http://%s; %s known. Stop with Ctrl-C.", listener.Addr(), many(len(known), "name is", "names are"))
	select {
	case err = <-ended:
	case <-ctx.Done():
		patient, done := context.WithTimeout(context.WithoutCancel(ctx), 5*time.Second)
		defer done()
		err = server.Shutdown(patient)
	}
	stop()
	follower.Wait()
	return err
}

func readProbes(ctx context.Context, a *app, sheet string) (map[string]probes.Probe, error) {
	desk, err := a.desk(ctx)
	if err != nil {
		return nil, err
	}
	file, err := os.Open(sheet) //nolint:gosec // the person names the file
	if err != nil {
		return nil, err
	}
	known, err := probes.Read(file, desk)
	return known, errors.Join(err, file.Close())
}

// A teller says what is new, once.
type teller struct {
	app    *app
	mu     sync.Mutex
	told   map[string]bool
	silent bool // the co-op was not reached at the last contact
}

// mostNames bounds what strangers can make a gateway remember.
const mostNames = 1000

func (t *teller) unknown(names []string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	for _, name := range names {
		if !t.told[name] && len(t.told) < mostNames {
			t.told[name] = true
			say(t.app.out, "Unknown name %s: add a line to the sheet and start again.", name)
		}
	}
}

func (t *teller) contact(p device.Progress, err error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	switch {
	case err != nil && !t.silent:
		say(t.app.out, "%s, %s; tried again until it works.", complaintOf(err).Words, many(p.Waiting, "reading waits", "readings wait"))
	case err == nil && t.silent:
		say(t.app.out, "The co-op answers again; nothing waits.")
	}
	t.silent = err != nil
}
