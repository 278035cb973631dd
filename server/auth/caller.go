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
	SiteIDs  []uuid.UUID // sites they may enter records at
}

// Enters reports whether the caller may enter records at the site.
func (c Caller) Enters(site uuid.UUID) bool { return slices.Contains(c.SiteIDs, site) }

// Is reports whether the caller has one of the roles.
func (c Caller) Is(roles ...freshetv1.Role) bool { return slices.Contains(roles, c.Role) }

type callerKey struct{}

// WithCaller returns a context that carries the caller. The interceptors call
// it once the token is known and the policy allows the call.
func WithCaller(ctx context.Context, c Caller) context.Context {
	return context.WithValue(ctx, callerKey{}, c)
}

// CallerFrom returns the caller of the context; false where the call needs no
// token.
func CallerFrom(ctx context.Context) (Caller, bool) {
	c, ok := ctx.Value(callerKey{}).(Caller)
	return c, ok
}
