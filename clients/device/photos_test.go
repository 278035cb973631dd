package device_test

import (
	"bytes"
	"context"
	"crypto/sha256"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/types/known/fieldmaskpb"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/photofile"
	"freshet.example/clients/device"
	"freshet.example/server"
	"freshet.example/server/servertest"
	"freshet.example/store"
)

// taken is a picture as a camera writes it: held askew, with a place beside it.
func taken(t *testing.T, seed uint64, width, height int) []byte {
	t.Helper()
	m, random := image.NewRGBA(image.Rect(0, 0, width, height)), rand.New(rand.NewPCG(seed, 1))
	for i := range m.Pix {
		m.Pix[i] = uint8(random.Uint32())
	}
	for x := range width * height / 4 { // white above, as stored
		m.Set(x%width, x/width, color.White)
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	exif := []byte("\xff\xe1\x00\x2fExif\x00\x00MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00\x06\x00\x00\x00\x00\x00\x0051 N, a place")
	return slices.Insert(b.Bytes(), 2, exif...)
}

// A lane is a line on which calls about photos can be lost.
type lane struct {
	calls []string
	cut   func(method string) bool // whether the answer is lost
}

func (l *lane) intercept(ctx context.Context, method string, in, out any, conn *grpc.ClientConn, invoke grpc.UnaryInvoker, options ...grpc.CallOption) error {
	l.calls = append(l.calls, method)
	err := invoke(ctx, method, in, out, conn, options...)
	if err == nil && l.cut != nil && l.cut(method) {
		return status.Error(codes.Unavailable, "the line broke")
	}
	return err
}

// camera is a grower's device on such a lane, at a site of hers.
func camera(t *testing.T, s *servertest.Server, l *lane) (d *device.Device, site string) {
	t.Helper()
	d = lensed(t, s, l)
	site, err := d.Set(t.Context(), &freshetv1.Edit{Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{Name: "Weir"}}, Fields: &fieldmaskpb.FieldMask{Paths: []string{"name"}}})
	if err != nil {
		t.Fatal(err)
	}
	return d, site
}

// lensed is one more device of the steward's.
func lensed(t *testing.T, s *servertest.Server, l *lane) *device.Device {
	t.Helper()
	invited, err := s.Steward().Accounts.CreateInvitation(t.Context(), &freshetv1.CreateInvitationRequest{})
	if err != nil {
		t.Fatal(err)
	}
	d, err := device.Open(t.TempDir(), device.WithDialling(grpc.WithChainUnaryInterceptor(l.intercept)))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = d.Close() })
	if err := d.Join(t.Context(), device.Invitation{Code: invited.GetCode(), Address: s.GRPCAddress().String(), Device: "camera"}); err != nil {
		t.Fatal(err)
	}
	return d
}

func shoot(t *testing.T, d *device.Device, site string, picture []byte) *freshetv1.Photo {
	t.Helper()
	photo, err := d.KeepPhoto(picture)
	if err != nil {
		t.Fatal(err)
	}
	note(t, d, &freshetv1.Event{SiteId: site, OccurredAt: timestamppb.Now(), Kind: &freshetv1.Event_Photo{Photo: photo}})
	return photo
}

func TestAPictureIsKeptWithoutThePlaceAndTheRightWayUp(t *testing.T) {
	d, err := device.Open(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close() //nolint:errcheck // the test ends
	photo, err := d.KeepPhoto(taken(t, 1, 80, 40))
	if err != nil {
		t.Fatal(err)
	}
	path, err := d.PhotoPath(t.Context(), site, photo)
	if err != nil {
		t.Fatal(err)
	}
	kept, err := os.ReadFile(path)
	if err != nil || bytes.Contains(kept, []byte("a place")) || uint64(len(kept)) != photo.GetSizeBytes() {
		t.Fatalf("%d bytes kept, %v", len(kept), err)
	}
	facts, err := photofile.Examine(bytes.NewReader(kept))
	if err != nil || facts.Width != 40 || facts.Height != 80 {
		t.Fatalf("%+v, %v", facts, err)
	}
	// What was above as the camera stored it is at the right.
	m, err := jpeg.Decode(bytes.NewReader(kept))
	if r, _, _, _ := m.At(38, 40).RGBA(); err != nil || r < 0xe000 {
		t.Errorf("the right side is %x, %v", r, err)
	}
	for _, bad := range [][]byte{nil, []byte("<html>"), kept[:len(kept)/2]} {
		if _, err := d.KeepPhoto(bad); err == nil {
			t.Errorf("%d bytes were kept as a picture", len(bad))
		}
	}
}

// TestPhotosFollowTheirEntries loses an answer after each chunk, and then
// fetches on another device with as many cuts.
func TestPhotosFollowTheirEntries(t *testing.T) {
	s, l := servertest.New(t), &lane{}
	d, site := camera(t, s, l)
	photo := shoot(t, d, site, taken(t, 2, 900, 700))
	if now := stand(t, d); now.Photos != 1 || now.Waiting != 2 {
		t.Fatalf("%+v", now)
	}
	lost := 0
	l.cut = func(method string) bool {
		if method != freshetv1.PhotoService_PutPhotoChunk_FullMethodName {
			return false
		}
		if lost++; lost == 1 {
			note(t, d, &freshetv1.Event{SiteId: site, OccurredAt: timestamppb.Now(), Kind: &freshetv1.Event_Note{Note: &freshetv1.Note{Text: "meanwhile"}}})
		}
		return lost%2 == 1
	}
	p := syncNow(t, d)
	chunks := photofile.Chunks(int64(photo.GetSizeBytes()))
	if p.Photos != 1 || p.Waiting != 0 || chunks < 3 {
		t.Errorf("%+v, of %d chunks", p, chunks)
	}
	order := []string{"/freshet.v1.SyncService/Push", "/freshet.v1.PhotoService/FindPhotoFiles", "/freshet.v1.PhotoService/PutPhotoThumbnail", "/freshet.v1.PhotoService/PutPhotoChunk", "/freshet.v1.SyncService/Push"}
	at := 0
	for _, call := range l.calls {
		if at < len(order) && call == order[at] {
			at++
		}
	}
	if at < len(order) {
		t.Errorf("called %v; %v did not follow", l.calls, order[at:])
	}
	if now := stand(t, d); now.Photos != 0 {
		t.Errorf("%d photos wait", now.Photos)
	}
	fetchCut(t, s, site, photo)
}

// fetchCut fetches a photo on another device that reads one chunk a try.
func fetchCut(t *testing.T, s *servertest.Server, site string, photo *freshetv1.Photo) {
	t.Helper()
	l := &lane{}
	d := lensed(t, s, l)
	got := 0
	l.cut = func(method string) bool {
		if method == freshetv1.PhotoService_GetPhotoChunk_FullMethodName {
			got++
		}
		return got%2 == 0
	}
	for range 2 * photofile.Chunks(int64(photo.GetSizeBytes())) {
		path, err := d.PhotoPath(t.Context(), site, photo)
		if err != nil {
			continue
		}
		whole, err := os.ReadFile(path)
		if sum := sha256.Sum256(whole); err != nil || !bytes.Equal(sum[:], photo.GetSha256()) {
			t.Fatalf("%d bytes came, %v", len(whole), err)
		}
		if most := 2 * photofile.Chunks(int64(photo.GetSizeBytes())); got > most {
			t.Errorf("%d chunks were fetched, at most %d are needed", got, most)
		}
		return
	}
	t.Fatal("it never came")
}

func stand(t *testing.T, d *device.Device) device.Status {
	t.Helper()
	now, err := d.Status(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return now
}

// TestAPhotoThatIsRefusedHoldsUpNothing has room for the second picture only.
func TestAPhotoThatIsRefusedHoldsUpNothing(t *testing.T) {
	s := servertest.Start(t, server.Options{PhotoRoom: store.PhotoRoom{Member: 20_000, Site: 20_000}})
	d, site := camera(t, s, &lane{})
	shoot(t, d, site, taken(t, 3, 400, 400))
	shoot(t, d, site, taken(t, 4, 40, 40))
	gone := shoot(t, d, site, taken(t, 5, 50, 40))
	if err := os.Remove(filepath.Join(d.Dir(), "photos", nameOf(gone))); err != nil {
		t.Fatal(err)
	}
	syncNow(t, d)
	files, err := d.PhotoFiles(t.Context())
	if err != nil || len(files) != 3 || files[0].Arrived || files[0].Trouble == "" || !files[1].Arrived || files[2].Arrived || files[2].Trouble == "" {
		t.Errorf("%+v, %v", files, err)
	}
}

func nameOf(photo *freshetv1.Photo) string { return fmt.Sprintf("%x", photo.GetSha256()) }
