package main

import (
	"flag"
	"os"
	"os/exec"
	"regexp"
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

// readmeDay is when the README's screens were printed: seven in the morning at
// Bracken Barn. The demo counts back from it, so that they come out the same on any day.
var readmeDay = time.Date(2026, 11, 25, 13, 0, 0, 0, time.UTC)

// commandEnv makes this test program the freshet command; its value is the moment it is run at.
const commandEnv = "FRESHET_RUN_AT"

var writeReadme = flag.Bool("write", false, "write the README's screens anew")

const readme = "../../README.md"

func TestReadmeShowsWhatIsPrinted(t *testing.T) {
	home := openDemo(t, readmeDay)
	text, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	shown := 0
	printed := shownScreen.ReplaceAllStringFunc(string(text), func(block string) string {
		shown++
		command := shownScreen.FindStringSubmatch(block)[1]
		output := freshetAt(t, readmeDay, home, strings.Fields(command)...)
		return "```\n$ " + demoPhone + command + "\n" + output + "```\n"
	})
	if *writeReadme {
		err = os.WriteFile(readme, []byte(printed), 0o600)
	}
	if err != nil || shown != 3 || !*writeReadme && printed != string(text) {
		t.Errorf("%d screens, %v; go test ./cmd/freshet -run Readme -args -write makes them\n%s", shown, err, printed)
	}
}

const demoPhone = ".bin/freshet --home .demo/phone"

// shownScreen is a command of the demo's phone and what it prints.
var shownScreen = regexp.MustCompile("```\n\\$ " + regexp.QuoteMeta(demoPhone) + "(.*)\n(?:[^`]*\n)*```\n")

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
