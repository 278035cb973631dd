package auth

import (
	"net/netip"
	"testing"
	"time"
)

// A million codes from one address: all but some are never looked up.
func TestAMillionTriesMeetTheLimit(t *testing.T) {
	var tries Tries
	from, began, lookedUp := netip.MustParseAddr("192.0.2.7"), time.Now(), 0
	for range 1_000_000 {
		if tries.Allowed(from) {
			lookedUp++
			tries.Failed(from)
		}
	}
	if most := triesAtOnce + int(time.Since(began)/triesEvery) + 1; lookedUp > most {
		t.Errorf("%d of a million tries were looked up, at most %d may be", lookedUp, most)
	}
}
