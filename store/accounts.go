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

// Accounts lists the members by name, without those who left.
func (s *Store) Accounts(ctx context.Context) ([]Account, error) {
	rows, err := s.query(ctx, "SELECT "+accountColumns+" FROM accounts a WHERE a.role > 0 ORDER BY lower(a.display_name), a.member_id")
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(rows, scanAccount)
}

// Account is one member; ErrUnknown, also of one who left.
func (s *Store) Account(ctx context.Context, member uuid.UUID) (Account, error) {
	rows, err := s.query(ctx, "SELECT "+accountColumns+" FROM accounts a WHERE a.member_id = $1 AND a.role > 0", member)
	if err != nil {
		return Account{}, err
	}
	a, err := pgx.CollectExactlyOneRow(rows, scanAccount)
	return a, known(err)
}

// SetRole changes what a member may do, and for helpers, readers and sensors
// their sites, each of which must be the steward's own who asks, or one the
// member is at already. Growers and stewards keep the sites they have.
// ErrUnknown, ErrLastSteward, ErrForbidden.
func (s *Store) SetRole(ctx context.Context, member uuid.UUID, role Role, sites []uuid.UUID) error {
	if sites == nil {
		sites = []uuid.UUID{}
	}
	var answer string
	if err := s.queryRow(ctx, "SELECT set_role($1, $2, $3)", member, role, sites).Scan(&answer); err != nil {
		return err
	}
	return map[string]error{"": nil, "unknown": ErrUnknown, "last": ErrLastSteward, "site": ErrForbidden, "forbidden": ErrForbidden}[answer]
}
