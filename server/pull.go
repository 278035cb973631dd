package server

import (
	"bytes"
	"context"
	"errors"
	"slices"

	"google.golang.org/grpc"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/store"
)

// pageBytes bounds what one read of the database holds in memory.
const pageBytes = 4 << 20

// Pull streams what is new in the caller's scopes, up to where they stood when
// it began, then says so.
func (s *syncService) Pull(in *freshetv1.PullRequest, out grpc.ServerStreamingServer[freshetv1.PullResponse]) error {
	ctx := out.Context()
	may, err := s.scopes(ctx, caller(ctx))
	if err != nil {
		return err
	}
	cooperative, err := s.store.Cooperative(ctx)
	if err != nil {
		return err
	}
	p := &pull{syncService: s, epoch: cooperative.Epoch, out: out, cursors: map[string]*freshetv1.Cursor{}}
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
	cursors map[string]*freshetv1.Cursor
	digests []*freshetv1.ScopeDigest
}

func (p *pull) gone(scope string) error {
	return p.out.Send(&freshetv1.PullResponse{Step: &freshetv1.PullResponse_ScopeGone{ScopeGone: &freshetv1.ScopeGone{Scope: scope}}})
}

func (p *pull) run(ctx context.Context, scopes []string) error {
	heads, err := p.store.Heads(ctx, scopes)
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

// scope sends one scope's pages after the caller's cursor.
func (p *pull) scope(ctx context.Context, head store.Head) error {
	after, err := p.start(ctx, head)
	if err != nil {
		return err
	}
	for after < head.Sequence {
		pages, err := p.store.PagesAfter(ctx, head, after, pageBytes)
		if err != nil {
			return err
		}
		for _, page := range pages {
			if err := p.page(head.Scope, page); err != nil {
				return err
			}
			after = page.Sequence
		}
	}
	p.digests = append(p.digests, &freshetv1.ScopeDigest{
		Cursor: p.cursor(head.Scope, head.Sequence, head.Chain), OperationsCount: head.Operations,
	})
	return nil
}

func (p *pull) cursor(scope string, sequence uint64, chain []byte) *freshetv1.Cursor {
	return &freshetv1.Cursor{Scope: scope, Epoch: p.epoch, Sequence: sequence, Chain: chain}
}

func (p *pull) page(scope string, page store.Page) error {
	return p.out.Send(&freshetv1.PullResponse{Step: &freshetv1.PullResponse_Page{Page: &freshetv1.Page{
		Cursor: p.cursor(scope, page.Sequence, page.Chain), Block: page.Block,
	}}})
}

// start is where the caller goes on. A cursor of another history (its chain is
// not ours at its number) begins anew.
func (p *pull) start(ctx context.Context, head store.Head) (uint64, error) {
	c := p.cursors[head.Scope]
	if c.GetSequence() == 0 {
		return 0, nil
	}
	if c.GetSequence() <= head.Sequence { // else no page has it, and it need not even be a number that Postgres knows
		chain, err := p.store.ChainAt(ctx, head, c.GetSequence())
		if err != nil && !errors.Is(err, store.ErrUnknown) {
			return 0, err
		}
		if err == nil && bytes.Equal(chain, c.GetChain()) {
			return c.GetSequence(), nil
		}
	}
	return 0, p.out.Send(&freshetv1.PullResponse{Step: &freshetv1.PullResponse_ScopeReset{ScopeReset: &freshetv1.ScopeReset{
		Scope: head.Scope, Reason: "the server's record is not the one this copy was made from: it was restored from a backup, or somebody left",
	}}})
}
