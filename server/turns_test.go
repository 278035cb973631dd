package server

import (
	"context"
	"errors"
	"net/netip"
	"runtime"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"
)

// While one member has a thousand calls waiting, another's next call is worked
// on after at most those that had begun.
func TestTurnsGoByMember(t *testing.T) {
	turns, flood, honest := newTurns(3, 2), uuid.New(), uuid.New()
	var mu sync.Mutex
	var worked []uuid.UUID
	var all sync.WaitGroup
	work := func(who uuid.UUID) {
		all.Go(func() {
			done, err := turns.take(t.Context(), who)
			if err != nil {
				t.Error(err)
				return
			}
			mu.Lock()
			worked = append(worked, who)
			mu.Unlock()
			done()
		})
	}
	began := make([]func(), 2)
	for i := range began { // the flood's whole share is at work
		began[i], _ = turns.take(t.Context(), flood)
	}
	for range 1000 {
		work(flood)
	}
	for waiting := 0; waiting < 1000; {
		turns.mu.Lock()
		waiting = len(turns.waiting[flood])
		turns.mu.Unlock()
	}
	work(honest)
	first := func() (who uuid.UUID) {
		mu.Lock()
		defer mu.Unlock()
		if len(worked) > 0 {
			who = worked[0]
		}
		return who
	}
	for first() == uuid.Nil { // the third turn is free for others
		runtime.Gosched()
	}
	if first() != honest {
		t.Error("the flood was served first")
	}
	for _, done := range began {
		done()
	}
	all.Wait()
	if turns.free != 3 || len(turns.order) != 0 || len(worked) != 1001 {
		t.Errorf("%d turns free, %d members wait, %d worked", turns.free, len(turns.order), len(worked))
	}
}

func TestWhoGivesUpLeavesTheQueue(t *testing.T) {
	turns, a, b := newTurns(1, 1), uuid.New(), uuid.New()
	done, err := turns.take(t.Context(), a)
	if err != nil {
		t.Fatal(err)
	}
	ended, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := turns.take(ended, b); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
	done()
	if turns.free != 1 || len(turns.order) != 0 || len(turns.waiting) != 0 {
		t.Errorf("%+v", turns)
	}
}

func TestASlowSenderIsLetGo(t *testing.T) {
	ctx, cancel := context.WithTimeout(t.Context(), 10*time.Millisecond)
	defer cancel()
	never := make(chan struct{})
	defer close(never)
	err := readInTime(ctx, func(any) error { <-never; return nil }, nil)
	if !errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("%v", err)
	}
}

func TestDoorsAreSharedByAddress(t *testing.T) {
	d := newDoors(nil)
	one, other := netip.MustParsePrefix("192.0.2.1/32"), netip.MustParsePrefix("192.0.2.2/32")
	for range maxConnectionsOfOne {
		if !d.admit(one) {
			t.Fatal("refused too early")
		}
	}
	if d.admit(one) || !d.admit(other) {
		t.Error("one address takes more than its share, or another's")
	}
	d.leave(one)
	if !d.admit(one) {
		t.Error("a door that was left stays shut")
	}
}

func TestQuietGuestsAreForgotten(t *testing.T) {
	c := newCrowd[int](Bounds{Often: 1, AtOnce: 10, Running: 2, Streams: 1}, "it")
	leave, err := c.enter(-1, false)
	if err != nil {
		t.Fatal(err)
	}
	for i := range 3 * guestsKept {
		c.count(i)
	}
	if len(c.by) > guestsKept+1 || c.by[-1] == nil {
		t.Errorf("%d guests are kept; the one at work: %v", len(c.by), c.by[-1])
	}
	leave()
}
