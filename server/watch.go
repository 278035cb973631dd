package server

import (
	"slices"
	"sync"
	"time"

	"google.golang.org/grpc"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/store"
)

// hints passes on that scopes have moved. One that finds a listener busy is
// dropped: a lost hint costs delay, never rows.
type hints struct {
	mu        sync.Mutex
	listeners map[chan *freshetv1.Cursor]bool
}

func newHints() *hints { return &hints{listeners: map[chan *freshetv1.Cursor]bool{}} }

func (h *hints) moved(heads []store.Head, epoch uint64) {
	h.mu.Lock()
	defer h.mu.Unlock()
	for _, head := range heads {
		c := &freshetv1.Cursor{Scope: head.Scope, Epoch: epoch, Sequence: head.Sequence, Chain: head.Chain}
		for listener := range h.listeners {
			select {
			case listener <- c:
			default:
			}
		}
	}
}

func (h *hints) listen() (chan *freshetv1.Cursor, func()) {
	listener := make(chan *freshetv1.Cursor, 64)
	h.mu.Lock()
	defer h.mu.Unlock()
	h.listeners[listener] = true
	return listener, func() {
		h.mu.Lock()
		defer h.mu.Unlock()
		delete(h.listeners, listener)
	}
}

// Other servers on the same database give no hints here, so that scopes are
// looked at once in a while too.
const watchEvery = 15 * time.Second

// Watch streams hints until the caller goes away or the server stops; the first
// say where each scope stands now. What the caller may see is looked at when it
// begins: a device watches anew after each pull.
func (s *syncService) Watch(in *freshetv1.WatchRequest, out grpc.ServerStreamingServer[freshetv1.WatchResponse]) error {
	ctx := out.Context()
	scopes, err := s.scopes(ctx, caller(ctx))
	if err != nil {
		return err
	}
	if len(in.GetScopes()) > 0 {
		scopes = slices.DeleteFunc(scopes, func(scope string) bool { return !slices.Contains(in.GetScopes(), scope) })
	}
	cooperative, err := s.store.Cooperative(ctx)
	if err != nil {
		return err
	}
	w := &watch{out: out, told: map[string]uint64{}}
	for _, scope := range scopes {
		w.told[scope] = 0
	}
	listener, leave := s.hints.listen()
	defer leave()
	look := time.NewTicker(watchEvery)
	defer look.Stop()
	for {
		heads, err := s.store.Heads(ctx, scopes)
		if err == nil {
			err = w.tellAll(heads, cooperative.Epoch)
		}
		for again := false; err == nil && !again; {
			select {
			case <-ctx.Done():
				err = ctx.Err()
			case <-look.C:
				again = true
			case c := <-listener:
				err = w.tell(c)
			}
		}
		if err != nil {
			return err
		}
	}
}

// watch is one stream of hints.
type watch struct {
	out  grpc.ServerStreamingServer[freshetv1.WatchResponse]
	told map[string]uint64 // the sequence last told of each scope that is watched
}

// tell passes a hint on, once.
func (w *watch) tell(c *freshetv1.Cursor) error {
	told, watched := w.told[c.GetScope()]
	if !watched || c.GetSequence() <= told {
		return nil
	}
	w.told[c.GetScope()] = c.GetSequence()
	return w.out.Send(&freshetv1.WatchResponse{Cursor: c})
}

func (w *watch) tellAll(heads []store.Head, epoch uint64) error {
	for _, head := range heads {
		if err := w.tell(&freshetv1.Cursor{Scope: head.Scope, Epoch: epoch, Sequence: head.Sequence, Chain: head.Chain}); err != nil {
			return err
		}
	}
	return nil
}
