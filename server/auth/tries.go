package auth

import (
	"net/netip"
	"sync"
	"time"

	"golang.org/x/time/rate"
)

const (
	triesAtOnce   = 10
	triesEvery    = 10 * time.Second
	addressesKept = 4096
	ipv6Network   = 64
)

// Tries bounds how often wrong invitation codes are tried from one network
// address: ten at once, then one each ten seconds. Right codes cost nothing, so
// a whole class may join from one school. The zero value is ready for use.
type Tries struct {
	mu sync.Mutex
	by map[netip.Prefix]*rate.Limiter
}

// Allowed reports whether the address may try another code now.
func (t *Tries) Allowed(address netip.Addr) bool {
	t.mu.Lock()
	defer t.mu.Unlock()
	limiter := t.by[Network(address)]
	return limiter == nil || limiter.Tokens() >= 1
}

// Failed notes that a code from the address was wrong.
func (t *Tries) Failed(address netip.Addr) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.by == nil {
		t.by = map[netip.Prefix]*rate.Limiter{}
	}
	t.forget()
	from := Network(address)
	if t.by[from] == nil {
		t.by[from] = rate.NewLimiter(rate.Every(triesEvery), triesAtOnce)
	}
	t.by[from].Allow()
}

// forget drops addresses that may try at will again; where there are too many
// others it drops all, so that memory stays bounded.
func (t *Tries) forget() {
	if len(t.by) < addressesKept {
		return
	}
	for from, limiter := range t.by {
		if limiter.Tokens() >= triesAtOnce {
			delete(t.by, from)
		}
	}
	if len(t.by) >= addressesKept {
		clear(t.by)
	}
}

// Network is what addresses are told apart by: an IPv4 address, or the 64 bits of
// an IPv6 address that one household or rented machine has to itself.
func Network(address netip.Addr) netip.Prefix {
	address = address.Unmap()
	bits := address.BitLen()
	if address.Is6() {
		bits = ipv6Network
	}
	prefix, err := address.Prefix(bits)
	if err != nil { // no address, as from a socket: they share one
		return netip.Prefix{}
	}
	return prefix
}
