package server_test

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"io"
	"net/http"
	"strings"
	"testing"

	"freshet.example/server/servertest"
)

// An answer is what came back over HTTP.
type answer struct {
	code   int
	header http.Header
	text   string
	body   struct {
		Code    any // a number by REST, a word by Connect
		Message string
		Details []struct {
			Type            string            `json:"@type"`
			Reason          string            `json:"reason"`
			Metadata        map[string]string `json:"metadata"`
			FieldViolations []struct{ Field string }
			Debug           struct{ Reason string } // by Connect
		}
	}
}

// ask sends a request as curl would.
func ask(t *testing.T, s *servertest.Server, token, method, path, body string, headers ...string) answer {
	t.Helper()
	return askBody(t, s, token, method, path, strings.NewReader(body), headers...)
}

func askBody(t *testing.T, s *servertest.Server, token, method, path string, body io.Reader, headers ...string) answer {
	t.Helper()
	request, err := http.NewRequestWithContext(t.Context(), method, "http://"+s.HTTPAddress().String()+path, body)
	if err != nil {
		t.Fatal(err)
	}
	if token != "" {
		request.Header.Set("Authorization", "Bearer "+token)
	}
	if request.Body != nil && request.Body != http.NoBody {
		request.Header.Set("Content-Type", "application/json")
	}
	for i := 0; i < len(headers); i += 2 {
		request.Header.Set(headers[i], headers[i+1])
	}
	response, err := http.DefaultClient.Do(request)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = response.Body.Close() }()
	text, err := io.ReadAll(response.Body)
	if err != nil {
		t.Fatal(err)
	}
	a := answer{code: response.StatusCode, header: response.Header, text: string(text)}
	_ = json.Unmarshal(text, &a.body) // what is not an error has another shape
	return a
}

func (a answer) reason() string {
	for _, detail := range a.body.Details {
		if detail.Reason+detail.Debug.Reason != "" {
			return detail.Reason + detail.Debug.Reason
		}
	}
	return ""
}

const (
	connect = "Connect-Protocol-Version"
	nobody  = "00000000-0000-4000-8000-000000000001"
)

func TestRESTReachesEveryService(t *testing.T) {
	s := servertest.New(t)
	steward := s.Steward()
	for _, c := range []struct {
		method, path, body string
		code               int
		contains           string
	}{
		{"GET", "/v1/health", "", 200, `"SERVING"`},
		{"GET", "/v1/me", "", 200, steward.MemberID},
		{"GET", "/v1/members", "", 200, steward.MemberID},
		{"GET", "/v1/devices?all_members=true", "", 200, steward.DeviceID},
		{"POST", "/v1/invitations", `{"role":"ROLE_GROWER","valid_hours":5}`, 200, `"code":`},
		{"PUT", "/v1/members/" + steward.MemberID + "/role", `{"role":"ROLE_GROWER"}`, 400, "LAST_STEWARD"},
		{"GET", "/v1/sites/" + nobody + "/sharing", "", 404, "UNKNOWN_RECORD"},
		{"GET", "/v1/formulas?containing=pump", "", 200, `"room":"loop"`},
		{"POST", "/v1/formulas", `{"questions":[{"name":"nothing_of_the_kind"}]}`, 200, "no formula has this name"},
		{"POST", "/v1/formulas/nothing_of_the_kind", `{}`, 404, "UNKNOWN_FORMULA"},
		{"GET", "/v1/sites/" + nobody + "/morning?at=2026-03-01T07:00:00Z", "", 404, "UNKNOWN_RECORD"},
		{"GET", "/v1/systems/north/water", "", 400, "BAD_ID"},
		{"GET", "/v1/trials/" + nobody + "/result", "", 404, "UNKNOWN_RECORD"},
		{"GET", "/v1/comparison?site_id=" + nobody, "", 404, "UNKNOWN_RECORD"},
		{"DELETE", "/v1/devices/" + nobody, "", 404, "UNKNOWN_RECORD"},
	} {
		got := ask(t, s, steward.Token, c.method, c.path, c.body)
		if got.code != c.code || !strings.Contains(strings.ReplaceAll(got.text, `": `, `":`), c.contains) {
			t.Errorf("%s %s: %d %s", c.method, c.path, got.code, got.text)
		}
		if got.code >= 400 && (got.reason() != c.contains || got.body.Message == "") {
			t.Errorf("%s %s: no reason in %s", c.method, c.path, got.text)
		}
	}
}

func TestWithoutATokenTheWebReachesHealthAndJoinOnly(t *testing.T) {
	s := servertest.New(t)
	s.Steward()
	if got := ask(t, s, "", "GET", "/v1/health", ""); got.code != 200 {
		t.Errorf("health: %d %s", got.code, got.text)
	}
	if got := ask(t, s, "", "POST", "/v1/join", `{"code":"AAAA-AAAA-AAAA","device_name":"phone"}`); got.reason() != "INVITATION_INVALID" {
		t.Errorf("join: %d %s", got.code, got.text)
	}
	for _, path := range []string{"/v1/me", "/v1/members", "/v1/formulas", "/v1/sites/" + nobody + "/morning", "/v1/comparison"} {
		for _, token := range []string{"", "AAAA", strings.Repeat("A", 43)} {
			if got := ask(t, s, token, "GET", path, ""); got.code != 401 || got.reason() != "UNAUTHENTICATED" {
				t.Errorf("GET %s with token %q: %d %s", path, token, got.code, got.text)
			}
		}
	}
	for _, call := range []string{"SyncService/Push", "SyncService/Hello", "AccountService/WhoAmI", "HusbandryService/Compute"} {
		if got := ask(t, s, "", "POST", "/freshet.v1."+call, `{}`, connect, "1"); got.code != 401 || got.reason() != "UNAUTHENTICATED" {
			t.Errorf("%s: %d %s", call, got.code, got.text)
		}
	}
}

func TestGuessedCodesMeetTheLimitOnTheWebToo(t *testing.T) {
	s := servertest.New(t)
	s.Steward()
	reasons := map[string]int{}
	for range 14 {
		reasons[ask(t, s, "", "POST", "/v1/join", `{"code":"AAAA-AAAA-AAAA","device_name":"phone"}`).reason()]++
	}
	if reasons["INVITATION_INVALID"] != 10 || reasons["TOO_MANY_CALLS"] != 4 {
		t.Errorf("%v", reasons)
	}
}

func TestConnectJSONAndGRPCWeb(t *testing.T) {
	s := servertest.New(t)
	steward := s.Steward()
	got := ask(t, s, steward.Token, "POST", "/freshet.v1.AccountService/WhoAmI", `{}`, connect, "1")
	if got.code != 200 || !strings.Contains(got.text, steward.MemberID) || got.header.Get("X-Request-Id") == "" {
		t.Errorf("%d %s %v", got.code, got.text, got.header)
	}
	got = ask(t, s, steward.Token, "POST", "/freshet.v1.HusbandryService/Compute", `{"name":"none"}`, connect, "1")
	if got.code != 404 || got.body.Code != "not_found" || got.reason() != "UNKNOWN_FORMULA" {
		t.Errorf("%d %s", got.code, got.text)
	}
	empty := string([]byte{0, 0, 0, 0, 0})
	got = ask(t, s, steward.Token, "POST", "/freshet.v1.AccountService/WhoAmI", empty, "Content-Type", "application/grpc-web+proto")
	if got.code != 200 || !strings.Contains(got.text, steward.MemberID) || !strings.Contains(strings.ToLower(got.text), "grpc-status: 0") {
		t.Errorf("gRPC-Web: %d %q", got.code, got.text)
	}
}

func TestRequestsThatCannotBeReadAreTheCallersMistake(t *testing.T) {
	s := servertest.New(t)
	token := s.Steward().Token
	for _, body := range []string{`{`, `{"name":7}`, `[]`, `"x"`, `{"name":"a","name":"b"}`, "\xff\xfe", `{"inputs":{"a":"` + "\xff" + `"}}`, `{"name":"a"}{}`} {
		got := ask(t, s, token, "POST", "/v1/formulas/uia_fraction", body)
		if got.code != 400 || got.reason() != "MALFORMED" {
			t.Errorf("REST %q: %d %s", body, got.code, got.text)
		}
		got = ask(t, s, token, "POST", "/freshet.v1.HusbandryService/Compute", body, connect, "1")
		if got.code != 400 || got.reason() != "MALFORMED" {
			t.Errorf("Connect %q: %d %s", body, got.code, got.text)
		}
	}
	for _, path := range []string{"/v1/sites/%ff/morning", "/v1/sites/" + nobody + "/morning?at=noon", "/v1/comparison?measure=BIGGEST", "/v1/devices?all_members=perhaps"} {
		if got := ask(t, s, token, "GET", path, ""); got.code != 400 {
			t.Errorf("GET %s: %d %s", path, got.code, got.text)
		}
	}
	if got := ask(t, s, token, "GET", "/v1/me", `{"surprise":1}`); got.code != 200 {
		t.Errorf("a body where none belongs: %d %s", got.code, got.text)
	}
	for _, path := range []string{"/", "/v2/me", "/v1/", "/../etc/passwd", "/favicon.ico"} {
		if got := ask(t, s, token, "GET", path, ""); got.code != 404 || got.reason() == "" {
			t.Errorf("GET %s: %d %s", path, got.code, got.text)
		}
	}
	if got := ask(t, s, token, "PATCH", "/v1/me", ""); got.code != 405 {
		t.Errorf("PATCH: %d %s", got.code, got.text)
	}
}

func TestLargeBodiesAreRefused(t *testing.T) {
	s := servertest.New(t)
	token := s.Steward().Token
	large := func(n int) string { return `{"inputs":{"x":"` + strings.Repeat("1", n) + `"}}` }
	if got := ask(t, s, token, "POST", "/v1/formulas/a", large(10_000_000)); got.code != 413 || got.reason() != "TOO_LARGE" {
		t.Errorf("10 MB: %d %.200s", got.code, got.text)
	}
	if got := ask(t, s, token, "POST", "/v1/formulas/a", large(5<<20)); got.code != 400 || got.reason() != "TOO_LARGE" {
		t.Errorf("5 MiB: %d %.200s", got.code, got.text)
	}
	if got := ask(t, s, token, "POST", "/v1/formulas", large(3<<20)); got.code != 200 {
		t.Errorf("3 MiB: %d %.200s", got.code, got.text)
	}
	if got := ask(t, s, token, "GET", "/v1/formulas?containing="+strings.Repeat("a", 40_000), ""); got.code != 431 {
		t.Errorf("a long address: %d %.200s", got.code, got.text)
	}
	for path, headers := range map[string][]string{"/v1/formulas": nil, "/freshet.v1.HusbandryService/ComputeBatch": {connect, "1"}} {
		unsaid := io.MultiReader(strings.NewReader(large(20_000_000)))
		if got := askBody(t, s, token, "POST", path, unsaid, headers...); got.code != 400 || got.reason() != "TOO_LARGE" {
			t.Errorf("20 MB of unsaid length to %s: %d %.200s", path, got.code, got.text)
		}
	}
	got := ask(t, s, token, "POST", "/freshet.v1.HusbandryService/ComputeBatch", large(20_000_000), connect, "1")
	if got.code != 400 || got.reason() != "TOO_LARGE" {
		t.Errorf("20 MB by Connect: %d %.200s", got.code, got.text)
	}
	if got := ask(t, s, token, "GET", "/v1/me", ""); got.code != 200 {
		t.Errorf("afterwards: %d %s", got.code, got.text)
	}
}

func TestBrowsersOfOtherOriginsStayOut(t *testing.T) {
	s := servertest.New(t)
	token := s.Steward().Token
	own := "http://" + s.HTTPAddress().String()
	for origin, want := range map[string]int{own: 200, "http://elsewhere.example": 403, "null": 403} {
		got := ask(t, s, token, "POST", "/v1/formulas", `{}`, "Origin", origin)
		if got.code != want {
			t.Errorf("POST from %s: %d %s", origin, got.code, got.text)
		}
		for name := range got.header {
			if strings.HasPrefix(name, "Access-Control-") {
				t.Errorf("from %s: %s is answered", origin, name)
			}
		}
	}
	preflight := ask(t, s, "", "OPTIONS", "/v1/me", "", "Origin", "http://elsewhere.example", "Access-Control-Request-Method", "GET", "Access-Control-Request-Headers", "authorization")
	if preflight.code < 400 {
		t.Errorf("preflight: %d %v", preflight.code, preflight.header)
	}
	read := ask(t, s, token, "GET", "/v1/me", "", "Origin", "http://elsewhere.example")
	want := http.Header{"Cache-Control": {"no-store"}, "X-Content-Type-Options": {"nosniff"}, "Referrer-Policy": {"no-referrer"},
		"Cross-Origin-Resource-Policy": {"same-origin"}, "Content-Security-Policy": {"default-src 'none'; frame-ancestors 'none'"}}
	for name, value := range want {
		if read.header.Get(name) != value[0] {
			t.Errorf("%s: %q", name, read.header.Get(name))
		}
	}
	if read.header.Get("Access-Control-Allow-Origin") != "" || read.header.Get("Strict-Transport-Security") != "" {
		t.Errorf("headers %v", read.header)
	}
}

func TestWhoCompressesIsAnsweredCompressed(t *testing.T) {
	s := servertest.New(t)
	var packed bytes.Buffer
	w := gzip.NewWriter(&packed)
	if _, err := io.WriteString(w, `{"questions":[{"name":"`+strings.Repeat("no", 1000)+`"}]}`); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	got := ask(t, s, s.Steward().Token, "POST", "/v1/formulas", packed.String(), "Content-Encoding", "gzip", "Accept-Encoding", "gzip")
	if got.code != 200 || got.header.Get("Content-Encoding") != "gzip" {
		t.Fatalf("%d %v %s", got.code, got.header, got.text)
	}
	r, err := gzip.NewReader(strings.NewReader(got.text))
	if err != nil {
		t.Fatal(err)
	}
	if text, err := io.ReadAll(r); err != nil || !strings.Contains(string(text), "no formula has this name") {
		t.Errorf("%s %v", text, err)
	}
}

func TestAPackedFloodIsNotUnpacked(t *testing.T) {
	s := servertest.New(t)
	var packed bytes.Buffer
	w := gzip.NewWriter(&packed)
	if _, err := w.Write(make([]byte, 50<<20)); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	got := ask(t, s, s.Steward().Token, "POST", "/v1/formulas", packed.String(), "Content-Encoding", "gzip")
	if got.code != 400 || got.reason() != "TOO_LARGE" || packed.Len() > maxJSON {
		t.Errorf("%d %.200s (%d bytes sent)", got.code, got.text, packed.Len())
	}
}

// maxJSON is what the second port reads of a body.
const maxJSON = 8 << 20
