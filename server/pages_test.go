package server_test

import (
	"bytes"
	"compress/flate"
	"crypto/sha256"
	"io"
	"testing"
	"time"

	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
	"freshet.example/server/servertest"
)

func unpacked(t testing.TB, p *freshetv1.Pages) [][]byte {
	t.Helper()
	if len(p.GetPacked()) == 0 {
		return p.GetBlocks()
	}
	raw, err := io.ReadAll(flate.NewReader(bytes.NewReader(p.GetPacked())))
	if err != nil {
		t.Fatal(err)
	}
	plain := &freshetv1.Pages{}
	if err := proto.Unmarshal(raw, plain); err != nil {
		t.Fatal(err)
	}
	return plain.GetBlocks()
}

// steps are all that a pull says.
func steps(t testing.TB, p *servertest.Person, in *freshetv1.PullRequest) (all []*freshetv1.PullResponse, bytes int) {
	t.Helper()
	stream, err := p.Sync.Pull(t.Context(), in)
	for err == nil {
		var step *freshetv1.PullResponse
		if step, err = stream.Recv(); err == nil {
			all, bytes = append(all, step), bytes+proto.Size(step)
		}
	}
	if err != io.EOF { //nolint:errorlint // gRPC gives it as it is
		t.Fatal(err)
	}
	return all, bytes
}

// daysByHand pushes so many days of eighteen readings, as dense readings or not.
func daysByHand(t testing.TB, h *hand, days int, dense bool) {
	t.Helper()
	for day := range days {
		rows := make([]wire.ReadingRow, 18)
		at := time.Date(2026, 1, 1+day, 6, 0, 0, 0, time.UTC).UnixMilli()
		for i := range rows {
			rows[i] = wire.ReadingRow{Number: h.next, Site: h.site, OccurredMs: at + int64(i*i%29)*1_260_000, EnteredMs: at + 50_000_000,
				Quantity: freshetv1.Quantity_QUANTITY_PH, Digits: int64(650 + i*7%60), Decimals: 2, Unit: freshetv1.Unit_UNIT_NONE, Method: freshetv1.Method_METHOD_METER}
			h.next++
		}
		columns := wire.EncodeReadings(rows, &freshetv1.Noted{WallMs: at + 50_000_000})
		request := &freshetv1.PushRequest{Install: h.install[:], Readings: []*freshetv1.ReadingColumns{columns}}
		if dense {
			request.Readings, request.DenseReadings = nil, []*freshetv1.ReadingColumns{wire.Dense(columns)}
		}
		if out, err := h.p.Sync.Push(t.Context(), request); err != nil || out.GetStoredCount() != 18 {
			t.Fatalf("%v, %v", out, err)
		}
	}
}

func TestPagesComeManyInAStepToWhoReadsThem(t *testing.T) {
	h := settled(t, servertest.New(t))
	daysByHand(t, h, 200, false)
	scope := "site:" + h.site
	old, oldBytes := steps(t, h.p, &freshetv1.PullRequest{})
	now, bytesNow := steps(t, h.p, &freshetv1.PullRequest{Schema: 2})
	if len(now) > len(old)/10 || 2*bytesNow > oldBytes {
		t.Errorf("%d steps of %d bytes became %d of %d", len(old), oldBytes, len(now), bytesNow)
	}
	var blocks [][]byte
	for _, s := range old {
		if s.GetPage().GetCursor().GetScope() == scope {
			blocks = append(blocks, s.GetPage().GetBlock())
		}
	}
	var chain []byte
	for _, s := range now {
		if s.GetPages().GetCursor().GetScope() != scope {
			continue
		}
		for _, block := range unpacked(t, s.GetPages()) {
			if !bytes.Equal(block, blocks[0]) {
				t.Fatal("a page is not the one that others are sent")
			}
			sum := sha256.Sum256(append(chain, block...))
			chain, blocks = sum[:16], blocks[1:]
		}
		if !bytes.Equal(chain, s.GetPages().GetCursor().GetChain()) {
			t.Fatal("the pages do not link up to their cursor")
		}
	}
	if len(blocks) > 0 {
		t.Errorf("%d pages did not come", len(blocks))
	}
}

func TestAQuestionNamesEightBytesOfItsChainAtLeast(t *testing.T) {
	h := settled(t, servertest.New(t))
	daysByHand(t, h, 1, false)
	head := pull(t, h.p, &freshetv1.PullRequest{}).heads["site:"+h.site]
	for _, length := range []int{16, 8, 7, 0} {
		asked := proto.CloneOf(head)
		asked.Chain = asked.Chain[:length]
		got, _ := steps(t, h.p, &freshetv1.PullRequest{Schema: 2, Cursors: []*freshetv1.Cursor{asked}, Scopes: []string{"site:" + h.site}})
		if reset := got[0].GetScopeReset() != nil; reset != (length < 8) {
			t.Errorf("with %d bytes of its chain the scope is reset: %v", length, reset)
		}
		if digests := got[len(got)-1].GetCaughtUp().GetDigests(); len(digests) > 0 != (length < 8) {
			t.Errorf("with %d bytes: digests %v", length, digests)
		}
	}
}

// Whoever sends dense readings makes the same feed: all devices read it.
func TestDenseReadingsMakeTheFeedOfPlainOnes(t *testing.T) {
	var feeds [2][]*freshetv1.ReadingColumns
	for i, dense := range []bool{false, true} {
		h := settled(t, servertest.New(t))
		daysByHand(t, h, 3, dense)
		for _, block := range pull(t, h.p, &freshetv1.PullRequest{}).blocks["site:"+h.site] {
			for _, c := range block.GetReadings() {
				c.Ids = nil // the site's, which is another
				feeds[i] = append(feeds[i], c)
			}
		}
	}
	if len(feeds[0]) != 3 || len(feeds[1]) != 3 {
		t.Fatalf("%d and %d batches", len(feeds[0]), len(feeds[1]))
	}
	for i := range feeds[0] {
		if !proto.Equal(feeds[0][i], feeds[1][i]) {
			t.Errorf("plain %v\ndense %v", feeds[0][i], feeds[1][i])
		}
	}
}
