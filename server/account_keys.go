package server

import (
	"context"
	"errors"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/auth"
	"freshet.example/store"
)

// RenewToken gives a device another token for a statement that it signed.
// Nobody is known before; the statement says to which cooperative and when it
// was made, and is taken once.
func (a *accountService) RenewToken(ctx context.Context, in *freshetv1.RenewTokenRequest) (*freshetv1.RenewTokenResponse, error) {
	device, err := parseID("device_id", in.GetDeviceId())
	if err != nil {
		return nil, err
	}
	cooperative, err := a.store.Cooperative(ctx)
	if err != nil {
		return nil, err
	}
	key, err := a.store.DeviceKey(ctx, device)
	if errors.Is(err, store.ErrUnknown) {
		return nil, auth.ErrSignature
	}
	if err != nil {
		return nil, err
	}
	now := a.now()
	renewal := auth.Renewal{Cooperative: cooperative.ID, Device: device, At: time.UnixMilli(in.GetAtMs()), Nonce: in.GetNonce(), Signature: in.GetSignature()}
	if err := renewal.Check(key.Public, now); errors.Is(err, auth.ErrClock) {
		return nil, &refusal{reason: freshetv1.ErrorReason_ERROR_REASON_CLOCK_APART, serverMs: now.UnixMilli()}
	} else if err != nil {
		return nil, err
	}
	if key.Left {
		return nil, store.ErrLeft
	}
	if key.Revoked { // said only to who holds the key
		return nil, auth.ErrRevoked
	}
	token, grant := newGrant()
	if err := a.store.Renew(ctx, device, in.GetNonce(), grant, auth.RenewalsKept); err != nil {
		return nil, err
	}
	return &freshetv1.RenewTokenResponse{Token: token, TokenEndsMs: milliseconds(grant.EndsAt)}, nil
}

// EnrolKey gives a device that joined without a key the one it made.
func (a *accountService) EnrolKey(ctx context.Context, in *freshetv1.EnrolKeyRequest) (*freshetv1.EnrolKeyResponse, error) {
	caller, err := callerOf(ctx)
	if err != nil {
		return nil, err
	}
	if err := checkKey(in.GetPublicKey()); err != nil {
		return nil, err
	}
	token, grant := newGrant()
	if err := a.store.EnrolKey(ctx, caller.DeviceID, in.GetPublicKey(), grant); err != nil {
		return nil, err
	}
	return &freshetv1.EnrolKeyResponse{Token: token, TokenEndsMs: milliseconds(grant.EndsAt)}, nil
}

// newGrant is a token and what is kept of it. Its end is by this machine's own
// clock, as the database's is.
func newGrant() (token string, grant store.Grant) {
	token, hash := auth.NewToken()
	return token, store.Grant{TokenHash: hash, EndsAt: time.Now().Add(auth.TokenLife)}
}

func checkKey(key []byte) error {
	if !auth.IsKey(key) {
		return refuse(freshetv1.ErrorReason_ERROR_REASON_MALFORMED, "public_key", "a public key has 32 bytes", "")
	}
	return nil
}
