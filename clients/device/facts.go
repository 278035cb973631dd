package device

import (
	"context"
	"database/sql"
	"errors"
	"strconv"
)

// Names of the facts that a device keeps about itself.
const (
	factNextNumber  = "next_number"    // of the next operation
	factThrough     = "through_number" // every operation up to it has a lasting outcome
	factArrived     = "arrived_number" // of the last operation that the co-op said it has; its answer may have been lost
	factBackedUp    = "backed_up_number"
	factAddress     = "address"
	factAuthority   = "authority" // PEM of the certificate authority, where the system's do not serve
	factPin         = "pin"       // SHA-256 of the public key of the server's certificate, base64url, where the invitation held it
	factCooperative = "cooperative_id"
	factMember      = "member_id"
	factDeviceID    = "device_id"
	factLastContact = "last_contact_ms"
	factServerAhead = "server_ahead_ms" // server's clock less this device's, at the last contact
	factKeyed       = "keyed"           // "1" once the co-op has the device's key
	factFormerToken = "former_token"    // the token without an end of a device that joined before devices had keys
	factRefusal     = "refusal"         // why the last contact failed, in words; empty when it did not
	factMark        = "mark"            // of the install's last push, as the server told or took it, in hex
	factEpoch       = "epoch"           // of the server, at the last contact
	factCopied      = "copied"          // "1" while this device is a copy that has no install of its own yet
)

// queryer is what a database and a transaction have in common.
type queryer interface {
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
	ExecContext(ctx context.Context, query string, args ...any) (sql.Result, error)
}

// fact is empty where it was never kept.
func fact(ctx context.Context, q queryer, name string) (string, error) {
	var v string
	err := q.QueryRowContext(ctx, `SELECT value FROM facts WHERE name = ?`, name).Scan(&v)
	if errors.Is(err, sql.ErrNoRows) {
		return "", nil
	}
	return v, err
}

// factNumber is 0 where it was never kept.
func factNumber(ctx context.Context, q queryer, name string) (int64, error) {
	v, err := fact(ctx, q, name)
	if err != nil || v == "" {
		return 0, err
	}
	return strconv.ParseInt(v, 10, 64)
}

func keep(ctx context.Context, q queryer, name, value string) error {
	_, err := q.ExecContext(ctx, `INSERT INTO facts VALUES (?1, ?2) ON CONFLICT DO UPDATE SET value = ?2`, name, value)
	return err
}

func keepNumber(ctx context.Context, q queryer, name string, value int64) error {
	return keep(ctx, q, name, strconv.FormatInt(value, 10))
}
