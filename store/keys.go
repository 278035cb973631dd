package store

import (
	"context"
	"crypto/ed25519"
	"time"

	"github.com/google/uuid"
)

// Grant is what is kept of a token that ends.
type Grant struct {
	TokenHash []byte // SHA-256
	EndsAt    time.Time
}

// Key is what a device proves itself by.
type Key struct {
	Public  ed25519.PublicKey
	Revoked bool
	Left    bool // the device's member left
}

// DeviceKey is a device's key; ErrUnknown for one that has none.
func (s *Store) DeviceKey(ctx context.Context, device uuid.UUID) (Key, error) {
	var k Key
	err := s.queryRow(ctx, "SELECT key, revoked, has_left($1) FROM device_key($1)", device).Scan(&k.Public, &k.Revoked, &k.Left)
	return k, known(err)
}

// Renew gives a device another token for a statement that was verified, and
// remembers its nonce for some time; ErrReplayed where it was taken before.
func (s *Store) Renew(ctx context.Context, device uuid.UUID, nonce []byte, g Grant, remembered time.Duration) error {
	return s.granted(ctx, ErrReplayed, "SELECT renew($1, $2, $3, $4, $5)", device, nonce, g.TokenHash, g.EndsAt, remembered)
}

// EnrolKey gives the device of whoever acts a key and a token that ends; its
// token of before ends. ErrOtherKey where it has another key.
func (s *Store) EnrolKey(ctx context.Context, device uuid.UUID, public ed25519.PublicKey, g Grant) error {
	return s.granted(ctx, ErrOtherKey, "SELECT enrol_key($1, $2, $3, $4)", device, []byte(public), g.TokenHash, g.EndsAt)
}

func (s *Store) granted(ctx context.Context, refused error, statement string, values ...any) error {
	var done bool
	err := s.queryRow(ctx, statement, values...).Scan(&done)
	if err == nil && !done {
		return refused
	}
	return err
}
