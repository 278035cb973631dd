package auth

import (
	"crypto/ed25519"
	"errors"
	"time"

	"github.com/google/uuid"

	"freshet.example/api/wire"
)

const (
	// TokenLife is how long the token of a device with a key holds: short, since
	// the device renews it by itself, and whoever copies it has it no longer.
	TokenLife = time.Hour
	// ClockTolerance is how far a statement's time may be from the server's.
	ClockTolerance = 5 * time.Minute
	// RenewalsKept is how long statements that were taken must be remembered:
	// older ones are refused for their time.
	RenewalsKept = 3 * ClockTolerance
)

// Why a renewal is refused.
var (
	ErrSignature = errors.New("the signature is not this device's for this cooperative, or was used before")
	ErrClock     = errors.New("the device's clock and the server's are too far apart")
)

// A Renewal is a device's signed statement that it wants another token.
type Renewal struct {
	Cooperative, Device uuid.UUID
	At                  time.Time // by the server's clock, as the device knows it
	Nonce, Signature    []byte
}

// Check proves the statement by the device's key; ErrSignature, ErrClock. Who
// cannot sign learns nothing of the time: the signature comes first.
func (r Renewal) Check(key ed25519.PublicKey, now time.Time) error {
	statement := wire.Renewal(r.Cooperative.String(), r.Device.String(), r.At.UnixMilli(), r.Nonce)
	if !IsKey(key) || len(r.Nonce) != wire.RenewalNonceBytes || !ed25519.Verify(key, statement, r.Signature) {
		return ErrSignature
	}
	if r.At.Sub(now).Abs() > ClockTolerance {
		return ErrClock
	}
	return nil
}

// IsKey reports whether bytes have the length of a public key.
func IsKey(b []byte) bool { return len(b) == ed25519.PublicKeySize }
