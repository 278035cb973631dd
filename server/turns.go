package server

import (
	"context"
	"net/netip"
	"slices"
	"sync"

	"github.com/google/uuid"
)

// A party is whom turns are shared among: members, and networks of those who are
// not known yet.
type party struct {
	member  uuid.UUID
	network netip.Prefix
}

// turns lets some work go on at a time, and takes what waits by party, one of
// each in turn: who asks a thousand things waits for their own, others do not.
type turns struct {
	mu      sync.Mutex
	free    int
	share   int // of one party at a time
	working map[party]int
	waiting map[party][]chan struct{}
	order   []party // who has work waiting, the next one first
}

func newTurns(all, share int) *turns {
	return &turns{free: all, share: share, working: map[party]int{}, waiting: map[party][]chan struct{}{}}
}

// waitingOfOne is how much of one party may wait for a turn: as many devices as
// may come from one network at the same moment.
const waitingOfOne = 1000

// take waits for a turn, which done gives back.
func (t *turns) take(ctx context.Context, who party) (done func(), err error) {
	mine := make(chan struct{})
	t.mu.Lock()
	if len(t.waiting[who]) >= waitingOfOne {
		t.mu.Unlock()
		return nil, tooMany("too much waits already", crowdedWait)
	}
	if len(t.waiting[who]) == 0 {
		t.order = append(t.order, who)
	}
	t.waiting[who] = append(t.waiting[who], mine)
	t.deal()
	t.mu.Unlock()
	select {
	case <-mine:
		return func() { t.done(who) }, nil
	case <-ctx.Done():
		t.giveUp(who, mine)
		return nil, ctx.Err()
	}
}

// deal gives free turns to those who wait.
func (t *turns) deal() {
	for i := 0; t.free > 0 && i < len(t.order); {
		who := t.order[i]
		if t.working[who] >= t.share {
			i++
			continue
		}
		close(t.waiting[who][0])
		t.free--
		t.working[who]++
		t.order = slices.Delete(t.order, i, i+1)
		if t.waiting[who] = t.waiting[who][1:]; len(t.waiting[who]) > 0 {
			t.order = append(t.order, who)
		} else {
			delete(t.waiting, who)
		}
		i = 0
	}
}

func (t *turns) done(who party) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.free++
	if t.working[who]--; t.working[who] == 0 {
		delete(t.working, who)
	}
	t.deal()
}

// giveUp leaves the queue; a turn that was given meanwhile goes back.
func (t *turns) giveUp(who party, mine chan struct{}) {
	t.mu.Lock()
	i := slices.Index(t.waiting[who], mine)
	if i < 0 {
		t.mu.Unlock()
		t.done(who)
		return
	}
	if t.waiting[who] = slices.Delete(t.waiting[who], i, i+1); len(t.waiting[who]) == 0 {
		delete(t.waiting, who)
		t.order = slices.DeleteFunc(t.order, func(m party) bool { return m == who })
	}
	t.mu.Unlock()
}
