package device_test

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"

	"google.golang.org/protobuf/encoding/protodelim"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
)

// A device of this release reads the feed that each release's server sent.
func TestThisDeviceReadsTheFeedOfEachRelease(t *testing.T) {
	files, err := filepath.Glob("../../testdata/wire/*/feed.binpb")
	if err != nil || len(files) == 0 {
		t.Fatalf("no feeds: %v", err)
	}
	// What each release wrote: 17 records of which one was removed; 27 events, two
	// of them corrections (one of which voids a note), and 11 rows of columns.
	want := map[string][3]int{"v1": {15, 37, 2}, "v2": {15, 37, 2}}
	for _, file := range files {
		release := filepath.Base(filepath.Dir(file))
		c := newCoop(t)
		c.pages, c.noDigest = pagesOf(t, file), true
		d := joined(t, c)
		syncNow(t, d)
		records, err := d.Records(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		entries, err := d.Entries(t.Context(), device.Want{})
		if err != nil {
			t.Fatal(err)
		}
		corrections, err := d.Entries(t.Context(), device.Want{Kinds: []string{"correction"}})
		if err != nil {
			t.Fatal(err)
		}
		if got := [3]int{len(records), len(entries), len(corrections)}; got != want[release] {
			t.Errorf("%s: %v records, entries and corrections, want %v", release, got, want[release])
		}
	}
}

// pagesOf reads pages and links them as a server does.
func pagesOf(t *testing.T, file string) (pages []*freshetv1.Page) {
	t.Helper()
	raw, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	chains := map[string][]byte{}
	for r := bytes.NewReader(raw); ; {
		page := &freshetv1.Page{}
		err := protodelim.UnmarshalFrom(r, page)
		if errors.Is(err, io.EOF) {
			return pages
		}
		if err != nil {
			t.Fatal(err)
		}
		at := page.GetCursor()
		sum := sha256.Sum256(append(bytes.Clone(chains[at.GetScope()]), page.GetBlock()...))
		at.Chain = sum[:16]
		chains[at.GetScope()] = sum[:16]
		pages = append(pages, page)
	}
}
