package device

import (
	"context"
	"math/rand/v2"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
)

const (
	// followEvery is the longest time between two contacts: hints get lost, and
	// a right that was given is not hinted at.
	followEvery = 15 * time.Minute
	// lookEvery is how often the outbox is looked at for what another process noted.
	lookEvery = 5 * time.Second
	// The pause after a contact that failed, and what it grows to.
	firstPause, longestPause = time.Second, time.Minute
)

// Follow keeps the device and its cooperative up to date until ctx ends: it
// syncs at once, then whenever something was noted here, when the server hints
// that a scope has moved, and once in a while. After a failure it waits longer
// each time, up to a minute or so. Heed is told how each contact went.
func (d *Device) Follow(ctx context.Context, heed func(Progress, error)) {
	for pause := firstPause; ctx.Err() == nil; {
		p, err := d.Sync(ctx)
		if ctx.Err() != nil {
			return
		}
		heed(p, err)
		if err == nil {
			pause = firstPause
			err = d.untilNews(ctx)
		}
		if err != nil {
			d.pause(ctx, pause/2+rand.N(pause)) //nolint:gosec // a pause needs no secret
			pause = min(2*pause, longestPause)
		}
	}
}

// untilNews returns when there is something to send or to fetch, or after a
// while. An error says that the server gives no hints now.
func (d *Device) untilNews(ctx context.Context) error {
	ctx, cancel := context.WithTimeout(ctx, followEvery)
	defer cancel()
	hints := make(chan error, 1)
	go func() { hints <- d.hinted(ctx) }()
	look := time.NewTicker(lookEvery)
	defer look.Stop()
	for {
		select {
		case err := <-hints:
			if ctx.Err() != nil {
				return nil
			}
			return err
		case <-d.noted:
			return nil
		case <-look.C:
			if waiting, err := d.waitingCount(ctx); err != nil || waiting > 0 {
				return err
			}
		}
	}
}

// hinted returns when the server says that a scope is not where the copy is.
func (d *Device) hinted(ctx context.Context) error {
	connection, err := d.Connection(ctx)
	if err != nil {
		return err
	}
	stream, err := freshetv1.NewSyncServiceClient(connection).Watch(ctx, &freshetv1.WatchRequest{})
	if err != nil {
		return err
	}
	for {
		hint, err := stream.Recv()
		if err != nil {
			return err
		}
		at := hint.GetCursor()
		have, err := cursor(ctx, d.db, at.GetScope())
		if err != nil || have.sequence != at.GetSequence() { // less: the server was restored
			return err
		}
	}
}

// tell wakes who follows: something was noted.
func (d *Device) tell() {
	select {
	case d.noted <- struct{}{}:
	default: // it is told already
	}
}
