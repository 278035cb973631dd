package web_test

import (
	"compress/gzip"
	"io"
	"net/http"
	"net/http/httptest"
	"regexp"
	"strings"
	"testing"

	"freshet.example/clients/web"
)

func get(t *testing.T, method, path string, headers ...string) *http.Response {
	t.Helper()
	refused := http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(http.StatusTeapot) })
	r := httptest.NewRequest(method, path, nil)
	for i := 0; i < len(headers); i += 2 {
		r.Header.Set(headers[i], headers[i+1])
	}
	w := httptest.NewRecorder()
	web.App(refused).ServeHTTP(w, r)
	return w.Result()
}

func body(t *testing.T, r *http.Response) string {
	t.Helper()
	text, err := io.ReadAll(r.Body)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func TestThePageBringsNothingInline(t *testing.T) {
	page := get(t, "GET", "/")
	text := body(t, page)
	if page.StatusCode != http.StatusOK || page.Header.Get("Content-Type") != "text/html; charset=utf-8" {
		t.Fatalf("the page: %d %s", page.StatusCode, page.Header.Get("Content-Type"))
	}
	if policy := page.Header.Get("Content-Security-Policy"); strings.Contains(policy, "unsafe-inline") || !strings.Contains(policy, "default-src 'none'") {
		t.Errorf("policy %q", policy)
	}
	if regexp.MustCompile(`<script[^>]*>[^<]|<style| on\w+=`).MatchString(text) {
		t.Errorf("something is inline in %s", text)
	}
	for _, named := range regexp.MustCompile(`(?:src|href)="([^"]+)"`).FindAllStringSubmatch(text, -1) {
		if r := get(t, "GET", named[1]); r.StatusCode != http.StatusOK {
			t.Errorf("the page asks for %s: %d", named[1], r.StatusCode)
		}
	}
}

func TestTheServiceWorkerKeepsWhatIsServed(t *testing.T) {
	worker := body(t, get(t, "GET", "/sw.js"))
	files := regexp.MustCompile(`"(/[^"]+\.\w+)"`).FindAllStringSubmatch(worker, -1)
	if len(files) < 6 {
		t.Fatalf("the worker keeps %d files", len(files))
	}
	for _, file := range files {
		r := get(t, "GET", file[1])
		if r.StatusCode != http.StatusOK {
			t.Errorf("%s: %d", file[1], r.StatusCode)
		}
		lasting := strings.Contains(r.Header.Get("Cache-Control"), "immutable")
		if named := strings.HasPrefix(file[1], "/assets/"); named != lasting {
			t.Errorf("%s: Cache-Control %q", file[1], r.Header.Get("Cache-Control"))
		}
	}
	if regexp.MustCompile("__(VERSION|FILES)__").MatchString(worker) {
		t.Error("the build has put nothing into the worker")
	}
}

func TestFilesArePackedForWhoCanUnpack(t *testing.T) {
	plain := get(t, "GET", "/index.html")
	packed := get(t, "GET", "/index.html", "Accept-Encoding", "br, gzip")
	if packed.Header.Get("Content-Encoding") != "gzip" || plain.Header.Get("Content-Encoding") != "" {
		t.Fatalf("packed as %q, plain as %q", packed.Header.Get("Content-Encoding"), plain.Header.Get("Content-Encoding"))
	}
	unpacked, err := gzip.NewReader(packed.Body)
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(unpacked)
	if err != nil || string(text) != body(t, plain) {
		t.Errorf("unpacked it is another page: %v", err)
	}
	again := get(t, "GET", "/index.html", "Accept-Encoding", "gzip", "If-None-Match", packed.Header.Get("ETag"))
	if again.StatusCode != http.StatusNotModified {
		t.Errorf("asked again: %d", again.StatusCode)
	}
}

func TestWhatIsNoFileIsLeftToTheServer(t *testing.T) {
	for _, c := range [][2]string{{"GET", "/v1/health"}, {"POST", "/"}, {"GET", "/assets/"}, {"GET", "/../web.go"}} {
		if r := get(t, c[0], c[1]); r.StatusCode != http.StatusTeapot {
			t.Errorf("%s %s: %d", c[0], c[1], r.StatusCode)
		}
	}
}
