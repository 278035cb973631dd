package wire

import (
	"crypto/ed25519"
	"encoding/hex"
	"encoding/json"
	"os"
	"testing"
)

// TestRenewalVector signs what testdata/vectors/renewal.json holds, which
// clients in other languages sign too. Its key is that of the first test of
// RFC 8032, section 7.1.
func TestRenewalVector(t *testing.T) {
	var v struct {
		Seed        string `json:"seed"`
		PublicKey   string `json:"public_key"`
		Cooperative string `json:"cooperative_id"`
		Device      string `json:"device_id"`
		AtMs        int64  `json:"at_ms"`
		Nonce       string `json:"nonce"`
		Signature   string `json:"signature"`
	}
	raw, err := os.ReadFile("../../testdata/vectors/renewal.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(raw, &v); err != nil {
		t.Fatal(err)
	}
	seed, err := hex.DecodeString(v.Seed)
	if err != nil {
		t.Fatal(err)
	}
	nonce, err := hex.DecodeString(v.Nonce)
	if err != nil || len(nonce) != RenewalNonceBytes {
		t.Fatal(nonce, err)
	}
	key := ed25519.NewKeyFromSeed(seed)
	if public := hex.EncodeToString(key.Public().(ed25519.PublicKey)); public != v.PublicKey {
		t.Errorf("the public half is %s", public)
	}
	if signature := hex.EncodeToString(ed25519.Sign(key, Renewal(v.Cooperative, v.Device, v.AtMs, nonce))); signature != v.Signature {
		t.Errorf("the signature is %s", signature)
	}
}
