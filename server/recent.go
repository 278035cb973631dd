package server

import (
	"sync"
	"time"
)

// recent remembers for a while with what callers were let in. It lets nobody in:
// the gate looks each one up all the same.
type recent struct {
	mu sync.Mutex
	by map[credential]time.Time
}

const (
	recentFor  = time.Hour
	recentKept = 8192
)

func (r *recent) has(c credential) bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	return time.Since(r.by[c]) < recentFor
}

func (r *recent) note(c credential) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.by == nil || len(r.by) >= recentKept {
		r.by = map[credential]time.Time{}
	}
	r.by[c] = time.Now()
}
