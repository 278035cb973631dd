package device

import (
	"bytes"
	"cmp"
	"compress/flate"
	"context"
	"database/sql"
	"errors"
	"io"

	"google.golang.org/grpc"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
)

// Pages are committed together until so many bytes have come: a commit waits
// for the disk, a page alone does not pay for it. The first commit is small, and
// those after it grow: settings come first, and are read on a slow line while
// years of readings still come.
const (
	firstCommitBytes = 32 << 10
	commitBytes      = 2 << 20
)

// chainEnough is how much of a chain a question needs to name.
const chainEnough = 8

// pull fetches what is new. A scope whose copy does not fit the server's is
// dropped and read anew, once.
func (d *Device) pull(ctx context.Context, p *Progress) error {
	for again := range 2 {
		broken, err := d.pullOnce(ctx, p)
		if err != nil || len(broken) == 0 {
			return err
		}
		if again > 0 {
			return ErrDigest
		}
		err = d.applying(ctx, func(a *applier) error {
			for _, scope := range broken {
				if err := a.drop(scope, false); err != nil {
					return err
				}
			}
			return nil
		})
		if err != nil {
			return err
		}
	}
	return nil
}

func (d *Device) applying(ctx context.Context, work func(*applier) error) error {
	return d.inTransaction(ctx, func(tx *sql.Tx) error {
		member, err := fact(ctx, tx, factMember)
		if err != nil {
			return err
		}
		a := &applier{ctx: ctx, tx: tx, install: d.Install(), member: member}
		copied, err := fact(ctx, tx, factCopied)
		if copied != "" {
			a.install = wire.Install{} // nothing that comes is this device's own
		}
		if err != nil {
			return err
		}
		return work(a)
	})
}

// pullOnce reads one stream to its end and names the scopes whose copies are
// not the server's.
func (d *Device) pullOnce(ctx context.Context, p *Progress) (broken []string, err error) {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	stream, err := d.openPull(ctx)
	if err != nil {
		return nil, err
	}
	for limit := firstCommitBytes; ; limit = min(4*limit, commitBytes) {
		steps, ended := receive(stream, limit)
		if ended != nil && !errors.Is(ended, io.EOF) && len(steps) == 0 {
			return broken, ended
		}
		b, err := d.applySteps(ctx, steps, p)
		broken = append(broken, b...)
		if err != nil || errors.Is(ended, io.EOF) {
			return broken, err
		}
		if ended != nil {
			return broken, ended
		}
	}
}

func (d *Device) openPull(ctx context.Context) (grpc.ServerStreamingClient[freshetv1.PullResponse], error) {
	connection, err := d.Connection(ctx)
	if err != nil {
		return nil, err
	}
	request := &freshetv1.PullRequest{Schema: Schema}
	arrived, err := factNumber(ctx, d.db, factArrived)
	if err != nil {
		return nil, err
	}
	through, err := factNumber(ctx, d.db, factThrough)
	if err != nil {
		return nil, err
	}
	// Scopes of own entries that nothing was ever read of are named too: they may be
	// gone. Those of entries that never arrived are not: the site may be made by them.
	err = each(ctx, d.db, `SELECT scope, epoch, sequence, chain FROM cursors UNION ALL
		SELECT DISTINCT scope, 0, 0, x'' FROM outbox WHERE first_number + operations_count - 1 <= ? AND echoed <> 2
		AND scope NOT IN (SELECT scope FROM cursors)`, []any{max(arrived, through)}, func(scan func(...any) error) error {
		c, epoch, sequence := &freshetv1.Cursor{}, int64(0), int64(0)
		err := scan(&c.Scope, &epoch, &sequence, &c.Chain)
		c.Epoch, c.Sequence = uint64(epoch), uint64(sequence)
		if d.serverSchema.Load() >= schemaOfDense {
			c.Chain = c.Chain[:min(len(c.Chain), chainEnough)]
		}
		request.Cursors = append(request.Cursors, c)
		return err
	})
	if err != nil {
		return nil, err
	}
	return freshetv1.NewSyncServiceClient(connection).Pull(ctx, request)
}

// receive takes steps until so many bytes have come, or all has, or the stream
// breaks. What the server says after it is caught up is not waited for.
func receive(stream grpc.ServerStreamingClient[freshetv1.PullResponse], limit int) (steps []*freshetv1.PullResponse, ended error) {
	for bytes := 0; bytes < limit; {
		step, err := stream.Recv()
		if err == nil {
			err = unpackPages(step.GetPages())
		}
		if err != nil {
			return steps, err
		}
		steps = append(steps, step)
		if step.GetCaughtUp() != nil {
			return steps, io.EOF
		}
		bytes += 256 + len(step.GetPage().GetBlock())
		for _, block := range step.GetPages().GetBlocks() {
			bytes += len(block)
		}
	}
	return steps, nil
}

// maxUnpacked bounds what a step of pages comes to: a server never makes one
// near it, and a mad one shall not fill the memory.
const maxUnpacked = 32 << 20

// errPacked says that a step of pages cannot be unpacked.
var errPacked = errors.New("what the server sent cannot be unpacked")

// unpackPages puts a step's blocks in the place of what they were packed to.
func unpackPages(p *freshetv1.Pages) error {
	if len(p.GetPacked()) == 0 {
		return nil
	}
	plain, err := io.ReadAll(io.LimitReader(flate.NewReader(bytes.NewReader(p.GetPacked())), maxUnpacked))
	if err != nil {
		return errors.Join(errPacked, err)
	}
	unpacked := &freshetv1.Pages{}
	if err := proto.Unmarshal(plain, unpacked); err != nil {
		return errors.Join(errPacked, err)
	}
	p.Blocks, p.Packed = unpacked.GetBlocks(), nil
	return nil
}

// applySteps commits steps in one transaction. A page that does not fit breaks
// its scope only; the others go on.
func (d *Device) applySteps(ctx context.Context, steps []*freshetv1.PullResponse, p *Progress) (broken []string, err error) {
	if len(steps) == 0 {
		return nil, nil
	}
	isBroken := map[string]bool{}
	err = d.applying(ctx, func(a *applier) error {
		for _, step := range steps {
			scope := cmp.Or(step.GetPage().GetCursor().GetScope(), step.GetPages().GetCursor().GetScope())
			if scope != "" && isBroken[scope] {
				continue
			}
			differ, err := a.step(step, p)
			if errors.Is(err, errBroken) {
				differ, err = []string{scope}, nil
			}
			if err != nil {
				return err
			}
			for _, s := range differ {
				isBroken[s] = true
			}
		}
		p.Came += a.came
		return nil
	})
	for scope := range isBroken {
		broken = append(broken, scope)
	}
	return broken, err
}

func (a *applier) step(step *freshetv1.PullResponse, p *Progress) (differ []string, err error) {
	switch s := step.GetStep().(type) {
	case *freshetv1.PullResponse_Page:
		p.Pages++
		return nil, a.pages(s.Page.GetCursor(), [][]byte{s.Page.GetBlock()})
	case *freshetv1.PullResponse_Pages:
		p.Pages += len(s.Pages.GetBlocks())
		return nil, a.pages(s.Pages.GetCursor(), s.Pages.GetBlocks())
	case *freshetv1.PullResponse_ScopeGone:
		p.Gone++
		return nil, a.drop(s.ScopeGone.GetScope(), true)
	case *freshetv1.PullResponse_ScopeReset:
		return nil, a.drop(s.ScopeReset.GetScope(), false)
	case *freshetv1.PullResponse_CaughtUp:
		p.CaughtUp = true
		return a.compare(s.CaughtUp)
	}
	return nil, nil // a step of a later release
}

// compare names the scopes whose copy differs from the server's at the moment
// it was caught up.
func (a *applier) compare(c *freshetv1.CaughtUp) (differ []string, err error) {
	for _, digest := range c.GetDigests() {
		at := digest.GetCursor()
		have, err := cursor(a.ctx, a.tx, at.GetScope())
		if err != nil {
			return nil, err
		}
		if have.sequence == at.GetSequence() && uint64(have.count) != digest.GetOperationsCount() || have.sequence < at.GetSequence() {
			differ = append(differ, at.GetScope())
		}
	}
	return differ, nil
}
