package store

import (
	"context"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// Role is what a member may do, in the contract's numbers.
type Role int16

// The roles.
const (
	RoleSteward Role = 1 // invites, settles, and does all a grower does
	RoleGrower  Role = 2 // keeps sites of their own
	RoleHelper  Role = 3 // enters records at named sites
	RoleReader  Role = 4 // reads what is shared
	RoleSensor  Role = 5 // enters readings at one site
)

// Account is a member as the server knows them.
type Account struct {
	MemberID    uuid.UUID
	DisplayName string
	Role        Role
	JoinedAt    time.Time
	SiteIDs     []uuid.UUID // sites they may enter records at, or read as a reader
}

// The order of columns that scanAccount reads.
const accountColumns = `a.member_id, a.display_name, a.role, a.joined_at,
	ARRAY(SELECT s.site_id FROM account_sites s WHERE s.member_id = a.member_id ORDER BY s.site_id)`

func scanAccount(row pgx.CollectableRow) (Account, error) {
	var a Account
	err := row.Scan(&a.MemberID, &a.DisplayName, &a.Role, &a.JoinedAt, &a.SiteIDs)
	return a, err
}

// Accounts lists the members by name.
func (s *Store) Accounts(ctx context.Context) ([]Account, error) {
	rows, err := s.pool.Query(ctx, "SELECT "+accountColumns+" FROM accounts a ORDER BY lower(a.display_name), a.member_id")
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(rows, scanAccount)
}

// Account is one member; ErrUnknown.
func (s *Store) Account(ctx context.Context, member uuid.UUID) (Account, error) {
	rows, err := s.pool.Query(ctx, "SELECT "+accountColumns+" FROM accounts a WHERE a.member_id = $1", member)
	if err != nil {
		return Account{}, err
	}
	a, err := pgx.CollectExactlyOneRow(rows, scanAccount)
	return a, known(err)
}

// SetRole changes what a member may do, and for helpers, readers and sensors
// their sites. Growers and stewards keep the sites they have. ErrUnknown,
// ErrLastSteward.
func (s *Store) SetRole(ctx context.Context, member uuid.UUID, role Role, sites []uuid.UUID) error {
	return pgx.BeginFunc(ctx, s.pool, func(tx pgx.Tx) error {
		// All stewards' rows are locked, so that two who step down at the same
		// moment see each other.
		var stewards, others int
		err := tx.QueryRow(ctx, `SELECT count(*), count(*) FILTER (WHERE member_id <> $1)
			FROM (SELECT member_id FROM accounts WHERE role = $2 ORDER BY member_id FOR UPDATE) AS stewards`,
			member, RoleSteward).Scan(&stewards, &others)
		if err != nil {
			return err
		}
		if role != RoleSteward && stewards > 0 && others == 0 {
			return ErrLastSteward
		}
		changed, err := tx.Exec(ctx, "UPDATE accounts SET role = $2 WHERE member_id = $1", member, role)
		if err != nil {
			return err
		}
		if changed.RowsAffected() == 0 {
			return ErrUnknown
		}
		if role == RoleSteward || role == RoleGrower {
			return nil
		}
		return replaceSites(ctx, tx, member, sites)
	})
}

func replaceSites(ctx context.Context, tx pgx.Tx, member uuid.UUID, sites []uuid.UUID) error {
	if _, err := tx.Exec(ctx, "DELETE FROM account_sites WHERE member_id = $1", member); err != nil {
		return err
	}
	return addSites(ctx, tx, member, sites)
}

func addSites(ctx context.Context, tx pgx.Tx, member uuid.UUID, sites []uuid.UUID) error {
	_, err := tx.Exec(ctx, `INSERT INTO account_sites (member_id, site_id)
		SELECT $1, site FROM unnest($2::uuid[]) AS site ON CONFLICT DO NOTHING`, member, sites)
	return err
}
