package server

import (
	"slices"
	"sync"

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

// Watch streams hints until the caller goes away or the server stops. What the
// caller may see is looked at when it begins: a device watches anew after each pull.
func (s *syncService) Watch(in *freshetv1.WatchRequest, out grpc.ServerStreamingServer[freshetv1.WatchResponse]) error {
	ctx := out.Context()
	may, err := s.scopes(ctx, caller(ctx))
	if err != nil {
		return err
	}
	listener, leave := s.hints.listen()
	defer leave()
	for {
		select {
		case <-ctx.Done():
			return ctx.Err()
		case c := <-listener:
			wanted := len(in.GetScopes()) == 0 || slices.Contains(in.GetScopes(), c.GetScope())
			if !wanted || !slices.Contains(may, c.GetScope()) {
				continue
			}
			if err := out.Send(&freshetv1.WatchResponse{Cursor: c}); err != nil {
				return err
			}
		}
	}
}
