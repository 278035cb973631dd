// Package wire holds what both ends of the contract must compute alike and
// protobuf cannot say: how ids follow from install and number, and how
// readings and feedings travel as columns.
package wire

import (
	"crypto/rand"
	"encoding/binary"
	"errors"

	"github.com/google/uuid"
)

// Install names one installation of a client: 8 bytes, of which 60 bits are
// random and 4 are fixed, so that it can stand as the first half of a UUID.
type Install [8]byte

// NewInstall makes an install at random.
func NewInstall() Install {
	var i Install
	_, _ = rand.Read(i[:]) // never fails: crypto/rand ends the program instead
	i[6] = i[6]&0x0f | 0x80
	return i
}

// ErrInstall says that bytes are not an install.
var ErrInstall = errors.New("an install is 8 bytes whose seventh begins with 8")

// ParseInstall checks bytes that came over the wire.
func ParseInstall(b []byte) (Install, error) {
	if len(b) != 8 || b[6]>>4 != 8 {
		return Install{}, ErrInstall
	}
	return Install(b), nil
}

// MaxNumber is the greatest running number of an operation: 62 bits.
const MaxNumber = 1<<62 - 1

// ID is the id of what operation number of an install made: a version 8 UUID
// that is unique by construction. Number must lie in 1 to MaxNumber.
func ID(install Install, number uint64) uuid.UUID {
	var id uuid.UUID
	copy(id[:8], install[:])
	binary.BigEndian.PutUint64(id[8:], number|1<<63)
	return id
}

// Split takes an id apart again; ok is false where no install made it.
func Split(id uuid.UUID) (install Install, number uint64, ok bool) {
	install, err := ParseInstall(id[:8])
	tail := binary.BigEndian.Uint64(id[8:])
	number = tail &^ (1 << 63)
	return install, number, err == nil && tail>>62 == 2 && number > 0
}
