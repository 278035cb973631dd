package simulation

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	freshetv1 "freshet.example/api/freshet/v1"
)

// began is when every history begins, by the right clock.
const began = int64(1_772_438_400_000)

// A Violation is a broken promise: which, at what step, and how.
type Violation struct {
	Promise string // "I1" to "I15"
	Step    int    // its place in the history; beyond the last: when all had settled
	Words   string
}

// Error says it in one line.
func (v *Violation) Error() string {
	return fmt.Sprintf("%s broken at step %d: %s", v.Promise, v.Step+1, v.Words)
}

// A world is one history being played.
type world struct {
	dir     string
	planted string // the promise that a planted fault breaks; empty: none
	now     int64  // milliseconds since 1970, by the right clock
	sites   []string
	auth    *authority
	parties []*party
	entries map[int64]*entry // by when they are said to have happened, which is unlike for all
	judged  map[int64]bool   // entries that were refused or held
	groups  int
	step    int
	found   *Violation
}

// An entry is an event that somebody noted.
type entry struct {
	event *freshetv1.Event
	site  string
	group int // 0: alone
	size  int // of the group, in the same scope
}

// Play plays a history in a folder of its own below dir, with a fault planted
// where one is named, and returns the first promise that is broken, or nil. An
// error means that the history could not be played.
func Play(ctx context.Context, dir string, h History, planted string) (found *Violation, err error) {
	dir, err = os.MkdirTemp(dir, "history-")
	if err != nil {
		return nil, err
	}
	w := &world{dir: dir, planted: planted, now: began, entries: map[int64]*entry{}, judged: map[int64]bool{}}
	defer func() {
		w.close()
		if removed := os.RemoveAll(dir); err == nil {
			err = removed
		}
	}()
	w.auth = newAuthority(w)
	for i := range h.Sites {
		w.sites = append(w.sites, fmt.Sprintf("5b6d5f6a-90ab-8cd0-8000-00000000000%d", i+1))
	}
	for i := range h.Devices {
		if err := w.join(ctx, i); err != nil {
			return nil, err
		}
	}
	for i, s := range h.Steps {
		w.step, w.now = i, w.now+1000
		if s.Who >= len(w.parties) {
			continue // the step that made this device was taken away
		}
		if err := verbs[s.Verb](ctx, w, w.parties[s.Who], s); err != nil || w.found != nil {
			return w.found, err
		}
	}
	w.step = len(h.Steps)
	return w.settle(ctx)
}

func (w *world) fault(promise string) bool { return w.planted == promise }

// broken keeps the first broken promise.
func (w *world) broken(promise, format string, args ...any) {
	if w.found == nil {
		w.found = &Violation{promise, w.step, fmt.Sprintf(format, args...)}
	}
}

func (w *world) close() {
	for _, p := range w.parties {
		if p.dev != nil {
			_ = p.dev.Close() // the folder goes with it
		}
	}
}

// join makes a device of a new member, who may enter every site.
func (w *world) join(ctx context.Context, i int) error {
	p := newParty(w, fmt.Sprint("m", i))
	w.auth.rights[p.member] = map[string]bool{}
	for _, site := range w.sites {
		w.auth.rights[p.member][site] = true
	}
	if err := p.open(ctx); err != nil {
		return err
	}
	return p.dev.Join(ctx, invitation)
}

// settle mends every line, makes room on every disk, and lets all sync until
// nothing is new.
func (w *world) settle(ctx context.Context) (*Violation, error) {
	w.now += 60_000
	for _, p := range w.parties {
		p.line = line{}
		if p.room == 0 {
			continue
		}
		if err := full(ctx, w, p, Step{}); err != nil || w.found != nil {
			return w.found, err
		}
	}
	for range 2 {
		for _, p := range w.parties {
			w.now += 1000
			if _, err := p.sync(ctx); err != nil && w.found == nil {
				w.broken("I1", "device %d cannot sync on a line that is whole: %v", p.index, err)
			}
			if w.found != nil {
				return w.found, nil
			}
		}
	}
	return w.found, w.checkEnd(ctx)
}

// noted makes an event that no other is like.
func (w *world) noted(site string, e *freshetv1.Event) *freshetv1.Event {
	// Scrambled, so that what happened earlier is often noted later.
	const prime = 100_003
	at := began - (int64(len(w.entries)+1)*7919%prime)*1000
	e.SiteId, e.OccurredAt = site, timestamp(at)
	w.entries[at] = &entry{event: e, site: site}
	return e
}

func keyOf(e *freshetv1.Event) int64 { return e.GetOccurredAt().AsTime().UnixMilli() }

func (w *world) folder(i int) string { return filepath.Join(w.dir, fmt.Sprint(i)) }
