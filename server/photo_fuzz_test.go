package server

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"image"
	"image/jpeg"
	"testing"
	"testing/iotest"

	"google.golang.org/grpc/mem"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/photofile"
	"freshet.example/store"
)

// Whatever bytes come as a chunk are refused in the contract's words, before a
// database is asked; and whatever file chunks make up is a picture of the kind
// that was named, however it is cut, or refused for a reason.
func FuzzPhotoChunk(f *testing.F) {
	var drawn bytes.Buffer
	if err := jpeg.Encode(&drawn, image.NewGray(image.Rect(0, 0, 8, 8)), nil); err != nil {
		f.Fatal(err)
	}
	picture := drawn.Bytes()
	sum := sha256.Sum256(picture)
	asked := &freshetv1.PutPhotoChunkRequest{SiteId: "00000000-0000-4000-8000-000000000001", Sha256: sum[:], Data: picture, DataSha256: sum[:]}
	raw, err := proto.Marshal(asked)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(raw, picture)
	f.Add(raw[:len(raw)-3], picture[:len(picture)-3])
	service := &photoService{}
	f.Fuzz(func(t *testing.T, raw, file []byte) {
		in := &freshetv1.PutPhotoChunkRequest{}
		l := &letter{message: in}
		if err := newLetterCodec().Unmarshal(mem.BufferSlice{mem.SliceBuffer(raw)}, l); err != nil {
			t.Fatalf("it is answered by the library: %v", err)
		}
		if l.wrong == nil {
			if _, err := service.chunk(t.Context(), in); err != nil {
				wantRefusal(t, err)
			}
		}
		arrives(t, file)
	})
}

// arrives holds a file, cut anyhow, to what the server says of it.
func arrives(t *testing.T, file []byte) {
	t.Helper()
	facts, err := photofile.Examine(bytes.NewReader(file))
	sum := sha256.Sum256(file)
	for _, kind := range []string{"image/jpeg", "image/png", "image/webp"} {
		named := store.PhotoFile{SHA256: sum[:], MediaType: kind}
		whole := verify(named, bytes.NewReader(file))
		if (whole == nil) != (err == nil && facts.MediaType == kind) {
			t.Fatalf("as %s: %v, where %+v was found: %v", kind, whole, facts, err)
		}
		if whole != nil {
			wantRefusal(t, whole)
			continue
		}
		if cut := verify(named, iotest.OneByteReader(bytes.NewReader(file))); cut != nil {
			t.Fatalf("byte by byte: %v", cut)
		}
		named.SHA256 = make([]byte, sha256.Size)
		if verify(named, bytes.NewReader(file)) == nil {
			t.Fatal("a file of another hash is taken")
		}
	}
}

func wantRefusal(t *testing.T, err error) {
	t.Helper()
	var why *refusal
	if !errors.As(err, &why) || why.reason == freshetv1.ErrorReason_ERROR_REASON_UNSPECIFIED {
		t.Fatalf("refused without a reason: %v", err)
	}
}
