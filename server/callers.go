package server

import (
	"context"
	"errors"
	"sync"
	"time"

	"github.com/google/uuid"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/auth"
	"freshet.example/store"
)

// callers answers the gate's questions from the store.
type callers struct {
	store *store.Store
	// When each device's contact was last written, so that most calls write none.
	mu    sync.Mutex
	noted map[uuid.UUID]time.Time
}

const contactEvery = time.Minute

func newGate(st *store.Store, onLoopback bool) *auth.Gate {
	c := &callers{store: st, noted: map[uuid.UUID]time.Time{}}
	return &auth.Gate{Find: c.find, SiteOf: c.siteOf, Open: st.IsOpen, OwnerOf: c.ownerOf, OpenReflection: onLoopback}
}

func (c *callers) find(ctx context.Context, tokenHash []byte) (auth.Caller, error) {
	holder, err := c.store.HolderOf(ctx, tokenHash)
	if errors.Is(err, store.ErrUnknown) {
		return auth.Caller{}, auth.ErrNoToken
	}
	if err != nil {
		return auth.Caller{}, err
	}
	if err := c.noteContact(ctx, holder.Account, holder.DeviceID); err != nil {
		return auth.Caller{}, err
	}
	return auth.Caller{MemberID: holder.MemberID, DeviceID: holder.DeviceID,
		Role: freshetv1.Role(holder.Role), SiteIDs: holder.SiteIDs}, nil
}

// accountOf is whom the store acts for.
func accountOf(c auth.Caller) store.Account {
	return store.Account{MemberID: c.MemberID, Role: store.Role(c.Role), SiteIDs: c.SiteIDs}
}

func (c *callers) noteContact(ctx context.Context, member store.Account, device uuid.UUID) error {
	now := time.Now()
	c.mu.Lock()
	recent := now.Sub(c.noted[device]) < contactEvery
	if !recent {
		c.noted[device] = now
	}
	c.mu.Unlock()
	if recent {
		return nil
	}
	return c.store.NoteContact(store.As(ctx, member), device, now)
}

func (c *callers) siteOf(ctx context.Context, noun string, id uuid.UUID) (uuid.UUID, error) {
	site, err := c.store.SiteOf(ctx, noun, id)
	return site, gateError(err)
}

func (c *callers) ownerOf(ctx context.Context, device uuid.UUID) (uuid.UUID, error) {
	owner, err := c.store.OwnerOf(ctx, device)
	return owner, gateError(err)
}

func gateError(err error) error {
	if errors.Is(err, store.ErrUnknown) {
		return auth.ErrUnknown
	}
	return err
}
