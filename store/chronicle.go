package store

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/base32"
	"fmt"
	"strings"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgtype"
)

// Chronicled is one row of the chronicle: who did what to sharing, roles,
// devices and invitations, and what of theirs is held. The database writes the
// rows itself, with what they tell of, and lets nobody change one.
type Chronicled struct {
	Number int64
	// At is when the change's transaction began, to the microsecond.
	At   time.Time
	Kind int16 // the contract's ChronicleKind
	// ActorID did it; not valid: whoever keeps the server.
	ActorID, MemberID, DeviceID pgtype.UUID
	SiteIDs                     []uuid.UUID
	// About is the kind of record that is shared, or why something is held.
	About string
	// Level is the role, or how far is shared; 0 neither.
	Level int16
	// Seal covers this row and all before it.
	Seal []byte
}

const chronicleColumns = "number, at, kind, actor_id, member_id, device_id, site_ids, about, level, seal"

// Chronicle reads what the context's member may know of, newest first: at most
// so many rows, of those with a number under before, or with 0 the newest.
func (s *Store) Chronicle(ctx context.Context, before int64, atMost int) ([]Chronicled, error) {
	rows, err := s.query(ctx, "SELECT "+chronicleColumns+" FROM chronicle WHERE number < $1 OR $1 = 0 ORDER BY number DESC LIMIT $2", before, atMost)
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(rows, pgx.RowToStructByPos[Chronicled])
}

// ChronicleError says that the chronicle is not as it was written.
type ChronicleError struct {
	// Number is the first row that does not follow from those before it; 0: the
	// seal that was looked for is of no row.
	Number int64
}

// Error says what that means.
func (e *ChronicleError) Error() string {
	if e.Number == 0 {
		return "no row of the chronicle has this seal: what came before it was changed since, or this is another cooperative's database"
	}
	return fmt.Sprintf("row %d of the chronicle does not follow from those before it: a row was changed, taken out or put in behind the program's back", e.Number)
}

// CheckedChronicle is what CheckChronicle found.
type CheckedChronicle struct {
	Rows int64
	Last time.Time // of the newest row
	Seal string    // of the newest row, as a person notes it; empty without rows
	// Noted is the row whose seal was looked for; 0 none.
	Noted int64
}

// CheckChronicle computes every seal anew. With a seal that was noted earlier
// it also finds the row of it: all before that is as it was then. The store must
// be a keeper's. *ChronicleError.
func (s *Store) CheckChronicle(ctx context.Context, noted string) (CheckedChronicle, error) {
	rows, err := s.query(ctx, "SELECT "+chronicleColumns+" FROM chronicle ORDER BY number")
	if err != nil {
		return CheckedChronicle{}, err
	}
	defer rows.Close()
	var found CheckedChronicle
	var seal []byte
	for rows.Next() {
		row, err := pgx.RowToStructByPos[Chronicled](rows)
		if err != nil {
			return found, err
		}
		found.Rows++
		if seal = row.sealed(seal); row.Number != found.Rows || !bytes.Equal(seal, row.Seal) {
			return found, &ChronicleError{Number: found.Rows}
		}
		found.Last, found.Seal = row.At, sealWords(seal)
		if noted != "" && sameSeal(noted, found.Seal) {
			found.Noted = row.Number
		}
	}
	if err = rows.Err(); err == nil && noted != "" && found.Noted == 0 {
		err = &ChronicleError{}
	}
	return found, err
}

// sealed is the seal that the row must have after another; chronicle_line in
// the database writes the same line.
func (c *Chronicled) sealed(before []byte) []byte {
	sites := make([]string, len(c.SiteIDs))
	for i, site := range c.SiteIDs {
		sites[i] = site.String()
	}
	id := func(of pgtype.UUID) string {
		if !of.Valid {
			return ""
		}
		return uuid.UUID(of.Bytes).String()
	}
	line := fmt.Sprintf("%d|%d|%d|%s|%s|%s|%s|%s|%d", c.Number, c.At.UnixMicro(), c.Kind, id(c.ActorID), id(c.MemberID), id(c.DeviceID),
		strings.Join(sites, ","), c.About, c.Level)
	sum := sha256.Sum256(append(bytes.Clone(before), line...))
	return sum[:]
}

// sealWords are the first 80 bits in groups of four, short enough to be noted
// on paper and too many to be met by trying.
func sealWords(seal []byte) string {
	text := base32.StdEncoding.EncodeToString(seal[:10])
	return text[:4] + "-" + text[4:8] + "-" + text[8:12] + "-" + text[12:]
}

func sameSeal(typed, seal string) bool {
	plain := strings.NewReplacer("-", "", " ", "")
	return strings.EqualFold(plain.Replace(typed), plain.Replace(seal))
}
