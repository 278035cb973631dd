package main

import (
	"bufio"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/server/servertest"
)

var listening = regexp.MustCompile(`Listening for probes on (http://\S+);`)

// A gateway notes what a probe sends before it answers, and sends it on by
// itself; killed with -9, it has lost nothing that it answered.
func TestAGatewayNotesAndSendsOn(t *testing.T) {
	s := servertest.New(t)
	home := t.TempDir()
	mustRun(t, home, "join", invite(t, s, freshetv1.Role_ROLE_GROWER), "--server", s.GRPCAddress().String(), "--name", "Ana", "--device", "gateway")
	mustRun(t, home, "set", "site", "Barn", "time_zone=UTC")
	sheet := filepath.Join(t.TempDir(), "probes.csv")
	if err := os.WriteFile(sheet, []byte("name,quantity\nbox/ph,ph\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	c := process(t, home, "gateway", sheet, "--listen", "127.0.0.1:0")
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewReader(out)
	first, err := lines.ReadString('\n')
	at := listening.FindStringSubmatch(first)
	if at == nil {
		t.Fatalf("%q %v", first, err)
	}
	send(t, at[1], `[{"n":"box/ph","v":7.2},{"n":"box/lid","v":1}]`, `{"noted":1,"again":0,"unknown":["box/lid"]}`)
	if line, _ := lines.ReadString('\n'); line != "Unknown name box/lid: add a line to the sheet and start again.\n" {
		t.Errorf("it says %q", line)
	}
	for waiting(t, home) > 0 {
		time.Sleep(20 * time.Millisecond)
	}
	send(t, at[1], `[{"n":"box/ph","v":7.3}]`, `{"noted":1,"again":0}`)
	_ = c.Process.Kill()
	_ = c.Wait() // it was killed
	if n := entriesOf(t, home); n != 2 {
		t.Errorf("%d entries of the 2 that were answered", n)
	}
}

func send(t *testing.T, url, list, want string) {
	t.Helper()
	answer, err := http.Post(url, "application/senml+json", strings.NewReader(list))
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close() //nolint:errcheck // only read from
	said, err := io.ReadAll(answer.Body)
	if err != nil || answer.StatusCode != http.StatusOK || strings.TrimSpace(string(said)) != want {
		t.Errorf("%s is answered %s %s, %v", list, answer.Status, said, err)
	}
}

// waiting is how many entries are only on the device.
func waiting(t *testing.T, home string) int {
	t.Helper()
	d, err := device.Open(home)
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close() //nolint:errcheck // only read from
	s, err := d.Status(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return s.Waiting
}

func TestAGatewayThatOthersReachNeedsAKey(t *testing.T) {
	short := filepath.Join(t.TempDir(), "key")
	if err := os.WriteFile(short, []byte("1234\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ listen, key, says string }{
		{"0.0.0.0:0", "", "give --key"}, {":0", "", "give --key"}, {"nowhere", "", "HOST:PORT"}, {"127.0.0.1:0", short, "16 characters"},
	} {
		_, err := gatewayKey(c.listen, c.key)
		if err == nil || !strings.Contains(err.Error()+complaintOf(err).Hint, c.says) {
			t.Errorf("%+v: %v", c, err)
		}
	}
	if _, err := gatewayKey("127.0.0.1:7413", ""); err != nil {
		t.Error(err)
	}
}
