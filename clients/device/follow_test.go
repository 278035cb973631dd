package device_test

import (
	"context"
	"strings"
	"sync"
	"testing"
	"time"

	"freshet.example/clients/device"
	"freshet.example/server/servertest"
)

// Two phones that follow read what the other notes, without anybody asking
// them to sync; what a third process notes in a phone's folder goes too.
func TestFollowersReadWhatOthersNote(t *testing.T) {
	s := servertest.New(t)
	first, siteID := at(t, s)
	syncNow(t, first)
	second, _ := at(t, s)
	ctx, stop := context.WithCancel(t.Context())
	var both sync.WaitGroup
	for _, d := range []*device.Device{first, second} {
		both.Go(func() {
			d.Follow(ctx, func(_ device.Progress, err error) {
				if err != nil {
					t.Errorf("on a whole line: %v", err)
				}
			})
		})
	}
	defer both.Wait()
	defer stop()
	note(t, first, readingAt(siteID, 1, 71))
	reads(t, second, "71")
	note(t, second, readingAt(siteID, 2, 72))
	reads(t, first, "71 72")
	beside, err := device.Open(first.Dir())
	if err != nil {
		t.Fatal(err)
	}
	defer beside.Close() //nolint:errcheck // its entry is looked for elsewhere
	note(t, beside, readingAt(siteID, 3, 73))
	reads(t, second, "71 72 73")
}

// reads waits until a device reads so; a hint that is lost would let it wait
// for longer than a test may.
func reads(t *testing.T, d *device.Device, want string) {
	t.Helper()
	for strings.TrimSpace(told(t, d)) != want {
		if t.Failed() {
			t.FailNow()
		}
		time.Sleep(20 * time.Millisecond)
	}
}
