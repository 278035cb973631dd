package server_test

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"google.golang.org/protobuf/encoding/protodelim"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server"
	"freshet.example/server/servertest"
)

const wireFolder = "../testdata/wire"

// wirePushes are the pushes that a release's devices made.
func wirePushes(t *testing.T, release string) []*freshetv1.PushRequest {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(wireFolder, release, "push_*.binpb"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no pushes of %s: %v", release, err)
	}
	slices.Sort(files)
	var pushes []*freshetv1.PushRequest
	for _, file := range files {
		push, said := &freshetv1.PushRequest{}, &freshetv1.PushRequest{}
		if err := proto.Unmarshal(read(t, file), push); err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		text := file[:len(file)-len("binpb")] + "json"
		if err := protojson.Unmarshal(read(t, text), said); err != nil || !proto.Equal(push, said) {
			t.Errorf("%s does not say what %s holds: %v", text, file, err)
		}
		pushes = append(pushes, push)
	}
	return pushes
}

func read(t *testing.T, file string) []byte {
	t.Helper()
	raw, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return raw
}

// TestThisServerTakesThePushesOfEachRelease also shows that it makes the feed
// of them that it made when they were written.
func TestThisServerTakesThePushesOfEachRelease(t *testing.T) {
	releases, err := os.ReadDir(wireFolder)
	if err != nil {
		t.Fatal(err)
	}
	for _, release := range releases {
		if !release.IsDir() {
			continue
		}
		t.Run(release.Name(), func(t *testing.T) {
			now := time.Date(2026, 3, 2, 9, 30, 0, 0, time.UTC)
			s := servertest.Start(t, server.Options{Now: func() time.Time { return now }})
			p := s.Join(freshetv1.Role_ROLE_GROWER, "Tomas")
			kinds := map[protoreflect.Name]bool{}
			for i, push := range wirePushes(t, release.Name()) {
				out, err := p.Sync.Push(t.Context(), push)
				if err != nil || len(out.GetOutcomes()) > 0 || out.GetStoredCount() == 0 {
					t.Fatalf("push %d: %v, %v", i+1, out, err)
				}
				noteKinds(push, kinds)
			}
			wantEveryKind(t, kinds)
			if got, want := feedOf(t, p), read(t, filepath.Join(wireFolder, release.Name(), "feed.binpb")); !bytes.Equal(got, want) {
				t.Errorf("the feed has %d bytes, other than the %d it had", len(got), len(want))
			}
		})
	}
}

func noteKinds(push *freshetv1.PushRequest, kinds map[protoreflect.Name]bool) {
	for _, op := range push.GetOperations() {
		for _, m := range []proto.Message{op.GetEvent(), op.GetEdit()} {
			for name := range oneofs(m) {
				kinds[name] = kinds[name] || m.ProtoReflect().Has(m.ProtoReflect().Descriptor().Fields().ByName(name))
			}
		}
	}
}

// oneofs gives the names of a message's kinds.
func oneofs(m proto.Message) map[protoreflect.Name]bool {
	names := map[protoreflect.Name]bool{}
	fields := m.ProtoReflect().Descriptor().Oneofs().Get(0).Fields()
	for i := range fields.Len() {
		names[fields.Get(i).Name()] = true
	}
	return names
}

func wantEveryKind(t *testing.T, kinds map[protoreflect.Name]bool) {
	t.Helper()
	for name, there := range kinds {
		if !there && name != "member" && name != "cooperative" {
			t.Errorf("no %s is among them", name)
		}
	}
}

// feedOf is all pages that a person may read, with a member's id that is always
// the same.
func feedOf(t *testing.T, p *servertest.Person) []byte {
	t.Helper()
	got := pull(t, p, &freshetv1.PullRequest{})
	var scopes []string
	for scope := range got.blocks {
		scopes = append(scopes, scope)
	}
	slices.Sort(scopes)
	var out bytes.Buffer
	for _, scope := range scopes {
		for i, block := range got.blocks[scope] {
			block.MemberId = "5b6d5f6a-0000-4000-8000-000000000001"
			raw, err := proto.MarshalOptions{Deterministic: true}.Marshal(block)
			if err != nil {
				t.Fatal(err)
			}
			page := &freshetv1.Page{Cursor: &freshetv1.Cursor{Scope: scope, Epoch: 1, Sequence: uint64(i + 1)}, Block: raw}
			if _, err := protodelim.MarshalTo(&out, page); err != nil {
				t.Fatal(err)
			}
		}
	}
	return out.Bytes()
}
