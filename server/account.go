package server

import (
	"context"
	"net/netip"
	"time"

	"google.golang.org/grpc/peer"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/auth"
	"freshet.example/store"
)

// accountService decides who belongs and what a site shares: joining here,
// members in account_members.go, invitations in account_invitations.go, devices,
// their keys and sharing in files of their own.
type accountService struct {
	freshetv1.UnimplementedAccountServiceServer
	store *store.Store
	tries auth.Tries
	hints *hints
	now   func() time.Time         // the clock that devices are told of
	link  func(code string) string // what opens the app with a code in it
}

func newAccounts(st *store.Store, now func() time.Time, hints *hints, link func(string) string) *accountService {
	return &accountService{store: st, now: now, hints: hints, link: link}
}

// Join turns an invitation into a device with a token.
func (a *accountService) Join(ctx context.Context, in *freshetv1.JoinRequest) (*freshetv1.JoinResponse, error) {
	if err := checkName("device_name", in.GetDeviceName()); err != nil {
		return nil, err
	}
	if len(in.GetPublicKey()) > 0 {
		if err := checkKey(in.GetPublicKey()); err != nil {
			return nil, err
		}
	}
	from := callerAddress(ctx)
	if !a.tries.Allowed(from) {
		return nil, tooMany("too many wrong codes came from your network", time.Minute)
	}
	codeHash, ok := auth.CodeHash(in.GetCode())
	if !ok {
		a.tries.Failed(from)
		return nil, refuse(freshetv1.ErrorReason_ERROR_REASON_INVITATION_INVALID, "code", "", "a code is twelve letters and digits, a recovery code twenty")
	}
	invitation, err := a.store.PeekInvitation(ctx, codeHash)
	if err != nil {
		a.tries.Failed(from)
		return nil, err
	}
	if isNew(invitation) {
		if err := checkName("display_name", in.GetDisplayName()); err != nil {
			return nil, err
		}
	}
	return a.join(ctx, in, codeHash)
}

func (a *accountService) join(ctx context.Context, in *freshetv1.JoinRequest, codeHash []byte) (*freshetv1.JoinResponse, error) {
	cooperative, err := a.store.Cooperative(ctx)
	if err != nil {
		return nil, err
	}
	token, grant := newGrant()
	if len(in.GetPublicKey()) == 0 {
		grant.EndsAt = time.Time{}
	}
	joined, err := a.store.Join(ctx, store.Joining{CodeHash: codeHash, TokenHash: grant.TokenHash, Key: in.GetPublicKey(), TokenEndsAt: grant.EndsAt,
		DeviceName: in.GetDeviceName(), DisplayName: in.GetDisplayName()})
	if err != nil {
		return nil, err
	}
	return &freshetv1.JoinResponse{Token: token, MemberId: joined.MemberID.String(), DeviceId: joined.DeviceID.String(),
		CooperativeId: cooperative.ID.String(), Role: freshetv1.Role(joined.Role), TokenEndsMs: milliseconds(grant.EndsAt)}, nil
}

// WhoAmI says who the token belongs to and what they may do.
func (a *accountService) WhoAmI(ctx context.Context, _ *freshetv1.WhoAmIRequest) (*freshetv1.WhoAmIResponse, error) {
	caller, err := callerOf(ctx)
	if err != nil {
		return nil, err
	}
	account, err := a.store.Account(ctx, caller.MemberID)
	if err != nil {
		return nil, err
	}
	cooperative, err := a.store.Cooperative(ctx)
	if err != nil {
		return nil, err
	}
	out := &freshetv1.WhoAmIResponse{
		MemberId: caller.MemberID.String(), DisplayName: account.DisplayName, Role: caller.Role,
		DeviceId: caller.DeviceID.String(), CooperativeId: cooperative.ID.String(), CooperativeName: cooperative.Name,
	}
	for _, site := range caller.SiteIDs {
		if caller.Enters(site) {
			out.SiteIds = append(out.SiteIds, site.String())
		}
	}
	return out, nil
}

// callerOf is the caller of a call that the gate let in.
func callerOf(ctx context.Context) (auth.Caller, error) {
	caller, ok := auth.CallerFrom(ctx)
	if !ok {
		return caller, auth.ErrNoToken
	}
	return caller, nil
}

// callerAddress is where a call comes from; the zero address where it comes
// from no network.
func callerAddress(ctx context.Context) netip.Addr { return callerPort(ctx).Addr() }

func callerPort(ctx context.Context) netip.AddrPort {
	from, ok := peer.FromContext(ctx)
	if !ok {
		return netip.AddrPort{}
	}
	address, err := netip.ParseAddrPort(from.Addr.String())
	if err != nil {
		return netip.AddrPort{}
	}
	return address
}

func milliseconds(at time.Time) int64 {
	if at.IsZero() {
		return 0
	}
	return at.UnixMilli()
}
