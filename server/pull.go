package server

import (
	"bytes"
	"context"
	"errors"
	"slices"

	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/store"
)

// pageBytes bounds what one read of the database holds in memory.
const pageBytes = 4 << 20

// Pull streams what is new in the caller's scopes, up to where they stood when
// it began, then says so.
func (s *syncService) Pull(in *freshetv1.PullRequest, out grpc.ServerStreamingServer[freshetv1.PullResponse]) error {
	ctx := out.Context()
	p := &pull{syncService: s, out: out, cursors: map[string]*freshetv1.Cursor{}}
	may, err := inOneTurn(ctx, p, func() ([]string, error) { return s.scopes(ctx, caller(ctx)) })
	if err != nil {
		return err
	}
	cooperative, err := inOneTurn(ctx, p, func() (store.Cooperative, error) { return s.store.Cooperative(ctx) })
	if err != nil {
		return err
	}
	p.epoch, p.schema = cooperative.Epoch, in.GetSchema()
	for _, c := range in.GetCursors() {
		p.cursors[c.GetScope()] = c
		if !slices.Contains(may, c.GetScope()) {
			if err := p.gone(c.GetScope()); err != nil {
				return err
			}
		}
	}
	if len(in.GetScopes()) > 0 {
		may = slices.DeleteFunc(may, func(scope string) bool { return !slices.Contains(in.GetScopes(), scope) })
	}
	return p.run(ctx, may)
}

// pull is one stream.
type pull struct {
	*syncService
	epoch   uint64
	out     grpc.ServerStreamingServer[freshetv1.PullResponse]
	schema  uint32 // that the caller reads
	cursors map[string]*freshetv1.Cursor
	digests []*freshetv1.ScopeDigest
}

func (p *pull) gone(scope string) error {
	return p.out.Send(&freshetv1.PullResponse{Step: &freshetv1.PullResponse_ScopeGone{ScopeGone: &freshetv1.ScopeGone{Scope: scope}}})
}

func (p *pull) run(ctx context.Context, scopes []string) error {
	heads, err := inOneTurn(ctx, p, func() ([]store.Head, error) { return p.store.Heads(ctx, scopes) })
	if err != nil {
		return err
	}
	for _, head := range heads {
		if err := p.scope(ctx, head); err != nil {
			return err
		}
	}
	return p.out.Send(&freshetv1.PullResponse{Step: &freshetv1.PullResponse_CaughtUp{CaughtUp: &freshetv1.CaughtUp{Digests: p.digests}}})
}

// errGoneMeanwhile says that pages went while they were being sent: somebody
// left the cooperative, or the caller's rights were taken away.
var errGoneMeanwhile = status.Error(codes.Unavailable, "the record was changed meanwhile; ask again")

// scope sends one scope's pages after the caller's cursor.
func (p *pull) scope(ctx context.Context, head store.Head) error {
	from, err := p.start(ctx, head)
	if err != nil {
		return err
	}
	for after := from; after < head.Sequence; {
		pages, err := inOneTurn(ctx, p, func() ([]store.Page, error) { return p.store.PagesAfter(ctx, head, after, pageBytes) })
		if err != nil {
			return err
		}
		if len(pages) == 0 {
			return errGoneMeanwhile
		}
		if err := p.pages(head.Scope, pages); err != nil {
			return err
		}
		after = pages[len(pages)-1].Sequence
	}
	if from == head.Sequence && p.schema >= schemaOfPages {
		return nil // its chain was found equal: there is nothing to compare
	}
	p.digests = append(p.digests, &freshetv1.ScopeDigest{
		Cursor: p.cursor(head.Scope, head.Sequence, head.Chain), OperationsCount: head.Operations,
	})
	return nil
}

// inOneTurn reads a piece. The turn is given back before anything is sent, since
// who reads slowly may take as long as they like.
func inOneTurn[T any](ctx context.Context, p *pull, read func() (T, error)) (piece T, err error) {
	done, err := p.turn(ctx)
	if err != nil {
		return piece, err
	}
	defer done()
	return read()
}

func (p *pull) cursor(scope string, sequence uint64, chain []byte) *freshetv1.Cursor {
	return &freshetv1.Cursor{Scope: scope, Epoch: p.epoch, Sequence: sequence, Chain: chain}
}

// pages sends pages that follow each other, many in a step where the caller reads that.
func (p *pull) pages(scope string, pages []store.Page) error {
	if p.schema < schemaOfPages {
		for _, page := range pages {
			step := &freshetv1.Page{Cursor: p.cursor(scope, page.Sequence, page.Chain), Block: page.Block}
			if err := p.out.Send(&freshetv1.PullResponse{Step: &freshetv1.PullResponse_Page{Page: step}}); err != nil {
				return err
			}
		}
		return nil
	}
	for len(pages) > 0 {
		n := stepOf(pages)
		last := pages[n-1]
		step := &freshetv1.Pages{Cursor: p.cursor(scope, last.Sequence, last.Chain)}
		for _, page := range pages[:n] {
			step.Blocks = append(step.Blocks, page.Block)
		}
		if err := pack(step); err != nil {
			return err
		}
		if err := p.out.Send(&freshetv1.PullResponse{Step: &freshetv1.PullResponse_Pages{Pages: step}}); err != nil {
			return err
		}
		pages = pages[n:]
	}
	return nil
}

// start is where the caller goes on. A cursor of another history (its chain is
// not ours at its number) begins anew.
func (p *pull) start(ctx context.Context, head store.Head) (uint64, error) {
	c := p.cursors[head.Scope]
	if c.GetSequence() == 0 {
		return 0, nil
	}
	if c.GetSequence() <= head.Sequence { // else no page has it, and it need not even be a number that Postgres knows
		chain, err := inOneTurn(ctx, p, func() ([]byte, error) { return p.store.ChainAt(ctx, head, c.GetSequence()) })
		if err != nil && !errors.Is(err, store.ErrUnknown) {
			return 0, err
		}
		if err == nil && sameChain(chain, c.GetChain()) {
			return c.GetSequence(), nil
		}
	}
	return 0, p.out.Send(&freshetv1.PullResponse{Step: &freshetv1.PullResponse_ScopeReset{ScopeReset: &freshetv1.ScopeReset{
		Scope: head.Scope, Reason: "the server's record is not the one this copy was made from: it was restored from a backup, or somebody left",
	}}})
}

// chainEnough is how much of a chain a question must name: that another
// history has the same eight bytes there is not to be feared.
const chainEnough = 8

func sameChain(ours, asked []byte) bool {
	return len(asked) >= chainEnough && bytes.HasPrefix(ours, asked)
}
