package store

import (
	"context"
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
	TokenHash   []byte // SHA-256 of the new device's token
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
	return createInvitation(ctx, s.pool, i)
}

func createInvitation(ctx context.Context, db execer, i Invitation) error {
	if i.SiteIDs == nil {
		i.SiteIDs = []uuid.UUID{}
	}
	_, err := db.Exec(ctx, `INSERT INTO invitations (code_hash, role, member_id, site_ids, created_by, expires_at)
		VALUES ($1, $2, $3, $4, $5, $6)`,
		i.CodeHash, i.Role, reference(i.MemberID), i.SiteIDs, reference(i.CreatedBy), i.ExpiresAt)
	return err
}

// PeekInvitation reads a usable invitation without using it, so that a caller
// knows which names it needs; ErrInvitation.
func (s *Store) PeekInvitation(ctx context.Context, codeHash []byte) (Invitation, error) {
	i := Invitation{CodeHash: codeHash}
	err := s.pool.QueryRow(ctx, `SELECT role, member_id, site_ids, created_by, expires_at FROM invitations
		WHERE code_hash = $1 AND used_at IS NULL AND expires_at > now()`, codeHash).
		Scan(&i.Role, &i.MemberID, &i.SiteIDs, &i.CreatedBy, &i.ExpiresAt)
	if errors.Is(err, pgx.ErrNoRows) {
		return i, ErrInvitation
	}
	return i, err
}

// Join uses an invitation and makes the device, and the member where they are
// new. Of two who use a code at the same moment one gets ErrInvitation.
func (s *Store) Join(ctx context.Context, j Joining) (Joined, error) {
	var joined Joined
	err := pgx.BeginFunc(ctx, s.pool, func(tx pgx.Tx) error {
		var sites []uuid.UUID
		err := tx.QueryRow(ctx, `UPDATE invitations SET used_at = now()
			WHERE code_hash = $1 AND used_at IS NULL AND expires_at > now()
			RETURNING role, member_id, site_ids`, j.CodeHash).Scan(&joined.Role, &joined.MemberID, &sites)
		if errors.Is(err, pgx.ErrNoRows) {
			return ErrInvitation
		}
		if err != nil {
			return err
		}
		if err := joinMember(ctx, tx, &joined, j.DisplayName, sites); err != nil {
			return err
		}
		joined.DeviceID = uuid.New()
		_, err = tx.Exec(ctx, "INSERT INTO devices (id, member_id, name, token_hash) VALUES ($1, $2, $3, $4)",
			joined.DeviceID, joined.MemberID, j.DeviceName, j.TokenHash)
		return err
	})
	return joined, err
}

// joinMember makes the member, or reads the role of the one who is there.
func joinMember(ctx context.Context, tx pgx.Tx, joined *Joined, name string, sites []uuid.UUID) error {
	if joined.MemberID != uuid.Nil {
		return tx.QueryRow(ctx, "SELECT role FROM accounts WHERE member_id = $1", joined.MemberID).Scan(&joined.Role)
	}
	joined.MemberID, joined.NewMember = uuid.New(), true
	_, err := tx.Exec(ctx, "INSERT INTO accounts (member_id, display_name, role) VALUES ($1, $2, $3)",
		joined.MemberID, name, joined.Role)
	if err != nil {
		return err
	}
	return addSites(ctx, tx, joined.MemberID, sites)
}
