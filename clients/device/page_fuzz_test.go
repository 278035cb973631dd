package device

import (
	"bytes"
	"crypto/sha256"
	"database/sql"
	"errors"
	"os"
	"testing"

	"google.golang.org/protobuf/encoding/protodelim"

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
		page := &freshetv1.Page{Block: block, Cursor: &freshetv1.Cursor{Scope: "site:x", Epoch: 1, Sequence: 1, Chain: sum[:16]}}
		err := d.inTransaction(t.Context(), func(tx *sql.Tx) error {
			a := &applier{ctx: t.Context(), tx: tx, install: wire.Install{1}}
			if err := a.page(page); err != nil {
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
