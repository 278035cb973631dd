package server

import (
	"context"
	"errors"
	"net/netip"
	"runtime"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/uuid"
)

// While one member has a thousand calls waiting, another's next call is worked
// on after at most those that had begun.
func TestTurnsGoByMember(t *testing.T) {
	turns, flood, honest := newTurns(3, 2), party{member: uuid.New()}, party{member: uuid.New()}
	var mu sync.Mutex
	var worked []party
	var all sync.WaitGroup
	work := func(who party) {
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
	first := func() (who party) {
		mu.Lock()
		defer mu.Unlock()
		if len(worked) > 0 {
			who = worked[0]
		}
		return who
	}
	for first() == (party{}) { // the third turn is free for others
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
	turns, a, b := newTurns(1, 1), party{member: uuid.New()}, party{member: uuid.New()}
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

// knock has an address's nth connection ask to be let in.
func knock(d *doors, from netip.Prefix, n int) (yields *guestConn, ok bool) {
	return d.admit(from, netip.AddrPortFrom(from.Addr(), uint16(n)), &guestConn{heard: &atomic.Int64{}}) // #nosec G115 -- some thousand
}

func TestDoorsAreSharedByAddress(t *testing.T) {
	d := newDoors(nil, UsualCrowd)
	one, other := netip.MustParsePrefix("192.0.2.1/32"), netip.MustParsePrefix("192.0.2.2/32")
	for n := range maxConnectionsOfOne {
		if _, ok := knock(d, one, n); !ok {
			t.Fatal("refused too early")
		}
	}
	if _, ok := knock(d, one, maxConnectionsOfOne); ok {
		t.Error("one address takes more than its share")
	}
	if _, ok := knock(d, other, 1); !ok {
		t.Error("one address takes another's share")
	}
	d.leave(one, netip.AddrPortFrom(one.Addr(), 5))
	if _, ok := knock(d, one, 5); !ok {
		t.Error("a door that was left stays shut")
	}
}

// Where all doors are taken, whoever has most gives one up: the one that was
// silent longest. Who has as many already gets none.
func TestFewAddressesKeepNobodyOut(t *testing.T) {
	d := newDoors(nil, UsualCrowd)
	d.most = 9
	one, other, phone := netip.MustParsePrefix("192.0.2.1/32"), netip.MustParsePrefix("192.0.2.2/32"), netip.MustParsePrefix("192.0.2.3/32")
	for n := range 5 {
		knock(d, one, n)
	}
	for n := range 4 {
		knock(d, other, n)
	}
	for n := range uint16(5) {
		d.open[one][netip.AddrPortFrom(one.Addr(), n)].heard.Store(int64(10 - n))
	}
	silent := d.open[one][netip.AddrPortFrom(one.Addr(), 4)]
	if _, ok := knock(d, one, 5); ok {
		t.Error("who has most is let in once more")
	}
	if _, ok := knock(d, other, 5); ok {
		t.Error("one of equals gave up a door")
	}
	yields, ok := knock(d, phone, 1)
	if !ok || yields != silent {
		t.Errorf("let in: %v; %v of the five gives up its door", ok, yields.heard.Load())
	}
}

// Refusals are held back until their time is over or the caller goes, as many as
// may be; who has more is told apart.
func TestRefusalsAreHeldBack(t *testing.T) {
	a, flood := newAntechamber(time.Hour), party{member: uuid.New()}
	ctx, cancel := context.WithCancel(t.Context())
	var all sync.WaitGroup
	for range refusalsHeldOfOne {
		all.Go(func() {
			if !a.wait(ctx, flood) {
				t.Error("too few are held")
			}
		})
	}
	for held := 0; held < refusalsHeldOfOne; runtime.Gosched() {
		a.mu.Lock()
		held = a.all
		a.mu.Unlock()
	}
	if a.wait(ctx, flood) {
		t.Error("one too many was held")
	}
	cancel()
	all.Wait()
	if a.all != 0 || len(a.by) != 0 || !a.wait(ctx, flood) {
		t.Errorf("%d are held yet, of %d", a.all, len(a.by))
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
