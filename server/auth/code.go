package auth

import (
	"crypto/rand"
	"encoding/base32"
	"strings"
)

const (
	// No I, L, O or U: they read as 1, 1, 0 and V in handwriting.
	codeLetters = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
	// Twelve letters of five bits: 60 bits that live for days and for few tries.
	codeLength = 12
	// A recovery code lives for years, also in stolen backups, where tries are many.
	recoveryLength = 20
	codeGroup      = 4
)

var (
	codeEncoding = base32.NewEncoding(codeLetters).WithPadding(base32.NoPadding)
	// What people type for the letters that are not used, and between groups.
	codeTyped = strings.NewReplacer("I", "1", "L", "1", "O", "0", "U", "V", "-", "", " ", "", "\t", "", "\n", "", "\r", "")
)

// NewCode makes an invitation code, as shown to people ("7QK2-M9XR-04TB"), and
// the hash to keep of it.
func NewCode() (code string, hash []byte) { return newCode(codeLength) }

// NewRecoveryCode is NewCode for a code to be kept on paper: 100 bits.
func NewRecoveryCode() (code string, hash []byte) { return newCode(recoveryLength) }

func newCode(length int) (code string, hash []byte) {
	var secret [(recoveryLength*5 + 7) / 8]byte
	rand.Read(secret[:])
	letters := codeEncoding.EncodeToString(secret[:])[:length]
	var groups []string
	for at := 0; at < length; at += codeGroup {
		groups = append(groups, letters[at:at+codeGroup])
	}
	return strings.Join(groups, "-"), hashOf(letters)
}

// CodeHash returns the hash of a code as typed: letter case, spaces and hyphens
// do not matter, and letters that look like others are read as those. False
// where it cannot be a code.
func CodeHash(typed string) (hash []byte, ok bool) {
	if len(typed) > 10*recoveryLength {
		return nil, false
	}
	letters := codeTyped.Replace(strings.ToUpper(typed))
	if len(letters) != codeLength && len(letters) != recoveryLength || strings.Trim(letters, codeLetters) != "" {
		return nil, false
	}
	return hashOf(letters), true
}
