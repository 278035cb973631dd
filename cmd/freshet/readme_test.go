package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"freshet.example/cmd/freshetd/demo"
	"freshet.example/server"
	"freshet.example/server/auth"
	"freshet.example/server/servertest"
	"freshet.example/store"
)

// readmeDay is the day on which the README's screens were printed. The demo
// counts back from it, so that they come out the same on any day.
var readmeDay = time.Date(2026, 11, 25, 7, 0, 0, 0, time.UTC)

// commandEnv makes this test program the freshet command; its value is the moment it is run at.
const commandEnv = "FRESHET_RUN_AT"

func TestReadmeShowsWhatIsPrinted(t *testing.T) {
	home := openDemo(t, readmeDay)
	path := filepath.Join("..", "..", "README.md")
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	shown := screens(string(text))
	if len(shown) != 3 {
		t.Fatalf("%d screens are shown", len(shown))
	}
	for _, s := range shown {
		printed := freshetAt(t, readmeDay, home, strings.Fields(s.command)[1:]...)
		if printed != s.output {
			t.Errorf("%s prints\n%s\nand the README shows\n%s", s.command, printed, s.output)
		}
	}
}

// screen is a command line of the README with what it prints.
type screen struct{ command, output string }

// screens finds blocks that begin with a command of the demo's phone.
func screens(text string) []screen {
	var list []screen
	for _, block := range strings.Split(text, "```\n") {
		first, rest, _ := strings.Cut(block, "\n")
		if command, ok := strings.CutPrefix(first, "$ .bin/freshet --home .demo/phone"); ok {
			list = append(list, screen{"freshet" + command, rest})
		}
	}
	return list
}

// openDemo loads the demo as on a day and gives the folder of the steward's phone.
func openDemo(t *testing.T, day time.Time) string {
	t.Helper()
	s := servertest.Start(t, server.Options{Now: func() time.Time { return day }})
	code, hash := auth.NewCode()
	if err := s.Store.FoundCooperative(t.Context(), uuid.New(), store.Invitation{CodeHash: hash, Role: store.RoleSteward, ExpiresAt: time.Now().Add(time.Hour)}); err != nil {
		t.Fatal(err)
	}
	stranger := s.Stranger().Conn
	loaded, err := demo.Load(t.Context(), stranger, code, day)
	if err != nil {
		t.Fatal(err)
	}
	further, err := loaded.Invite(t.Context(), stranger)
	if err != nil {
		t.Fatal(err)
	}
	home := t.TempDir()
	freshetAt(t, day, home, "join", further, "--server", s.GRPCAddress().String(), "--device", "a phone to look around with")
	freshetAt(t, day, home, "sync")
	return home
}

// freshetAt runs the command line 80 columns wide at a moment.
func freshetAt(t *testing.T, at time.Time, home string, args ...string) string {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	c := exec.Command(self, append([]string{"--home", home}, args...)...)
	c.Env = append(os.Environ(), commandEnv+"="+at.Format(time.RFC3339), "COLUMNS=80", "TZ=UTC")
	out, err := c.Output()
	if err != nil {
		t.Fatalf("freshet %v: %v\n%s", args, err, out)
	}
	return string(out)
}
