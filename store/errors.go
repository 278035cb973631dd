package store

import (
	"context"
	"errors"
	"net"
	"strings"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
)

// What a call of the store can fail with, besides a broken database.
var (
	// ErrUnknown: there is no such thing.
	ErrUnknown = errors.New("there is none with this id")
	// ErrRevoked: the device's token was ended.
	ErrRevoked = errors.New("the device's token was ended")
	// ErrReplayed: the statement was taken for a token before.
	ErrReplayed = errors.New("the statement was taken for a token before")
	// ErrOtherKey: the device has another key.
	ErrOtherKey = errors.New("the device has another key")
	// ErrInvitation: the invitation does not exist, was used, or has ended.
	ErrInvitation = errors.New("the invitation does not exist, was used, or has ended")
	// ErrLastSteward: nobody would be left who may invite.
	ErrLastSteward = errors.New("the last steward cannot step down")
	// ErrLeft: the member left, and what was theirs is erased.
	ErrLeft = errors.New("the member left, and what was theirs is erased")
	// ErrForbidden: the database's own rules do not let the member do it.
	ErrForbidden = errors.New("the database's rules do not allow it")
	// ErrNotFounded: the database holds no cooperative yet.
	ErrNotFounded = errors.New("the database holds no cooperative yet")
	// ErrFounded: the database holds a cooperative already.
	ErrFounded = errors.New("the database holds a cooperative already")
	// ErrInstallTaken: the install belongs to another member.
	ErrInstallTaken = errors.New("the install belongs to another member")
	// ErrInstallCopied: the device is a copy of the one that pushed last.
	ErrInstallCopied = errors.New("another device pushes as this install")
)

// IsUnavailable tells whether the database could not be reached, is starting or
// stopping, or ran out of patience: the same call may succeed later.
func IsUnavailable(err error) bool {
	if refused, ok := errors.AsType[*pgconn.PgError](err); ok {
		return availability(refused.Code)
	}
	if _, ok := errors.AsType[*pgconn.ConnectError](err); ok {
		return true
	}
	_, broken := errors.AsType[net.Error](err)
	return broken && !errors.Is(err, context.Canceled)
}

// IsForbidden tells whether the database's own rules, the second barrier,
// refused: something before them should have.
func IsForbidden(err error) bool {
	refused, ok := errors.AsType[*pgconn.PgError](err)
	return errors.Is(err, ErrForbidden) || ok && refused.Code == "42501"
}

// availability tells SQLSTATEs of a server that cannot serve now.
func availability(code string) bool {
	for _, class := range []string{"08", "53", "57", "40"} {
		if strings.HasPrefix(code, class) {
			return true
		}
	}
	return false
}

// retryable tells errors after which the whole transaction may be run again:
// Postgres chose it to end a deadlock, or could not serialize it.
func retryable(err error) bool {
	refused, ok := errors.AsType[*pgconn.PgError](err)
	return ok && (refused.Code == "40P01" || refused.Code == "40001")
}

// known turns "no row" into ErrUnknown.
func known(err error) error {
	if errors.Is(err, pgx.ErrNoRows) {
		return ErrUnknown
	}
	return err
}
