package auth

import (
	"context"
	"slices"

	"github.com/google/uuid"

	freshetv1 "freshet.example/api/freshet/v1"
)

// A Caller is the member and the device that a call comes from.
type Caller struct {
	MemberID uuid.UUID
	DeviceID uuid.UUID
	Role     freshetv1.Role
	SiteIDs  []uuid.UUID // the member's own sites, and those they were let into
}

// At reports whether the site is one of the caller's: all its records, the
// private ones too, are open to them.
func (c Caller) At(site uuid.UUID) bool { return slices.Contains(c.SiteIDs, site) }

// Enters reports whether the caller may enter records at the site: those at a
// site may, but readers.
func (c Caller) Enters(site uuid.UUID) bool {
	return c.Role != freshetv1.Role_ROLE_READER && c.At(site)
}

// Keeps reports whether the site is the caller's to decide about: what it
// shares and who is let in.
func (c Caller) Keeps(site uuid.UUID) bool { return c.Is(keepers...) && c.At(site) }

// Is reports whether the caller has one of the roles.
func (c Caller) Is(roles ...freshetv1.Role) bool { return slices.Contains(roles, c.Role) }

type callerKey struct{}

// WithCaller returns a context that carries the caller. The interceptors call
// it once the token is known and the policy lets the role in.
func WithCaller(ctx context.Context, c Caller) context.Context {
	return context.WithValue(ctx, callerKey{}, c)
}

// CallerFrom returns the caller of the context; false where the call needs no
// token.
func CallerFrom(ctx context.Context) (Caller, bool) {
	c, ok := ctx.Value(callerKey{}).(Caller)
	return c, ok
}
