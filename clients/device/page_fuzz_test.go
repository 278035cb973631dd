package device

import (
	"bytes"
	"compress/flate"
	"crypto/sha256"
	"database/sql"
	"errors"
	"os"
	"testing"

	"google.golang.org/protobuf/encoding/protodelim"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
)

// Whatever block a server sends is stored, and can be read, or breaks its scope.
func FuzzPage(f *testing.F) {
	raw, err := os.ReadFile("../../testdata/wire/v1/feed.binpb")
	if err != nil {
		f.Fatal(err)
	}
	for r := bytes.NewReader(raw); r.Len() > 0; {
		page := &freshetv1.Page{}
		if err := protodelim.UnmarshalFrom(r, page); err != nil {
			f.Fatal(err)
		}
		f.Add(page.GetBlock())
	}
	d, err := Open(f.TempDir())
	if err != nil {
		f.Fatal(err)
	}
	f.Cleanup(func() { _ = d.Close() })
	undo := errors.New("the next one finds nothing")
	f.Fuzz(func(t *testing.T, block []byte) {
		sum := sha256.Sum256(block)
		at := &freshetv1.Cursor{Scope: "site:x", Epoch: 1, Sequence: 1, Chain: sum[:16]}
		err := d.inTransaction(t.Context(), func(tx *sql.Tx) error {
			a := &applier{ctx: t.Context(), tx: tx, install: wire.Install{1}}
			if err := a.pages(at, [][]byte{block}); err != nil {
				if !errors.Is(err, errBroken) {
					t.Errorf("it neither fits nor breaks its scope: %v", err)
				}
				return undo
			}
			if _, err := storedRecords(t.Context(), tx); err != nil {
				t.Errorf("what was stored cannot be read: %v", err)
			}
			return undo
		})
		if !errors.Is(err, undo) {
			t.Fatal(err)
		}
	})
}

// Whatever bytes come as packed pages are unpacked, or refused as such.
func FuzzPackedPages(f *testing.F) {
	var packed bytes.Buffer
	w, err := flate.NewWriter(&packed, flate.BestSpeed)
	if err != nil {
		f.Fatal(err)
	}
	raw, err := proto.Marshal(&freshetv1.Pages{Blocks: [][]byte{{1, 2}, {}, bytes.Repeat([]byte{3}, 500)}})
	if _, wrote := w.Write(raw); errors.Join(err, wrote, w.Close()) != nil {
		f.Fatal(err, wrote)
	}
	f.Add(packed.Bytes())
	f.Add(packed.Bytes()[:packed.Len()/2])
	f.Fuzz(func(t *testing.T, packed []byte) {
		p := &freshetv1.Pages{Packed: packed}
		if err := unpackPages(p); err != nil && !errors.Is(err, errPacked) {
			t.Error(err)
		} else if err == nil && len(packed) > 0 && len(p.GetPacked()) > 0 {
			t.Error("it is still packed")
		}
	})
}
