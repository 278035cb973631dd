package auth

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"encoding/base64"
	"strings"

	"google.golang.org/grpc/metadata"
)

// tokenBytes make a token that nobody guesses: 256 bits.
const tokenBytes = 32

// NewToken makes a device's secret and the hash to keep of it. The secret is
// shown to the device once; a stolen database of hashes opens nothing.
func NewToken() (token string, hash []byte) {
	var secret [tokenBytes]byte
	rand.Read(secret[:]) // never fails: the program ends where the system has no randomness
	token = base64.RawURLEncoding.EncodeToString(secret[:])
	return token, hashOf(token)
}

// tokenHash returns the hash of the token that a call carries; false where it
// carries none that could be one of ours. Finding the device by this hash leaks
// no useful timing: whoever tries tokens cannot choose what they hash to.
func tokenHash(ctx context.Context) (hash []byte, ok bool) {
	values := metadata.ValueFromIncomingContext(ctx, "authorization")
	if len(values) != 1 {
		return nil, false
	}
	scheme, token, _ := strings.Cut(values[0], " ")
	secret, err := base64.RawURLEncoding.DecodeString(token)
	if !strings.EqualFold(scheme, "bearer") || err != nil || len(secret) != tokenBytes {
		return nil, false
	}
	return hashOf(token), true
}

func hashOf(secret string) []byte {
	sum := sha256.Sum256([]byte(secret))
	return sum[:]
}
