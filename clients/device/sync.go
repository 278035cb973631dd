package device

import (
	"cmp"
	"context"
	"database/sql"
	"encoding/hex"
	"errors"
	"math/rand/v2"
	"time"

	"google.golang.org/grpc"

	freshetv1 "freshet.example/api/freshet/v1"
)

// Schema is the contract's release that this device was built with.
const Schema = 2

// Progress is what a Sync did.
type Progress struct {
	Sent     int // operations the cooperative now has an outcome for
	Stored   int // of them, stored by this Sync
	Left     int // of them, refused or held
	Pages    int // received
	Came     int // operations in them that this device did not send
	Gone     int // scopes that the device may read no longer, and emptied
	CaughtUp bool
	Photos   int // files of photos that the cooperative now has whole
	// PhotoChunks is how many pieces of such files were sent.
	PhotoChunks int
	Waiting     int // operations still to be sent
}

// ErrDigest says that a copy of the co-op's records cannot be had now.
var ErrDigest = errors.New("the copy differed from the co-op's again after it was read anew")

// attempts is how often a call that found no signal is made again.
const attempts = 4

// longestAsked bounds how long a server that is too busy may make a Sync wait.
const longestAsked = time.Minute

// Sync sends what waits and fetches what is new; neither waits for the other to
// succeed. It goes on after failures of the network a few times, with growing
// pauses, until ctx ends. What was sent and fetched before an error is kept; but
// where the member left the cooperative, the device is emptied.
func (d *Device) Sync(ctx context.Context) (Progress, error) {
	var p Progress
	err := d.patiently(ctx, &p, func() error { return d.hello(ctx) })
	if isCopied(err) {
		err = d.becomeOwn(ctx, &p)
	}
	if hasLeft(err) {
		return p, errors.Join(err, d.empty(context.WithoutCancel(ctx)))
	}
	if err == nil {
		again := false
		sent := d.patiently(ctx, &p, func() error { return d.push(ctx, &p, &again) })
		fetched := d.fetch(ctx, &p)
		err = cmp.Or(sent, fetched)
	}
	if err == nil {
		err = d.patiently(ctx, &p, func() error { return d.sendPhotos(ctx, &p) })
	}
	waiting, counted := d.waitingCount(ctx)
	p.Waiting = waiting
	return p, errors.Join(err, counted, d.remember(ctx, err))
}

// fetch pulls. Where the token ended since Hello, another Hello gets a new one:
// calls renew theirs, streams do not.
func (d *Device) fetch(ctx context.Context, p *Progress) error {
	pull := func() error { return d.pull(ctx, p) }
	err := d.patiently(ctx, p, pull)
	if !hasReason(err, reasonToken) {
		return err
	}
	if err := d.patiently(ctx, p, func() error { return d.hello(ctx) }); err != nil {
		return err
	}
	return d.patiently(ctx, p, pull)
}

// remember keeps how the contact went, for Status.
func (d *Device) remember(ctx context.Context, failed error) error {
	words := ""
	if failed != nil {
		words = failed.Error()
	}
	return keep(context.WithoutCancel(ctx), d.db, factRefusal, words)
}

// patiently repeats work that found no signal, after growing pauses with
// jitter, so that devices that lost the server together do not come back
// together. Only tries that bring nothing on count.
func (d *Device) patiently(ctx context.Context, p *Progress, work func() error) error {
	const first = 250 * time.Millisecond
	pause := first
	for try := 1; ; try++ {
		before := *p
		d.dialNow()
		err := understand(work())
		if *p != before {
			try, pause = 1, first
		}
		var t *Trouble
		if err == nil || !errors.As(err, &t) || !t.NoSignal || try == attempts || ctx.Err() != nil {
			return err
		}
		asked := min(t.After, longestAsked)
		d.pause(ctx, asked+pause/2+rand.N(pause)) //nolint:gosec // a pause needs no secret
		pause *= 2
	}
}

// hello opens the contact: is it the same cooperative, and does it know what
// it knew before?
func (d *Device) hello(ctx context.Context) error {
	connection, err := d.Connection(ctx)
	if err != nil {
		return err
	}
	asked := time.Now()
	noted, install := d.clock(), d.Install()
	h, err := freshetv1.NewSyncServiceClient(connection).Hello(ctx, &freshetv1.HelloRequest{
		Install: install[:], Schema: Schema, Noted: noted, Brief: true,
	}, grpc.WaitForReady(false))
	if err != nil {
		return err
	}
	d.serverSchema.Store(h.GetSchema())
	cooperative, err := fact(ctx, d.db, factCooperative)
	if err != nil {
		return err
	}
	if cooperative != "" && cooperative != h.GetCooperativeId() {
		return ErrOtherCooperative
	}
	ahead := h.GetServerMs() - noted.GetWallMs() - time.Since(asked).Milliseconds()/2
	if err := keepNumber(ctx, d.db, factServerAhead, ahead); err != nil {
		return err
	}
	if err := d.enrol(ctx, connection); err != nil {
		return err
	}
	return d.settle(ctx, h)
}

// settle compares what the server has of this install with what the device
// thinks it has. A server that has less was restored: what it lost waits again.
func (d *Device) settle(ctx context.Context, h *freshetv1.HelloResponse) error {
	next, err := factNumber(ctx, d.db, factNextNumber)
	if err != nil {
		return err
	}
	through, err := factNumber(ctx, d.db, factThrough)
	if err != nil {
		return err
	}
	if h.GetThroughNumber() < uint64(through) {
		if err := d.unlearn(ctx, int64(h.GetThroughNumber())); err != nil {
			return err
		}
	}
	if copied, err := d.isCopy(ctx, h, next); err != nil || copied {
		return cmp.Or(err, errCopied)
	}
	if err := keep(ctx, d.db, factMark, hex.EncodeToString(h.GetMark())); err != nil {
		return err
	}
	if err := keepNumber(ctx, d.db, factArrived, int64(h.GetThroughNumber())); err != nil {
		return err
	}
	if err := keepNumber(ctx, d.db, factBackedUp, int64(h.GetBackedUpNumber())); err != nil {
		return err
	}
	if err := keepNumber(ctx, d.db, factLastContact, d.clock().GetWallMs()); err != nil {
		return err
	}
	if err := lookAgain(ctx, d.db, h); err != nil {
		return err
	}
	return d.forget(ctx, h)
}

// unlearn takes back outcomes after a number.
func (d *Device) unlearn(ctx context.Context, through int64) error {
	return d.inTransaction(ctx, func(tx *sql.Tx) error {
		if _, err := tx.ExecContext(ctx, `DELETE FROM outcomes WHERE number > ?`, through); err != nil {
			return err
		}
		if _, err := tx.ExecContext(ctx, `UPDATE pushes SET answered_ms = 0 WHERE last_number > ?`, through); err != nil {
			return err
		}
		if _, err := tx.ExecContext(ctx, `UPDATE outbox SET echoed = 0 WHERE first_number + operations_count > ?`, through+1); err != nil {
			return err
		}
		return keepNumber(ctx, tx, factThrough, through)
	})
}

// keepDays is how long stored entries are kept for a server that may have to
// be restored, where it does not say that they are in a backup. The server's
// clock counts: that of a phone may jump by years.
const keepDays = 30

// forget lets go of entries that the cooperative has for good, and whose
// outcomes are known here.
func (d *Device) forget(ctx context.Context, h *freshetv1.HelloResponse) error {
	through, err := factNumber(ctx, d.db, factThrough)
	if err != nil {
		return err
	}
	old := h.GetServerMs() - keepDays*24*time.Hour.Milliseconds()
	_, err = d.db.ExecContext(ctx, `DELETE FROM outbox WHERE echoed > 0 AND first_number + operations_count - 1 <=
		max(?1, (SELECT COALESCE(max(last_number), 0) FROM pushes WHERE answered_ms > 0 AND answered_ms < ?2))`,
		min(int64(h.GetBackedUpNumber()), through), old)
	return err
}
