package store

import (
	"context"
	"crypto/ed25519"
	"errors"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// Invitation lets one person, or one more device of a member, join once.
type Invitation struct {
	CodeHash  []byte      // only the hash of the code is kept
	Role      Role        // of a new member
	MemberID  uuid.UUID   // nil uuid: a new member; else one more device of this one
	SiteIDs   []uuid.UUID // sites of a new helper, reader or sensor
	CreatedBy uuid.UUID   // nil uuid for the first
	ExpiresAt time.Time
}

// Joining is what a person brings.
type Joining struct {
	CodeHash    []byte
	TokenHash   []byte            // SHA-256 of the new device's token
	Key         ed25519.PublicKey // of the new device; empty: it has none, and its token does not end
	TokenEndsAt time.Time         // of a device with a key
	DeviceName  string
	DisplayName string // of a new member
}

// Joined is what an invitation became.
type Joined struct {
	MemberID uuid.UUID
	DeviceID uuid.UUID
	Role     Role
	// NewMember tells a person from a further device.
	NewMember bool
}

// CreateInvitation keeps an invitation.
func (s *Store) CreateInvitation(ctx context.Context, i Invitation) error {
	if i.SiteIDs == nil {
		i.SiteIDs = []uuid.UUID{}
	}
	_, err := s.exec(ctx, `INSERT INTO invitations (code_hash, role, member_id, site_ids, created_by, expires_at)
		VALUES ($1, $2, $3, $4, $5, $6)`,
		i.CodeHash, i.Role, reference(i.MemberID), i.SiteIDs, reference(i.CreatedBy), i.ExpiresAt)
	return err
}

// CreateRecovery keeps the hash of a recovery code of whoever acts, an
// invitation to themselves; the one before holds no more.
func (s *Store) CreateRecovery(ctx context.Context, codeHash []byte, until time.Time) error {
	_, err := s.exec(ctx, "SELECT make_recovery($1, $2)", codeHash, until)
	return err
}

// PeekInvitation reads a usable invitation without using it, so that a caller
// knows which names it needs; ErrInvitation.
func (s *Store) PeekInvitation(ctx context.Context, codeHash []byte) (Invitation, error) {
	i := Invitation{CodeHash: codeHash}
	err := s.queryRow(ctx, `SELECT role, member_id, site_ids, created_by, expires_at FROM usable_invitation($1)`, codeHash).
		Scan(&i.Role, &i.MemberID, &i.SiteIDs, &i.CreatedBy, &i.ExpiresAt)
	if errors.Is(err, pgx.ErrNoRows) {
		return i, ErrInvitation
	}
	return i, err
}

// Join uses an invitation and makes the device, and the member where they are
// new. Of two who use a code at the same moment one gets ErrInvitation.
func (s *Store) Join(ctx context.Context, j Joining) (Joined, error) {
	joined := Joined{DeviceID: uuid.New()}
	statement, values := "SELECT member_id, role, is_new FROM join_by($1, $2, $3, $4, $5, $6)",
		[]any{j.CodeHash, uuid.New(), joined.DeviceID, j.DisplayName, j.DeviceName, j.TokenHash}
	if len(j.Key) > 0 {
		statement, values = "SELECT member_id, role, is_new FROM join_by($1, $2, $3, $4, $5, $6, $7, $8)", append(values, []byte(j.Key), j.TokenEndsAt)
	}
	err := s.queryRow(ctx, statement, values...).Scan(&joined.MemberID, &joined.Role, &joined.NewMember)
	if errors.Is(err, pgx.ErrNoRows) {
		err = ErrInvitation
	}
	return joined, err
}
