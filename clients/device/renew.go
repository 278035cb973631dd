package device

import (
	"cmp"
	"context"
	"crypto/ed25519"
	"crypto/rand"
	"errors"

	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
)

// A token holds for an hour. When the server knows it no more, the device signs
// a statement with its key, gets another, and makes the call again: nobody
// notices. Streams are begun after Hello, and once more after another if theirs
// ended in between.

// Reasons that the server gives about tokens and signatures.
const (
	reasonToken     = "UNAUTHENTICATED"
	reasonClock     = "CLOCK_APART"
	reasonSignature = "SIGNATURE_INVALID"
)

// renewing repeats a call that was refused for its token, with another.
func (d *Device) renewing(ctx context.Context, method string, request, reply any, connection *grpc.ClientConn, invoke grpc.UnaryInvoker, options ...grpc.CallOption) error {
	used, err := d.token()
	if err != nil {
		return err
	}
	err = invoke(ctx, method, request, reply, connection, options...)
	if used == "" || status.Code(err) != codes.Unauthenticated || !hasReason(err, reasonToken) {
		return err
	}
	if renewed := d.renew(ctx, connection, used); renewed != nil {
		return cmp.Or(renewed, err)
	}
	return invoke(ctx, method, request, reply, connection, options...)
}

func hasReason(err error, reason string) bool {
	var t *Trouble
	return errors.As(understand(err), &t) && t.Reason == reason
}

// renew gets a token in the place of the one that was used, unless somebody
// else here has done so meanwhile.
func (d *Device) renew(ctx context.Context, connection *grpc.ClientConn, used string) error {
	d.renewal.Lock()
	defer d.renewal.Unlock()
	if now, err := d.token(); err != nil || now != used {
		return err
	}
	key, err := d.key()
	if err != nil {
		return err
	}
	if key == nil {
		return ErrNoKey
	}
	answer, err := d.signFor(ctx, connection, key)
	if hasReason(err, reasonSignature) {
		return d.fallBack(ctx, used, err)
	}
	if err != nil {
		return err
	}
	return d.keepToken(answer.GetToken())
}

// ErrNoKey says that the server does not know the device's token and the device
// has no key to get another with.
var ErrNoKey = errors.New("the co-op does not know this device; join again with a new invitation, entries not yet sent are kept here")

// signFor signs for another token. Where the clocks are too far apart the
// server tells its own, and the device signs once more by that.
func (d *Device) signFor(ctx context.Context, connection *grpc.ClientConn, key ed25519.PrivateKey) (*freshetv1.RenewTokenResponse, error) {
	answer, err := d.signOnce(ctx, connection, key)
	var t *Trouble
	if errors.As(err, &t) && t.Reason == reasonClock {
		if err := keepNumber(ctx, d.db, factServerAhead, t.serverMs-d.clock().GetWallMs()); err != nil {
			return nil, err
		}
		return d.signOnce(ctx, connection, key)
	}
	return answer, err
}

func (d *Device) signOnce(ctx context.Context, connection *grpc.ClientConn, key ed25519.PrivateKey) (*freshetv1.RenewTokenResponse, error) {
	cooperative, err := fact(ctx, d.db, factCooperative)
	if err != nil {
		return nil, err
	}
	device, err := fact(ctx, d.db, factDeviceID)
	if err != nil {
		return nil, err
	}
	ahead, err := factNumber(ctx, d.db, factServerAhead)
	if err != nil {
		return nil, err
	}
	nonce := make([]byte, wire.RenewalNonceBytes)
	_, _ = rand.Read(nonce) // never fails: crypto/rand ends the program instead
	at := d.clock().GetWallMs() + ahead
	answer, err := freshetv1.NewAccountServiceClient(connection).RenewToken(ctx, &freshetv1.RenewTokenRequest{
		DeviceId: device, AtMs: at, Nonce: nonce, Signature: ed25519.Sign(key, wire.Renewal(cooperative, device, at, nonce)),
	})
	return answer, understand(err)
}

// fallBack takes up the token that the device had before it enrolled its key: a
// server that was restored from before that day knows no other. The key is
// enrolled anew at the next hello.
func (d *Device) fallBack(ctx context.Context, used string, refused error) error {
	former, err := fact(ctx, d.db, factFormerToken)
	if err != nil || former == "" || former == used {
		return cmp.Or(err, refused)
	}
	if err := keep(ctx, d.db, factKeyed, ""); err != nil {
		return err
	}
	return d.keepToken(former)
}

// enrol gives a device that joined without a key one of its own, at its first
// contact with a server that takes keys. The token of before ends with it.
func (d *Device) enrol(ctx context.Context, connection *grpc.ClientConn) error {
	keyed, err := fact(ctx, d.db, factKeyed)
	if err != nil || keyed != "" {
		return err
	}
	key, err := d.ownKey()
	if err != nil {
		return err
	}
	if err := d.keepFormer(ctx); err != nil {
		return err
	}
	answer, err := freshetv1.NewAccountServiceClient(connection).EnrolKey(ctx, &freshetv1.EnrolKeyRequest{PublicKey: publicKey(key)})
	if status.Code(err) == codes.Unimplemented {
		return nil // a server of before: the token goes on
	}
	if err != nil {
		return err
	}
	if err := d.keepToken(answer.GetToken()); err != nil {
		return err
	}
	return keep(ctx, d.db, factKeyed, "1")
}

// keepFormer keeps the token without an end that the device joined with.
func (d *Device) keepFormer(ctx context.Context) error {
	former, err := fact(ctx, d.db, factFormerToken)
	if err != nil || former != "" {
		return err
	}
	token, err := d.token()
	if err != nil {
		return err
	}
	return keep(ctx, d.db, factFormerToken, token)
}
