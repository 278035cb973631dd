package main

import (
	"fmt"
	"net/http"
	"os"
	"regexp"
	"strings"
	"syscall"
	"testing"

	"github.com/jackc/pgx/v5"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/store/storetest"
)

func TestAServerIsKilledAndComesBack(t *testing.T) {
	dir := t.TempDir()
	p := start(t, "serve", "--data", dir)
	code := codeShape.FindString(p.said)
	if code == "" || !strings.Contains(p.said, "freshet join "+code+" --server "+p.grpc) {
		t.Fatalf("the first start says\n%s", p.said)
	}
	steward := p.join(code, "Ines Vaart")
	if steward.GetRole() != freshetv1.Role_ROLE_STEWARD {
		t.Errorf("the first member is %s", steward.GetRole())
	}
	exit, out, errs := command(t, "invite", "--data", dir, "--role", "grower", "--hours", "2")
	if exit != 0 || codeShape.FindString(out) == "" {
		t.Fatalf("invite beside the server: %d %s %s", exit, out, errs)
	}
	mara := p.join(codeShape.FindString(out), "Mara Oduya")

	if err := p.end(syscall.SIGKILL); err == nil {
		t.Fatal("freshetd lives on")
	}
	back := start(t, "serve", "--data", dir)
	if codeShape.MatchString(back.said) {
		t.Errorf("a code is shown again:\n%s", back.said)
	}
	for _, token := range []string{steward.GetToken(), mara.GetToken()} {
		if _, err := back.accounts().WhoAmI(as(t.Context(), token), &freshetv1.WhoAmIRequest{}); err != nil {
			t.Errorf("after the kill: %v", err)
		}
	}
	_, err := back.accounts().Join(t.Context(), &freshetv1.JoinRequest{Code: code, DeviceName: "phone", DisplayName: "Jo Amsel"})
	if status.Code(err) != codes.PermissionDenied {
		t.Errorf("the first code after the kill: %v", err)
	}
	if code := healthOverHTTP(t, back.http); code != 200 {
		t.Errorf("health is %d", code)
	}
	if kb := residentKB(t, back.command.Process.Pid); kb > 60_000 {
		t.Errorf("%d kB are resident", kb)
	}
	if err := back.end(syscall.SIGTERM); err != nil {
		t.Errorf("SIGTERM: %v\n%s", err, back.log)
	}
	for _, secret := range []string{code, steward.GetToken(), mara.GetToken(), "Ines", "Mara", "Jo Amsel", steward.GetMemberId(), "phone"} {
		if strings.Contains(p.log.String()+back.log.String(), secret) {
			t.Errorf("the log holds %q", secret)
		}
	}
}

func TestTwoServersShareADatabase(t *testing.T) {
	url := storetest.URL(t)
	first := start(t, "serve", "--database", url)
	second := start(t, "serve", "--database", url)
	if codeShape.MatchString(second.said) {
		t.Errorf("the second founds a cooperative:\n%s", second.said)
	}
	ines := first.join(codeShape.FindString(first.said), "Ines Vaart")
	if _, err := second.accounts().WhoAmI(as(t.Context(), ines.GetToken()), &freshetv1.WhoAmIRequest{}); err != nil {
		t.Errorf("the second server: %v", err)
	}
	if err := first.end(syscall.SIGINT); err != nil {
		t.Errorf("SIGINT: %v", err)
	}
	checkChronicle(t, url)
	if exit, out, errs := command(t, "migrate", "--database", url); exit != 0 || !strings.Contains(out, "schema") {
		t.Errorf("migrate: %d %s %s", exit, out, errs)
	}
}

func TestCommandsSayWhatIsWrong(t *testing.T) {
	empty := storetest.URL(t)
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"serve", "--http", "0.0.0.0:0", "--data", t.TempDir()}, "--tls-cert"},
		{[]string{"serve", "--tls-cert", "cert.pem", "--data", t.TempDir()}, "--tls-key"},
		{[]string{"serve", "--grpc", "nowhere", "--data", t.TempDir()}, "nowhere"},
		{[]string{"serve", "--log-format", "verse", "--data", t.TempDir()}, "text nor json"},
		{[]string{"serve", "--log-level", "shout"}, "log-level"},
		{[]string{"serve", "--database", "postgres://127.0.0.1:1/none"}, "database"},
		{[]string{"serve", "loudly"}, "loudly"},
		{[]string{"invite", "--database", empty, "--role", "king"}, "steward, grower"},
		{[]string{"invite", "--database", empty}, "steward, grower"},
		{[]string{"invite", "--database", empty, "--role", "grower"}, "freshetd serve"},
		{[]string{"sing"}, "sing"},
	} {
		exit, out, errs := command(t, c.args...)
		if exit != 1 || !strings.HasPrefix(errs, "freshetd: ") || !strings.Contains(errs, c.says) || out != "" {
			t.Errorf("%v: %d, %q, %q", c.args, exit, out, errs)
		}
	}
}

func TestInvitationsNeedTheirSites(t *testing.T) {
	url := storetest.URL(t)
	start(t, "serve", "--database", url)
	site := "5f0c1de2-7a3b-8c41-8000-000000000001"
	for _, c := range []struct {
		args []string
		exit int
	}{
		{[]string{"--role", "steward"}, 0},
		{[]string{"--role", "helper"}, 1},
		{[]string{"--role", "helper", "--site", site}, 0},
		{[]string{"--role", "helper", "--site", "barn"}, 1},
		{[]string{"--role", "sensor", "--site", site, "--site", site}, 1},
		{[]string{"--role", "reader", "--hours", "721"}, 1},
	} {
		exit, out, errs := command(t, append([]string{"invite", "--database", url}, c.args...)...)
		if exit != c.exit || (exit == 0) != codeShape.MatchString(out) {
			t.Errorf("%v: %d, %q, %q", c.args, exit, out, errs)
		}
	}
}

func TestADemoThatWasInterruptedSaysSo(t *testing.T) {
	dir := t.TempDir()
	if err := start(t, "serve", "--data", dir).end(syscall.SIGTERM); err != nil {
		t.Fatal(err)
	}
	exit, _, errs := command(t, "demo", "--data", dir, "--grpc", "127.0.0.1:0", "--http", "127.0.0.1:0")
	if exit != 1 || !strings.Contains(errs, "remove the folder") {
		t.Errorf("%d %s", exit, errs)
	}
}

func TestHelpHasExamples(t *testing.T) {
	for _, c := range append(rootCommand().Commands(), rootCommand()) {
		if c.Example == "" || c.Long == "" || !strings.Contains(c.Example, "freshetd ") {
			t.Errorf("%s: no example", c.Name())
		}
	}
	if exit, out, _ := command(t, "--help"); exit != 0 || !strings.Contains(out, "invite") {
		t.Errorf("%d %s", exit, out)
	}
}

func healthOverHTTP(t *testing.T, address string) int {
	t.Helper()
	response, err := http.Get(address + "/v1/health")
	if err != nil {
		t.Fatal(err)
	}
	if err := response.Body.Close(); err != nil {
		t.Error(err)
	}
	return response.StatusCode
}

// residentKB is what a process holds in memory now.
func residentKB(t testing.TB, pid int) int {
	t.Helper()
	return statusKB(t, pid, "VmRSS")
}

// statusKB is a line of what the kernel says of a process's memory.
func statusKB(t testing.TB, pid int, line string) int {
	t.Helper()
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if err != nil {
		t.Fatal(err)
	}
	for said := range strings.Lines(string(text)) {
		var kb int
		if _, err := fmt.Sscanf(said, line+": %d kB", &kb); err == nil {
			return kb
		}
	}
	t.Fatal("no " + line)
	return 0
}

var sealShape = regexp.MustCompile(`[A-Z2-7]{4}(-[A-Z2-7]{4}){3}`)

// checkChronicle checks what joining left, notes the seal, and rewrites history.
func checkChronicle(t *testing.T, url string) {
	t.Helper()
	exit, out, errs := command(t, "chronicle", "--database", url)
	seal := sealShape.FindString(out)
	if exit != 0 || seal == "" || !strings.HasPrefix(out, "3 rows, each as it was written") {
		t.Fatalf("%d %s%s", exit, out, errs)
	}
	if exit, out, _ := command(t, "chronicle", "--database", url, "--seal", strings.ToLower(seal)); exit != 0 || !strings.Contains(out, "that of row 3") {
		t.Errorf("with its seal: %d %s", exit, out)
	}
	if exit, _, errs := command(t, "chronicle", "--database", url, "--seal", "AAAA-AAAA-AAAA-AAAA"); exit != 1 || !strings.Contains(errs, "no row of the chronicle has this seal") {
		t.Errorf("with another: %d %s", exit, errs)
	}
	conn, err := pgx.Connect(t.Context(), url)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close(t.Context()) //nolint:errcheck // the test ends with it
	if _, err := conn.Exec(t.Context(), "SET session_replication_role = replica; UPDATE chronicle SET level = 2 WHERE number = 2"); err != nil {
		t.Fatal(err)
	}
	if exit, _, errs := command(t, "chronicle", "--database", url); exit != 1 || !strings.Contains(errs, "row 2 of the chronicle") {
		t.Errorf("rewritten: %d %s", exit, errs)
	}
}
