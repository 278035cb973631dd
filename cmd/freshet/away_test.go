package main

import (
	"regexp"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"

	"freshet.example/server/servertest"
	"freshet.example/store/storetest"
)

// TestServerAway reads what a person reads on two devices while the server is
// stopped and started: `server stop`, `server start`, and `later SPAN` moves the
// clock of all. $SERVER is the address, $CODE the first steward's invitation;
// `phone` makes a second device of who the first belongs to, from the invitation printed last.
func TestServerAway(t *testing.T) {
	host := servertest.NewHost(storetest.URL(t))
	t.Cleanup(func() {
		if err := host.Close(); err != nil {
			t.Error(err)
		}
	})
	code, err := host.New(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	address, _ := host.Addresses()
	does := func(step func(args []string) servertest.HostStep) func(*testscript.TestScript, bool, []string) {
		return func(ts *testscript.TestScript, _ bool, args []string) {
			ts.Check(host.Do(t.Context(), step(args)))
			ts.Setenv(commandEnv, host.Now().Format(time.RFC3339))
		}
	}
	testscript.Run(t, testscript.Params{
		Dir: "testdata/away",
		Setup: func(env *testscript.Env) error {
			at80(env)
			env.Setenv("SERVER", address)
			env.Setenv("CODE", code)
			env.Setenv(commandEnv, host.Now().Format(time.RFC3339))
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"server": does(func(args []string) servertest.HostStep { return servertest.HostStep{Server: args[0]} }),
			"later":  does(func(args []string) servertest.HostStep { return servertest.HostStep{Wait: args[0]} }),
			"phone": func(ts *testscript.TestScript, _ bool, _ []string) {
				code := codeShape.FindString(ts.ReadFile("stdout"))
				ts.Check(ts.Exec("freshet", "--home", ts.MkAbs("phone"), "join", code, "--server", address, "--device", "phone"))
				ts.Check(ts.Exec("freshet", "--home", ts.MkAbs("phone"), "sync"))
			},
		},
	})
}

var codeShape = regexp.MustCompile(`[0-9A-Z]{4}-[0-9A-Z]{4}-[0-9A-Z]{4}`)
