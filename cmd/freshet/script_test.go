package main

import (
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/servertest"
	"freshet.example/store/storetest"
)

// withDatabase runs the tests with a Postgres at hand; the scripts' own
// freshet processes start without one.
type withDatabase struct{ m *testing.M }

func (w withDatabase) Run() int { return storetest.Run(w.m) }

func TestMain(m *testing.M) {
	if at, err := time.Parse(time.RFC3339, os.Getenv(commandEnv)); err == nil {
		os.Exit(run(func() time.Time { return at }))
	}
	testscript.Main(withDatabase{m}, map[string]func(){"freshet": func() { os.Exit(run(time.Now)) }})
}

// at80 gives every script a home of its own and 80 columns.
func at80(env *testscript.Env) {
	env.Setenv("FRESHET_HOME", filepath.Join(env.WorkDir, "device"))
	env.Setenv("COLUMNS", "80")
	env.Setenv("TZ", "UTC")
	env.Setenv("HOME", env.WorkDir)
}

func TestOffline(t *testing.T) {
	testscript.Run(t, testscript.Params{Dir: "testdata/offline", Setup: func(env *testscript.Env) error { at80(env); return nil }})
}

// TestOnline runs each script against a server of its own on a real database.
// $SERVER is its address; $CODE_ANA and $CODE_BEN invite growers, $CODE_STEWARD
// a steward. What the server logs meanwhile, at its most talkative, tells nobody
// who did what where.
func TestOnline(t *testing.T) {
	scripts, err := filepath.Glob("testdata/online/*.txtar")
	if err != nil || len(scripts) == 0 {
		t.Fatalf("no scripts: %v", err)
	}
	for _, script := range scripts {
		t.Run(strings.TrimSuffix(filepath.Base(script), ".txtar"), func(t *testing.T) {
			server := servertest.New(t)
			codes := map[string]string{
				"CODE_ANA": invite(t, server, freshetv1.Role_ROLE_GROWER), "CODE_BEN": invite(t, server, freshetv1.Role_ROLE_GROWER),
				"CODE_STEWARD": invite(t, server, freshetv1.Role_ROLE_STEWARD),
			}
			testscript.Run(t, testscript.Params{Files: []string{script}, Setup: func(env *testscript.Env) error {
				at80(env)
				env.Setenv("SERVER", server.GRPCAddress().String())
				for name, code := range codes {
					env.Setenv(name, code)
				}
				return nil
			}})
			secrets := append(slices.Collect(maps.Values(codes)), server.Steward().Token, "Ferro", "Okafor", "Vaart", "Ines", "Mill barn", "phone", "laptop", "47.31", "127.0.0.1:")
			for _, secret := range secrets {
				if strings.Contains(server.Log.String(), secret) {
					t.Errorf("the server's log holds %q", secret)
				}
			}
			if found := secretLike.FindString(server.Log.String()); found != "" {
				t.Errorf("the server's log holds what may be a token, a code or an id: %s", found)
			}
			if !strings.Contains(server.Log.String(), "AccountService/Join") {
				t.Error("the server logged nothing")
			}
		})
	}
}

// secretLike is written like a token, an invitation's or recovery code, or an id.
var secretLike = regexp.MustCompile(`[A-Za-z0-9_-]{40,}|\b[0-9A-HJKMNP-TV-Z]{4}(-[0-9A-HJKMNP-TV-Z]{4}){2,4}\b|[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-`)

func invite(t *testing.T, s *servertest.Server, role freshetv1.Role) string {
	t.Helper()
	made, err := s.Steward().Accounts.CreateInvitation(t.Context(), &freshetv1.CreateInvitationRequest{Role: role})
	if err != nil {
		t.Fatal(err)
	}
	return made.GetCode()
}
