package server

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/google/uuid"
	"google.golang.org/grpc/mem"

	freshetv1 "freshet.example/api/freshet/v1"
)

// Whatever bytes come as a push are refused in the contract's words, or are
// operations whose numbers run on and that can be held to its limits.
func FuzzPush(f *testing.F) {
	files, err := filepath.Glob("../testdata/wire/*/push_*.binpb")
	if err != nil || len(files) == 0 {
		f.Fatalf("no pushes: %v", err)
	}
	for _, file := range files {
		raw, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(raw)
		f.Add(raw[:len(raw)-3])
	}
	anything := func(string, uuid.UUID) bool { return true }
	f.Fuzz(func(t *testing.T, raw []byte) {
		in := &freshetv1.PushRequest{}
		l := &letter{message: in}
		if err := newLetterCodec().Unmarshal(mem.BufferSlice{mem.SliceBuffer(raw)}, l); err != nil {
			t.Fatalf("it is answered by the library: %v", err)
		}
		if l.wrong != nil {
			return
		}
		u, err := readUpload(in)
		if err != nil {
			return
		}
		next := u.first
		for _, p := range u.parts {
			if p.first != next {
				t.Fatalf("operation %d follows %d", p.first, next-1)
			}
			next += p.count
			if p.operation != nil {
				_ = validate("", p.operation.ProtoReflect(), anything, nil)
			}
		}
	})
}
