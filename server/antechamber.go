package server

import (
	"context"
	"sync"
	"time"
)

// An antechamber holds refusals back. Whoever asks again as soon as they were
// answered is answered once a second, and costs nothing meanwhile.
type antechamber struct {
	hold time.Duration // 0: refusals are not held back
	mu   sync.Mutex
	by   map[party]int
	all  int
}

const (
	refusalsHeldOfOne = 64
	refusalsHeld      = 2048
)

func newAntechamber(hold time.Duration) *antechamber {
	return &antechamber{hold: hold, by: map[party]int{}}
}

// wait holds a refusal of a party back; false where so many are that this one
// cannot be: who sends that many has to be got rid of otherwise.
func (a *antechamber) wait(ctx context.Context, who party) bool {
	if a.hold <= 0 {
		return true
	}
	if !a.enter(who) {
		return false
	}
	defer a.leave(who)
	over := time.NewTimer(a.hold)
	defer over.Stop()
	select {
	case <-over.C:
	case <-ctx.Done():
	}
	return true
}

func (a *antechamber) enter(who party) bool {
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.all >= refusalsHeld || a.by[who] >= refusalsHeldOfOne {
		return false
	}
	a.all++
	a.by[who]++
	return true
}

func (a *antechamber) leave(who party) {
	a.mu.Lock()
	defer a.mu.Unlock()
	a.all--
	if a.by[who]--; a.by[who] == 0 {
		delete(a.by, who)
	}
}
