package server

import (
	"context"
	"maps"
	"slices"
	"sync"
	"time"

	"google.golang.org/grpc"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/store"
)

// A hint is that a scope has moved, or, without a cursor, that what somebody
// may see has changed.
type hint struct{ cursor *freshetv1.Cursor }

// hints passes hints on. One that finds a listener busy is dropped: a lost hint
// costs delay, never rows.
type hints struct {
	mu        sync.Mutex
	listeners map[chan hint]bool
}

func newHints() *hints { return &hints{listeners: map[chan hint]bool{}} }

func (h *hints) moved(heads []store.Head, epoch uint64) {
	for _, head := range heads {
		h.pass(hint{cursorOf(head, epoch)})
	}
}

// allowed says that a role, a device or what a site shares was changed.
func (h *hints) allowed() { h.pass(hint{}) }

func (h *hints) pass(on hint) {
	h.mu.Lock()
	defer h.mu.Unlock()
	for listener := range h.listeners {
		select {
		case listener <- on:
		default:
		}
	}
}

func (h *hints) listen() (chan hint, func()) {
	listener := make(chan hint, 64)
	h.mu.Lock()
	defer h.mu.Unlock()
	h.listeners[listener] = true
	return listener, func() {
		h.mu.Lock()
		defer h.mu.Unlock()
		delete(h.listeners, listener)
	}
}

func cursorOf(head store.Head, epoch uint64) *freshetv1.Cursor {
	return &freshetv1.Cursor{Scope: head.Scope, Epoch: epoch, Sequence: head.Sequence, Chain: head.Chain}
}

// Other servers on the same database give no hints here, so that scopes and
// permission are looked at once in a while too.
const watchEvery = 15 * time.Second

// Watch streams hints until the caller goes away, may watch no more, or the
// server stops; the first say where each scope stands now. What the caller may
// see is asked again when somebody's rights change.
func (s *syncService) Watch(in *freshetv1.WatchRequest, out grpc.ServerStreamingServer[freshetv1.WatchResponse]) error {
	w := &watch{syncService: s, out: out, only: in.GetScopes(), told: map[string]uint64{}}
	listener, leave := s.hints.listen()
	defer leave()
	look := time.NewTicker(watchEvery)
	defer look.Stop()
	for {
		if err := w.look(out.Context()); err != nil {
			return err
		}
		if err := w.pass(out.Context(), listener, look.C); err != nil {
			return err
		}
	}
}

// watch is one stream of hints.
type watch struct {
	*syncService
	out  grpc.ServerStreamingServer[freshetv1.WatchResponse]
	only []string          // scopes asked for; none: all
	told map[string]uint64 // the sequence last told of each scope that is watched
}

// look asks anew what the caller may see, and tells where it stands.
func (w *watch) look(ctx context.Context) error {
	ctx, err := w.again(ctx, freshetv1.SyncService_Watch_FullMethodName)
	if err != nil {
		return err
	}
	scopes, err := w.scopes(ctx, caller(ctx))
	if err != nil {
		return err
	}
	if len(w.only) > 0 {
		scopes = slices.DeleteFunc(scopes, func(scope string) bool { return !slices.Contains(w.only, scope) })
	}
	maps.DeleteFunc(w.told, func(scope string, _ uint64) bool { return !slices.Contains(scopes, scope) })
	for _, scope := range scopes {
		if _, known := w.told[scope]; !known {
			w.told[scope] = 0
		}
	}
	cooperative, err := w.store.Cooperative(ctx)
	if err != nil {
		return err
	}
	heads, err := w.store.Heads(ctx, scopes)
	for _, head := range heads {
		if err := w.tell(cursorOf(head, cooperative.Epoch)); err != nil {
			return err
		}
	}
	return err
}

// pass passes hints on until it is time to look again.
func (w *watch) pass(ctx context.Context, listener <-chan hint, look <-chan time.Time) error {
	for {
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-look:
			return nil
		case h := <-listener:
			if h.cursor == nil {
				return nil
			}
			if err := w.tell(h.cursor); err != nil {
				return err
			}
		}
	}
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
