package store

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"slices"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// Pushing is a push under way: what build may know while the push's locks are
// held. It is not to be kept.
type Pushing struct {
	// Through: operations up to this number had an outcome before.
	Through uint64
	// Role and Sites of the member, as they are now.
	Role  Role
	Sites []uuid.UUID
	// RecordsSequence of each scope asked for by PushedBy.Scopes: the number of
	// the last page that changed its records.
	RecordsSequence map[string]uint64
	// Others are those of PushedBy.Others that exist.
	Others []uuid.UUID

	store *Store
	conn  *pgx.Conn
	who   PushedBy
	batch *pgx.Batch
	zones map[uuid.UUID]*zone
	// stale are sites whose time zone this push changed.
	stale []uuid.UUID
}

// begin opens the transaction, locks, and reads what build needs, in one
// message to the database and back.
func (p *Pushing) begin(ctx context.Context) error {
	p.batch, p.zones, p.RecordsSequence = &pgx.Batch{}, map[uuid.UUID]*zone{}, map[string]uint64{}
	p.batch.Queue("BEGIN")
	p.queueEnter()
	p.queueInstall()
	p.queueSiteLocks()
	p.batch.Queue("SELECT id, coalesce(time_zone, '') FROM sites WHERE id = ANY ($1)", p.who.Sites).Query(p.readZones)
	if len(p.who.Others) > 0 {
		// Sites that the member no longer sees; only that they exist is told.
		p.batch.Queue("SELECT o FROM unnest($1::uuid[]) AS o WHERE EXISTS (SELECT FROM site_of('site', o))", p.who.Others).Query(func(rows pgx.Rows) (err error) {
			p.Others, err = pgx.CollectRows(rows, pgx.RowTo[uuid.UUID])
			return err
		})
	}
	if len(p.who.Scopes) > 0 {
		p.batch.Queue("SELECT name, records_sequence FROM scopes WHERE name = ANY ($1)", p.who.Scopes).Query(p.readSequences)
	}
	return p.send(ctx)
}

// queueEnter says who pushes, and which sites the push makes; the database
// answers what they may and holds every later statement to it.
func (p *Pushing) queueEnter() {
	p.batch.Queue("SELECT role, sites FROM enter($1)", p.who.MemberID).
		QueryRow(func(row pgx.Row) error {
			var role *Role
			if err := row.Scan(&role, &p.Sites); err != nil {
				return err
			}
			if role == nil {
				return ErrUnknown
			}
			p.Role = *role
			return nil
		})
	if len(p.who.Made) > 0 {
		p.batch.Queue("SELECT make_sites($1)", p.who.Made)
	}
}

func (p *Pushing) queueInstall() {
	p.batch.Queue("INSERT INTO installs (install, device_id, member_id) VALUES ($1, $2, $3) ON CONFLICT DO NOTHING",
		p.who.Install[:], p.who.DeviceID, p.who.MemberID)
	p.batch.Queue("SELECT member_id, through_number, mark FROM installs WHERE install = $1 FOR UPDATE", p.who.Install[:]).
		QueryRow(func(row pgx.Row) error {
			var member uuid.UUID
			var last []byte
			err := row.Scan(&member, &p.Through, &last)
			// Another member's install is not to be seen.
			if errors.Is(err, pgx.ErrNoRows) || err == nil && member != p.who.MemberID {
				return ErrInstallTaken
			}
			if err != nil {
				return err
			}
			return p.who.follows(last)
		})
}

// follows tells a push of the device that made the last one, or that push
// again, from one of a copy of the device.
func (who PushedBy) follows(last []byte) error {
	if len(who.Mark) == 0 || len(last) == 0 || bytes.Equal(last, who.After) || bytes.Equal(last, who.Mark) {
		return nil
	}
	return ErrInstallCopied
}

// Pushes that only add to a site go on beside each other; one that looks back
// or changes what is there goes on alone, else it would reckon without rows
// that are not committed yet. Locks are taken in one order.
const siteLocks = 0x66726573 // any number that nobody else uses

func (p *Pushing) queueSiteLocks() {
	sites := slices.DeleteFunc(slices.Clone(p.who.Sites), func(site uuid.UUID) bool { return slices.Contains(p.who.Made, site) })
	slices.SortFunc(sites, func(a, b uuid.UUID) int { return bytes.Compare(a[:], b[:]) })
	for _, site := range slices.Compact(sites) {
		lock := "SELECT pg_advisory_xact_lock_shared($1::int, $2::int)"
		if slices.Contains(p.who.Alone, site) {
			lock = "SELECT pg_advisory_xact_lock($1::int, $2::int)"
		}
		// The last bytes of an id are its number: neighbours differ there.
		p.batch.Queue(lock, siteLocks, int32(binary.BigEndian.Uint32(site[12:])^binary.BigEndian.Uint32(site[:4])))
	}
}

func (p *Pushing) readZones(rows pgx.Rows) error {
	var site uuid.UUID
	var name string
	_, err := pgx.ForEachRow(rows, []any{&site, &name}, func() error {
		p.zones[site] = zoneNamed(name)
		return nil
	})
	return err
}

func (p *Pushing) readSequences(rows pgx.Rows) error {
	var scope string
	var sequence uint64
	_, err := pgx.ForEachRow(rows, []any{&scope, &sequence}, func() error {
		p.RecordsSequence[scope] = sequence
		return nil
	})
	return err
}

// zone is the time zone of a site's days.
func (p *Pushing) zone(site uuid.UUID) (*zone, error) {
	if !slices.Contains(p.who.Sites, site) {
		return nil, fmt.Errorf("store: site %s is written to but was not named", site)
	}
	if z := p.zones[site]; z != nil {
		return z, nil
	}
	return zoneNamed(""), nil
}

// alone reports an error where a push changes what is there without having
// asked to be alone.
func (p *Pushing) alone(site uuid.UUID) error {
	if !slices.Contains(p.who.Alone, site) && !slices.Contains(p.who.Made, site) {
		return errors.New("store: a push that changes earlier events was not alone at the site")
	}
	return nil
}
