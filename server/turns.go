package server

import (
	"context"
	"slices"
	"sync"

	"github.com/google/uuid"
)

// turns lets some calls work at a time, and takes those that wait by member, one
// of each in turn: who asks a thousand things waits for their own, others do not.
type turns struct {
	mu      sync.Mutex
	free    int
	share   int // calls of one member at a time
	working map[uuid.UUID]int
	waiting map[uuid.UUID][]chan struct{}
	order   []uuid.UUID // who has calls waiting, the next one first
}

func newTurns(all, share int) *turns {
	return &turns{free: all, share: share, working: map[uuid.UUID]int{}, waiting: map[uuid.UUID][]chan struct{}{}}
}

// take waits for a turn, which done gives back.
func (t *turns) take(ctx context.Context, member uuid.UUID) (done func(), err error) {
	mine := make(chan struct{})
	t.mu.Lock()
	if len(t.waiting[member]) == 0 {
		t.order = append(t.order, member)
	}
	t.waiting[member] = append(t.waiting[member], mine)
	t.deal()
	t.mu.Unlock()
	select {
	case <-mine:
		return func() { t.done(member) }, nil
	case <-ctx.Done():
		t.giveUp(member, mine)
		return nil, ctx.Err()
	}
}

// deal gives free turns to those who wait.
func (t *turns) deal() {
	for i := 0; t.free > 0 && i < len(t.order); {
		member := t.order[i]
		if t.working[member] >= t.share {
			i++
			continue
		}
		close(t.waiting[member][0])
		t.free--
		t.working[member]++
		t.order = slices.Delete(t.order, i, i+1)
		if t.waiting[member] = t.waiting[member][1:]; len(t.waiting[member]) > 0 {
			t.order = append(t.order, member)
		} else {
			delete(t.waiting, member)
		}
		i = 0
	}
}

func (t *turns) done(member uuid.UUID) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.free++
	if t.working[member]--; t.working[member] == 0 {
		delete(t.working, member)
	}
	t.deal()
}

// giveUp leaves the queue; a turn that was given meanwhile goes back.
func (t *turns) giveUp(member uuid.UUID, mine chan struct{}) {
	t.mu.Lock()
	i := slices.Index(t.waiting[member], mine)
	if i < 0 {
		t.mu.Unlock()
		t.done(member)
		return
	}
	if t.waiting[member] = slices.Delete(t.waiting[member], i, i+1); len(t.waiting[member]) == 0 {
		delete(t.waiting, member)
		t.order = slices.DeleteFunc(t.order, func(m uuid.UUID) bool { return m == member })
	}
	t.mu.Unlock()
}
