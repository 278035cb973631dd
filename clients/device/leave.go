package device

import (
	"context"
	"database/sql"
	"errors"
	"os"
	"path/filepath"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
)

// memberLeft is the reason the server gives to a device whose member left.
const memberLeft = "MEMBER_LEFT"

// WouldLeave tells what Leave would erase with the cooperative.
func (d *Device) WouldLeave(ctx context.Context) (*freshetv1.LeaveResponse, error) {
	return Ask(ctx, d, freshetv1.NewAccountServiceClient, freshetv1.AccountServiceClient.Leave, &freshetv1.LeaveRequest{OnlyAsk: true})
}

// Leave ends the membership of this device's member, has what is theirs erased,
// and empties the device. The name is theirs, typed as a sign that it is meant.
// A refusal is a Trouble, and changes nothing.
func (d *Device) Leave(ctx context.Context, name string) (*freshetv1.LeaveResponse, error) {
	gone, err := Ask(ctx, d, freshetv1.NewAccountServiceClient, freshetv1.AccountServiceClient.Leave, &freshetv1.LeaveRequest{DisplayName: name})
	if err != nil && !hasLeft(err) { // the answer to a first try may have been lost
		return nil, err
	}
	return gone, d.empty(context.WithoutCancel(ctx))
}

func hasLeft(err error) bool {
	var t *Trouble
	return errors.As(err, &t) && t.Reason == memberLeft
}

// empty takes everything off the device, its key, token and pictures too. It is then
// as one that was never used, and may join anew.
func (d *Device) empty(ctx context.Context) error {
	fresh := wire.NewInstall()
	err := d.inTransaction(ctx, func(tx *sql.Tx) error {
		tables, err := tablesOf(ctx, tx)
		if err != nil {
			return err
		}
		for _, table := range tables {
			if _, err := tx.ExecContext(ctx, "DELETE FROM "+table); err != nil { //nolint:gosec // the names are the schema's own
				return err
			}
		}
		_, err = tx.ExecContext(ctx, `INSERT INTO facts VALUES ('install', ?)`, fresh[:])
		return err
	})
	if err != nil {
		return err
	}
	d.install.Store(&fresh)
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.connection != nil {
		err = d.connection.Close()
		d.connection = nil
	}
	_, vacuumed := d.db.ExecContext(ctx, "VACUUM") // deleted rows stay in the file until then
	err = errors.Join(err, vacuumed)
	for _, kept := range []string{d.tokenFile(), d.keyFile(), filepath.Join(d.dir, "photos")} {
		err = errors.Join(err, os.RemoveAll(kept))
	}
	return err
}

// tablesOf lists all tables of the device, whatever the schema has come to.
func tablesOf(ctx context.Context, tx *sql.Tx) (tables []string, err error) {
	return tables, each(ctx, tx, `SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'`, nil, func(scan func(...any) error) error {
		var name string
		err := scan(&name)
		tables = append(tables, name)
		return err
	})
}
