// Package web holds the phone app as `make web` builds it, for the server to
// hand out: who runs freshetd needs no Node.
package web

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"embed"
	"fmt"
	"io"
	"io/fs"
	"mime"
	"net/http"
	"path"
	"strings"
	"sync"
	"time"
)

//go:embed all:dist
var dist embed.FS

// What the pages may do: nothing from elsewhere, no script or style inside the
// page. Formulas are WebAssembly, photos are shown from memory.
const policy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; font-src 'self'; img-src 'self' blob: data:; " +
	"connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// A file is one of the app's. It is read and packed when it is first asked for: a server
// whose phones all have the app holds none of it in memory.
type file struct {
	name, kind string
	tag        func() string
	packed     func() []byte // nil where packing gains nothing
}

// App answers GET and HEAD of the app's files, and leaves all else to next.
func App(next http.Handler) http.Handler {
	files, err := read()
	if err != nil {
		panic(err) // the files are part of the program
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		name := strings.TrimPrefix(r.URL.Path, "/")
		if name == "" {
			name = "index.html"
		}
		f, ok := files[name]
		if !ok || r.Method != http.MethodGet && r.Method != http.MethodHead {
			next.ServeHTTP(w, r)
			return
		}
		f.answer(w, r)
	})
}

func read() (map[string]file, error) {
	files := map[string]file{}
	err := fs.WalkDir(dist, "dist", func(at string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		f := file{name: strings.TrimPrefix(at, "dist/"), kind: kindOf(at)}
		f.tag = sync.OnceValue(func() string { return tagOf(f.plain()) })
		if packs(at) {
			f.packed = sync.OnceValue(func() []byte { return pack(f.plain()) })
		}
		files[f.name] = f
		return nil
	})
	return files, err
}

// answer sends the file. What is named by its content is never asked for again;
// the rest is asked about each time.
func (f file) answer(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	h.Set("Content-Security-Policy", policy)
	h.Set("Content-Type", f.kind)
	h.Set("Cache-Control", "no-cache")
	if strings.HasPrefix(f.name, "assets/") {
		h.Set("Cache-Control", "public, max-age=31536000, immutable")
	}
	body, tag := f.plain(), f.tag()
	if f.packed != nil {
		h.Set("Vary", "Accept-Encoding")
		if strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
			h.Set("Content-Encoding", "gzip")
			body, tag = bytes.NewReader(f.packed()), tag+"-gz"
		}
	}
	h.Set("ETag", `"`+tag+`"`)
	http.ServeContent(w, r, "", time.Time{}, body)
}

// plain reads the file where it lies in the program.
func (f file) plain() io.ReadSeeker {
	opened, err := dist.Open("dist/" + f.name)
	if err != nil {
		panic(err) // it was found there
	}
	return opened.(io.ReadSeeker)
}

func tagOf(plain io.Reader) string {
	hash := sha256.New()
	// What is in memory is read, and a hash takes everything.
	_, _ = io.Copy(hash, plain)
	return fmt.Sprintf("%x", hash.Sum(nil))[:20]
}

// The kinds that machines without a list of their own do not know.
var kinds = map[string]string{
	".js": "text/javascript; charset=utf-8", ".wasm": "application/wasm", ".webmanifest": "application/manifest+json",
	".woff2": "font/woff2", ".svg": "image/svg+xml", ".bin": "application/octet-stream",
}

func kindOf(name string) string {
	if kind, ok := kinds[path.Ext(name)]; ok {
		return kind
	}
	return mime.TypeByExtension(path.Ext(name))
}

// Fonts and pictures are packed already.
func packs(name string) bool { return path.Ext(name) != ".woff2" && path.Ext(name) != ".png" }

func pack(plain io.Reader) []byte {
	var packed bytes.Buffer
	w, err := gzip.NewWriterLevel(&packed, gzip.BestCompression)
	if err != nil {
		panic(err) // the level is a constant
	}
	// What is in memory is read, and a buffer takes everything.
	_, _ = io.Copy(w, plain)
	_ = w.Close()
	return packed.Bytes()
}
