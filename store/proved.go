package store

import (
	"context"
	"errors"
	"fmt"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// ErrOtherCooperative says that a backup is of another cooperative than the
// database.
var ErrOtherCooperative = errors.New("the backup is another cooperative's")

// A Reach is through which of its operations an install is in a backup.
type Reach struct {
	Install []byte
	Through int64
}

// Reached reads, of a database that a backup was restored into, how far each
// install goes.
func Reached(ctx context.Context, url string) (reach []Reach, err error) {
	conn, err := keeperConn(ctx, url)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, conn.Close(context.WithoutCancel(ctx))) }()
	rows, err := conn.Query(ctx, "SELECT install, through_number FROM installs")
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(rows, pgx.RowToStructByPos[Reach])
}

// NoteProved tells the cooperative's own database that a backup came back
// equal: from then on Hello says to each device what it need not keep. It never
// takes back what an earlier backup let go, and promises nothing that the
// database itself does not have.
func NoteProved(ctx context.Context, url string, b Backup, reach []Reach) (err error) {
	conn, err := keeperConn(ctx, url)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, conn.Close(context.WithoutCancel(ctx))) }()
	installs, through := make([][]byte, len(reach)), make([]int64, len(reach))
	for i, r := range reach {
		installs[i], through[i] = r.Install, r.Through
	}
	return pgx.BeginFunc(ctx, conn, func(tx pgx.Tx) error {
		var own uuid.UUID
		if err := tx.QueryRow(ctx, "SELECT cooperative_id FROM server_state").Scan(&own); err != nil {
			return err
		}
		if own != b.CooperativeID {
			return fmt.Errorf("%s: %w", b.CooperativeID, ErrOtherCooperative)
		}
		if _, err := tx.Exec(ctx, `INSERT INTO proved_backups (dump_sha256, taken_at) VALUES ($1, $2)
			ON CONFLICT (dump_sha256) DO UPDATE SET proved_at = now()`, b.DumpSHA256, b.TakenAt); err != nil {
			return err
		}
		_, err := tx.Exec(ctx, `UPDATE installs i SET backed_up_number = greatest(i.backed_up_number, least(i.through_number, r.through))
			FROM unnest($1::bytea[], $2::bigint[]) AS r(install, through) WHERE r.install = i.install`, installs, through)
		return err
	})
}
