package server_test

import (
	"bytes"
	"crypto/sha256"
	"image"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/photofile"
	"freshet.example/server"
	"freshet.example/server/servertest"
	"freshet.example/store"
)

// snapshot is a picture that hardly packs, of some chunks.
func snapshot(t *testing.T, seed uint64, side int) []byte {
	t.Helper()
	m, random := image.NewRGBA(image.Rect(0, 0, side, side)), rand.New(rand.NewPCG(seed, 1))
	for i := range m.Pix {
		m.Pix[i] = uint8(random.Uint32())
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// A shot is a photo on its way from a device.
type shot struct {
	*hand
	file  []byte
	sum   []byte
	photo string // id of its event
}

// shoots notes a photo and pushes it; the file stays on the device.
func (h *hand) shoots(file []byte, mediaType string) *shot {
	h.t.Helper()
	sum := sha256.Sum256(file)
	op := h.event(&freshetv1.Event{Kind: &freshetv1.Event_Photo{Photo: &freshetv1.Photo{Sha256: sum[:], SizeBytes: uint64(len(file)), MediaType: mediaType}}})
	h.stores(op)
	return &shot{hand: h, file: file, sum: sum[:], photo: h.id(op.GetNumber())}
}

func (s *shot) chunk(n int) []byte {
	from := n * photofile.ChunkBytes
	return s.file[from : from+photofile.ChunkLength(int64(len(s.file)), n)]
}

// put sends a chunk as somebody.
func (s *shot) put(p *servertest.Person, n int, data []byte) (*freshetv1.PhotoFile, error) {
	sum := sha256.Sum256(data)
	out, err := p.Photos.PutPhotoChunk(s.t.Context(), &freshetv1.PutPhotoChunkRequest{SiteId: s.site, Sha256: s.sum, Number: uint32(n), Data: data, DataSha256: sum[:]})
	return out.GetFile(), err
}

// state is what the server says of the file; nil where it knows of none.
func (s *shot) state(p *servertest.Person) *freshetv1.PhotoFile {
	s.t.Helper()
	out, err := p.Photos.FindPhotoFiles(s.t.Context(), &freshetv1.FindPhotoFilesRequest{SiteId: s.site, Sha256: [][]byte{s.sum}})
	if err != nil {
		s.t.Fatal(err)
	}
	if len(out.GetFiles()) == 0 {
		return nil
	}
	return out.GetFiles()[0]
}

// arrives sends what the server lacks.
func (s *shot) arrives(p *servertest.Person) {
	s.t.Helper()
	for file := s.state(p); !file.GetWhole(); {
		var err error
		if file, err = s.put(p, int(file.GetNextChunk()), s.chunk(int(file.GetNextChunk()))); err != nil {
			s.t.Fatal(err)
		}
	}
}

func (s *shot) fetched(p *servertest.Person) ([]byte, error) {
	var whole []byte
	for n := range photofile.Chunks(int64(len(s.file))) {
		out, err := p.Photos.GetPhotoChunk(s.t.Context(), &freshetv1.GetPhotoChunkRequest{SiteId: s.site, Sha256: s.sum, Number: uint32(n)})
		if err != nil {
			return nil, err
		}
		whole = append(whole, out.GetData()...)
	}
	return whole, nil
}

func settledHand(t *testing.T, s *servertest.Server) *hand {
	t.Helper()
	h := newHand(t, s.Steward())
	h.settleIn()
	return h
}

// TestAFileThatIsCutAtEachChunk goes on after each chunk on whichever device
// comes next, with answers lost and chunks sent again.
func TestAFileThatIsCutAtEachChunk(t *testing.T) {
	s := servertest.New(t)
	h := settledHand(t, s)
	other := h.another(s)
	shot := h.shoots(snapshot(t, 1, 700), "image/jpeg")
	chunks := photofile.Chunks(int64(len(shot.file)))
	if chunks < 4 {
		t.Fatalf("the picture has %d chunks only", chunks)
	}
	for n := range chunks {
		p := []*servertest.Person{h.p, other.p}[n%2]
		if next := int(shot.state(p).GetNextChunk()); next != n {
			t.Fatalf("chunk %d is wanted, not %d", next, n)
		}
		if _, err := shot.fetched(p); reasonOf(err) != "UNKNOWN_RECORD" {
			t.Errorf("%d chunks of %d could be fetched: %v", n, chunks, err)
		}
		ahead, err := shot.put(p, chunks-1, shot.chunk(chunks-1))
		if n < chunks-1 && (err != nil || int(ahead.GetNextChunk()) != n) {
			t.Fatalf("a chunk ahead of its turn: %v, %v", ahead, err)
		}
		for range 2 { // the first answer was lost
			if _, err := shot.put(p, n, shot.chunk(n)); err != nil {
				t.Fatal(err)
			}
		}
	}
	if got, err := shot.fetched(other.p); err != nil || !bytes.Equal(got, shot.file) || !shot.state(h.p).GetWhole() {
		t.Errorf("%d of %d bytes came back: %v", len(got), len(shot.file), err)
	}
}

func TestAFileThatIsNotTheOneNamed(t *testing.T) {
	s := servertest.New(t)
	h := settledHand(t, s)
	shot := h.shoots(snapshot(t, 2, 400), "image/jpeg")
	wrong := slices.Clone(shot.chunk(0))
	wrong[len(wrong)-9] ^= 2
	damaged := &freshetv1.PutPhotoChunkRequest{SiteId: h.site, Sha256: shot.sum, Data: shot.chunk(0), DataSha256: make([]byte, 32)}
	if _, err := h.p.Photos.PutPhotoChunk(t.Context(), damaged); reasonOf(err) != "PHOTO_DIFFERS" {
		t.Errorf("a chunk that changed on its way: %v", err)
	}
	if _, err := shot.put(h.p, 0, shot.file[:9]); reasonOf(err) != "PHOTO_DIFFERS" {
		t.Errorf("a short chunk: %v", err)
	}
	var err error
	for n := range photofile.Chunks(int64(len(shot.file))) {
		data := shot.chunk(n)
		if n == 0 {
			data = wrong
		}
		_, err = shot.put(h.p, n, data)
	}
	if reasonOf(err) != "PHOTO_DIFFERS" {
		t.Errorf("another file than was named: %v", err)
	}
	if state := shot.state(h.p); state.GetNextChunk() != 0 || state.GetWhole() {
		t.Errorf("of the wrong file there is left %v", state)
	}
	shot.arrives(h.p)
}

func TestFilesThatAreRefused(t *testing.T) {
	s := servertest.New(t)
	h := settledHand(t, s)
	plain := snapshot(t, 3, 60)
	told := slices.Insert(slices.Clone(plain), 2, []byte("\xff\xfe\x00\x09a place")...)
	var wide, tall bytes.Buffer
	for b, m := range map[*bytes.Buffer]image.Image{&wide: image.NewGray(image.Rect(0, 0, 9, 9)), &tall: image.NewGray(image.Rect(0, 0, 1, photofile.MaxSide+1))} {
		if err := png.Encode(b, m); err != nil {
			t.Fatal(err)
		}
	}
	for name, c := range map[string]struct {
		file            []byte
		mediaType, want string
	}{
		"tells the place": {told, "image/jpeg", "PHOTO_TELLS_MORE"},
		"another kind":    {wide.Bytes(), "image/jpeg", "PHOTO_DIFFERS"},
		"no picture":      {[]byte("<html>"), "image/png", "PHOTO_DIFFERS"},
		"unfolds":         {tall.Bytes(), "image/png", "PHOTO_TOO_LARGE"},
	} {
		shot := h.shoots(c.file, c.mediaType)
		if _, err := shot.put(h.p, 0, c.file); reasonOf(err) != c.want {
			t.Errorf("%s: %v, want %s", name, err, c.want)
		}
	}
	unnoted := &shot{hand: h, file: plain, sum: make([]byte, 32)}
	if _, err := unnoted.put(h.p, 0, plain); reasonOf(err) != "UNKNOWN_RECORD" {
		t.Errorf("a file that no photo names: %v", err)
	}
}

func TestThumbnailsComeFirst(t *testing.T) {
	s := servertest.New(t)
	h := settledHand(t, s)
	shot := h.shoots(snapshot(t, 4, 300), "image/jpeg")
	for name, c := range map[string]struct {
		jpeg []byte
		want string
	}{
		"small": {snapshot(t, 5, 90), ""}, "too wide": {snapshot(t, 5, photofile.MaxThumbnailSide+1), "PHOTO_TOO_LARGE"},
		"none": {[]byte("a page"), "PHOTO_DIFFERS"},
	} {
		if _, err := h.p.Photos.PutPhotoThumbnail(t.Context(), &freshetv1.PutPhotoThumbnailRequest{SiteId: h.site, Sha256: shot.sum, Jpeg: c.jpeg}); reasonOf(err) != c.want {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
	got, err := h.p.Photos.GetPhotoThumbnail(t.Context(), &freshetv1.GetPhotoThumbnailRequest{SiteId: h.site, Sha256: shot.sum})
	if err != nil || !bytes.Equal(got.GetJpeg(), snapshot(t, 5, 90)) || !shot.state(h.p).GetHasThumbnail() || shot.state(h.p).GetWhole() {
		t.Errorf("%d bytes, %v; %v", len(got.GetJpeg()), err, shot.state(h.p))
	}
}

func TestRoomForPhotos(t *testing.T) {
	first := snapshot(t, 6, 200)
	for name, room := range map[string]store.PhotoRoom{
		"a member": {Member: int64(len(first)) + 100, Site: 1 << 30}, "a site": {Member: 1 << 30, Site: int64(len(first)) + 100},
	} {
		s := servertest.Start(t, server.Options{PhotoRoom: room})
		h := settledHand(t, s)
		h.shoots(first, "image/jpeg").arrives(h.p)
		more := h.shoots(snapshot(t, 7, 100), "image/jpeg")
		_, err := more.put(h.p, 0, more.chunk(0))
		if reasonOf(err) != "PHOTO_ROOM_USED" || !strings.Contains(err.Error(), "no room left") {
			t.Errorf("%s: %v", name, err)
		}
		found, err := h.p.Photos.FindPhotoFiles(t.Context(), &freshetv1.FindPhotoFilesRequest{SiteId: h.site})
		if used := found.GetRoom(); err != nil || used.GetMemberBytes() != uint64(len(first)) || used.GetSiteBytes() != uint64(len(first)) {
			t.Errorf("%s: %v, %v", name, used, err)
		}
	}
}

// TestAFileGoesWithItsPhoto voids photos, puts others in their place, and looks
// behind the server's back.
func TestAFileGoesWithItsPhoto(t *testing.T) {
	s := servertest.New(t)
	h := settledHand(t, s)
	alone, twice := h.shoots(snapshot(t, 8, 200), "image/jpeg"), h.shoots(snapshot(t, 9, 200), "image/jpeg")
	again := h.shoots(twice.file, "image/jpeg")
	alone.arrives(h.p)
	twice.arrives(h.p)
	voids := func(photo string, replacement *freshetv1.Event) {
		h.stores(h.event(&freshetv1.Event{Kind: &freshetv1.Event_Correction{Correction: &freshetv1.Correction{EventId: photo, Replacement: replacement}}}))
	}
	voids(again.photo, nil)
	if !twice.state(h.p).GetWhole() {
		t.Error("a file went that another photo names")
	}
	voids(twice.photo, &freshetv1.Event{SiteId: h.site, OccurredAt: timestamppb.Now(), Kind: &freshetv1.Event_Photo{Photo: &freshetv1.Photo{Sha256: twice.sum, SizeBytes: uint64(len(twice.file)), MediaType: "image/jpeg", Caption: "other words"}}})
	if !twice.state(h.p).GetWhole() {
		t.Error("a file went when its photo got other words")
	}
	voids(alone.photo, nil)
	if left := peek[int](t, s, "SELECT count(*)::int FROM photo_chunks c WHERE sha256 = $1", alone.sum); left > 0 || alone.state(h.p) != nil {
		t.Errorf("of a photo that was taken back %d chunks are left", left)
	}
	if _, err := alone.fetched(h.p); reasonOf(err) != "UNKNOWN_RECORD" {
		t.Errorf("it can be fetched: %v", err)
	}
}

func TestWhoSeesAPhoto(t *testing.T) {
	s := servertest.New(t)
	h := settledHand(t, s)
	shot := h.shoots(snapshot(t, 10, 100), "image/jpeg")
	shot.arrives(h.p)
	stranger := s.Join(grower, "Else")
	sees := func(who string, p *servertest.Person, want bool) {
		t.Helper()
		if got, err := shot.fetched(p); bytes.Equal(got, shot.file) != want {
			t.Errorf("%s: %v, want %v", who, err, want)
		}
	}
	sees("a helper", s.Join(helper, "Hand", h.site), true)
	sees("a reader", s.Join(reader, "Eye", h.site), false)
	sees("another grower", stranger, false)
	for _, kind := range []string{"all", "photo"} { // photos are opened by themselves only
		if _, err := h.p.Accounts.SetSharing(t.Context(), &freshetv1.SetSharingRequest{SiteId: h.site, Kind: kind, Sharing: freshetv1.Sharing_SHARING_OPEN}); err != nil {
			t.Fatal(err)
		}
		sees("another grower, with "+kind+" open", stranger, kind == "photo")
	}
	if _, err := shot.put(stranger, 0, shot.chunk(0)); reasonOf(err) != "SITE_NOT_YOURS" {
		t.Errorf("another grower sends: %v", err)
	}
}
