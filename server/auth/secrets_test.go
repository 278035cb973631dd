package auth

import (
	"bytes"
	"net/netip"
	"strings"
	"testing"
)

func TestCodesAreReadAsPeopleTypeThem(t *testing.T) {
	hash, ok := CodeHash("01V1-0AB7-CD89")
	if !ok {
		t.Fatal("a code was not read")
	}
	for _, typed := range []string{"01v10ab7cd89", "O1VI-OAB7-CD89", " oLuL 0ab7\tcd89\n"} {
		if got, ok := CodeHash(typed); !ok || !bytes.Equal(got, hash) {
			t.Errorf("%q is read as another code", typed)
		}
	}
	for _, typed := range []string{"", "01V1-0AB7-CD8", "01V1-0AB7-CD899", "01V1-0AB7-CD8é", "01V1-0AB7-CD8!", strings.Repeat("-", 1e6)} {
		if _, ok := CodeHash(typed); ok {
			t.Errorf("%.20q is taken for a code", typed)
		}
	}
}

func TestCodesAndTokensAreNew(t *testing.T) {
	seen, letters := map[string]bool{}, map[rune]bool{}
	for range 2000 {
		code, hash := NewCode()
		read, ok := CodeHash(code)
		if !ok || !bytes.Equal(read, hash) {
			t.Fatalf("code of %d letters does not read as itself", len(code))
		}
		token, _ := NewToken()
		if seen[code] || seen[token] {
			t.Fatal("a secret came twice")
		}
		seen[code], seen[token] = true, true
		for _, letter := range strings.ReplaceAll(code, "-", "") {
			letters[letter] = true
		}
	}
	if len(letters) != 32 {
		t.Errorf("codes use %d letters, want 32: fewer bits than they seem to hold", len(letters))
	}
}

func TestWrongCodesAreBounded(t *testing.T) {
	var tries Tries
	from, neighbour := netip.MustParseAddr("2001:db8:1:2::3"), netip.MustParseAddr("2001:db8:1:3::3")
	n := 0
	for n < 1000 && tries.Allowed(from) {
		tries.Failed(from)
		n++
	}
	if n != triesAtOnce {
		t.Errorf("%d tries at once, want %d", n, triesAtOnce)
	}
	if tries.Allowed(netip.MustParseAddr("2001:db8:1:2:ffff::1")) {
		t.Error("another address of the same network may go on")
	}
	if !tries.Allowed(neighbour) || !tries.Allowed(netip.MustParseAddr("192.0.2.1")) {
		t.Error("others are held up")
	}
}

func TestTriesKeepBoundedMemory(t *testing.T) {
	var tries Tries
	for i := range 3 * addressesKept {
		tries.Failed(netip.AddrFrom4([4]byte{10, byte(i >> 16), byte(i >> 8), byte(i)}))
	}
	if len(tries.by) > addressesKept {
		t.Errorf("%d addresses are kept", len(tries.by))
	}
	tries.Failed(netip.Addr{})
	if !tries.Allowed(netip.Addr{}) {
		t.Error("a caller without address is refused at once")
	}
}
