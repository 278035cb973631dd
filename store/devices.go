package store

import (
	"context"
	"errors"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// Device is one phone, computer or probe.
type Device struct {
	ID            uuid.UUID
	MemberID      uuid.UUID
	Name          string
	JoinedAt      time.Time
	LastContactAt time.Time // zero: never
	Revoked       bool
}

// Holder is who a token belongs to.
type Holder struct {
	Account
	DeviceID uuid.UUID
}

// HolderOf finds a token's holder by the token's SHA-256, with role and sites
// as they are now; ErrUnknown, ErrRevoked, ErrLeft.
func (s *Store) HolderOf(ctx context.Context, tokenHash []byte) (Holder, error) {
	var h Holder
	var revoked bool
	err := s.queryRow(ctx, "SELECT * FROM holder_of($1)", tokenHash).
		Scan(&h.MemberID, &h.DisplayName, &h.Role, &h.JoinedAt, &h.SiteIDs, &h.DeviceID, &revoked)
	if err == nil && h.Role == 0 {
		return Holder{}, ErrLeft
	}
	if err == nil && revoked {
		return Holder{}, ErrRevoked
	}
	return h, known(err)
}

// NoteContact keeps when a device was last heard from, to the minute: a row
// written at every call would cost more than the call.
func (s *Store) NoteContact(ctx context.Context, device uuid.UUID, at time.Time) error {
	_, err := s.exec(ctx, `UPDATE devices SET last_contact_at = $2
		WHERE id = $1 AND (last_contact_at IS NULL OR last_contact_at < $2::timestamptz - interval '1 minute')`, device, at)
	return err
}

// Devices lists a member's devices, or with the nil uuid everybody's, newest
// contact first.
func (s *Store) Devices(ctx context.Context, member uuid.UUID) ([]Device, error) {
	rows, err := s.query(ctx, "SELECT "+deviceColumns+` FROM devices WHERE $1::uuid IS NULL OR member_id = $1
		ORDER BY last_contact_at DESC NULLS LAST, joined_at DESC, id`, reference(member))
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(rows, scanDevice)
}

// Device is one device; ErrUnknown.
func (s *Store) Device(ctx context.Context, id uuid.UUID) (Device, error) {
	rows, err := s.query(ctx, "SELECT "+deviceColumns+" FROM devices WHERE id = $1", id)
	if err != nil {
		return Device{}, err
	}
	d, err := pgx.CollectExactlyOneRow(rows, scanDevice)
	return d, known(err)
}

const deviceColumns = "id, member_id, name, joined_at, last_contact_at, revoked_at IS NOT NULL"

func scanDevice(row pgx.CollectableRow) (Device, error) {
	var d Device
	var contact *time.Time
	err := row.Scan(&d.ID, &d.MemberID, &d.Name, &d.JoinedAt, &contact, &d.Revoked)
	if contact != nil {
		d.LastContactAt = *contact
	}
	return d, err
}

// RevokeDevice ends a device's token for good. Again is the same; ErrUnknown.
func (s *Store) RevokeDevice(ctx context.Context, id uuid.UUID) error {
	changed, err := s.exec(ctx, "UPDATE devices SET revoked_at = coalesce(revoked_at, now()) WHERE id = $1", id)
	if err == nil && changed.RowsAffected() == 0 {
		return ErrUnknown
	}
	return err
}

// SiteOf is the site that a "site", "system", "trial" or other record belongs
// to; the nil uuid for records of the cooperative; ErrUnknown.
func (s *Store) SiteOf(ctx context.Context, noun string, id uuid.UUID) (uuid.UUID, error) {
	if _, ok := recordTables[noun]; !ok {
		return uuid.Nil, errors.New("no record is called " + noun)
	}
	var found uuid.UUID
	err := s.queryRow(ctx, "SELECT site_id FROM site_of($1, $2)", noun, id).Scan(&found)
	return found, known(err)
}

// OwnerOf is the member whose device it is; ErrUnknown.
func (s *Store) OwnerOf(ctx context.Context, device uuid.UUID) (uuid.UUID, error) {
	var owner uuid.UUID
	err := s.queryRow(ctx, "SELECT device_owner($1)", device).Scan(&owner)
	if err == nil && owner == uuid.Nil {
		err = ErrUnknown
	}
	return owner, err
}
