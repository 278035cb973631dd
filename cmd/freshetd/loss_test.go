package main

import (
	"bytes"
	"image"
	"image/jpeg"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
)

// A backup is taken while devices note and sync; the server and all it kept are
// lost, the devices go on, and another server is restored elsewhere. In the end
// each entry is there once and every device, a new one too, reads the same; and
// so it is with the files of two photos, of which the backup has one.
func TestABackupTakenUnderLoadLosesNothing(t *testing.T) {
	folder := t.TempDir()
	lost, kept, again := filepath.Join(folder, "lost"), filepath.Join(folder, "kept"), filepath.Join(folder, "again")
	p := start(t, "serve", "--data", lost)
	g := newGang(t, p)
	stop := g.work()
	t.Cleanup(stop)
	photos := []shot{g.shoot(1)}
	g.goOn(50)
	g.keeps("backup", kept, "--data", lost)
	g.goOn(50)
	photos = append(photos, g.shoot(2))
	if err := p.end(syscall.SIGKILL); err == nil {
		t.Fatal("freshetd lives on")
	}
	if err := os.RemoveAll(lost); err != nil {
		t.Fatal(err)
	}
	g.goOn(50) // with no server at all
	g.keeps("restore", kept, "--data", again)
	p = start(t, "serve", "--data", again, "--grpc", p.grpc)
	g.goOn(50)
	stop()
	g.settle()
	g.devices = append(g.devices, joined(t, p.grpc, g.invite(), "Ines Vaart"))
	g.settle()
	g.same(again)
	for i, photo := range photos {
		g.shows(photo, i)
	}
	after := filepath.Join(folder, "after")
	g.keeps("backup", after, "--data", again)
	if said := g.keeps("rehearse", after, "--data", again); !strings.Contains(said, "came back equal") {
		t.Errorf("rehearse: %s", said)
	}
}

// keeps runs a command of whoever keeps the machine, which must succeed.
func (g *gang) keeps(args ...string) string {
	g.t.Helper()
	exit, out, errs := command(g.t, args...)
	if exit != 0 {
		g.t.Fatalf("%s: %d %s%s", args[0], exit, out, errs)
	}
	return out
}

// A shot is a photo that was noted, with its file.
type shot struct {
	noted *freshetv1.Photo
	file  []byte
}

// shoot takes a photo of several chunks on the first device, and waits until
// its syncs have sent the file.
func (g *gang) shoot(seed uint64) shot {
	g.t.Helper()
	m, random := image.NewGray(image.Rect(0, 0, 700, 600)), rand.New(rand.NewPCG(seed, 1)) //nolint:gosec // any picture will do
	for i := range m.Pix {
		m.Pix[i] = uint8(random.Uint32()) //nolint:gosec // its lowest byte
	}
	var taken bytes.Buffer
	if err := jpeg.Encode(&taken, m, nil); err != nil {
		g.t.Fatal(err)
	}
	photo, err := g.devices[0].KeepPhoto(taken.Bytes())
	if err == nil {
		_, err = g.devices[0].Note(g.t.Context(), &freshetv1.Event{SiteId: g.site, OccurredAt: timestamppb.Now(), Kind: &freshetv1.Event_Photo{Photo: photo}})
	}
	if err != nil {
		g.t.Fatal(err)
	}
	for !g.arrived() && !g.t.Failed() {
		time.Sleep(10 * time.Millisecond)
	}
	return shot{photo, taken.Bytes()}
}

// arrived tells whether the server has the files of all photos of the first device.
func (g *gang) arrived() bool {
	g.t.Helper()
	files, err := g.devices[0].PhotoFiles(g.t.Context())
	if err != nil {
		g.t.Fatal(err)
	}
	return !slices.ContainsFunc(files, func(f device.PhotoFile) bool { return !f.Arrived })
}

// shows lets the newest device fetch a photo's file.
func (g *gang) shows(photo shot, i int) {
	g.t.Helper()
	path, err := g.devices[len(g.devices)-1].PhotoPath(g.t.Context(), g.site, photo.noted)
	if err != nil {
		g.t.Fatalf("photo %d: %v", i, err)
	}
	if got, err := os.ReadFile(path); err != nil || !bytes.Equal(got, photo.file) {
		g.t.Errorf("photo %d came back as %d other bytes, %v", i, len(got), err)
	}
}
