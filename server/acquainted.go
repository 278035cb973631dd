package server

import (
	"sync"
	"time"

	"github.com/google/uuid"
)

// acquainted remembers for a while who was let in with what. It lets nobody in:
// the gate looks each one up all the same. It tells whose bounds a call counts
// against before anything is asked of the database.
type acquainted struct {
	mu sync.Mutex
	by map[credential]acquaintance
}

type acquaintance struct {
	device, member uuid.UUID
	since          time.Time
}

const (
	acquaintedFor  = time.Hour
	acquaintedKept = 8192
)

func (a *acquainted) with(c credential) (known acquaintance, ok bool) {
	a.mu.Lock()
	defer a.mu.Unlock()
	known = a.by[c]
	return known, time.Since(known.since) < acquaintedFor
}

func (a *acquainted) note(c credential, device, member uuid.UUID) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.by == nil || len(a.by) >= acquaintedKept {
		a.by = map[credential]acquaintance{}
	}
	a.by[c] = acquaintance{device, member, time.Now()}
}
