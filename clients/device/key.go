package device

import (
	"crypto/ed25519"
	"crypto/x509"
	"encoding/pem"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// The device's key is made on it and never leaves it: an Ed25519 key in a file
// of its folder that only its owner can read (PKCS #8 in PEM). The cooperative
// has the public half.

func (d *Device) keyFile() string { return filepath.Join(d.dir, "key") }

func newKey() ed25519.PrivateKey {
	_, key, _ := ed25519.GenerateKey(nil) // never fails: crypto/rand ends the program instead
	return key
}

func publicKey(key ed25519.PrivateKey) []byte { return key.Public().(ed25519.PublicKey) } //nolint:forcetypeassert // as its documentation says

// key is nil where the device has none.
func (d *Device) key() (ed25519.PrivateKey, error) {
	text, err := os.ReadFile(d.keyFile())
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	if block, _ := pem.Decode(text); block != nil {
		if parsed, err := x509.ParsePKCS8PrivateKey(block.Bytes); err == nil {
			if key, ok := parsed.(ed25519.PrivateKey); ok {
				return key, nil
			}
		}
	}
	return nil, fmt.Errorf("%s holds no key that this device made; join again", d.keyFile())
}

// ownKey is the device's key, made where it has none. Of two programs that make
// one at the same moment both get the one that was there first.
func (d *Device) ownKey() (ed25519.PrivateKey, error) {
	key, err := d.key()
	if err != nil || key != nil {
		return key, err
	}
	text, err := encodeKey(newKey())
	if err != nil {
		return nil, err
	}
	beside, err := d.writeBeside(text)
	if err != nil {
		return nil, err
	}
	if err := os.Link(beside, d.keyFile()); err != nil && !errors.Is(err, fs.ErrExist) {
		return nil, errors.Join(err, os.Remove(beside))
	}
	if err := os.Remove(beside); err != nil {
		return nil, err
	}
	return d.key()
}

func (d *Device) keepKey(key ed25519.PrivateKey) error {
	text, err := encodeKey(key)
	if err != nil {
		return err
	}
	return d.replace(d.keyFile(), text)
}

func encodeKey(key ed25519.PrivateKey) ([]byte, error) {
	der, err := x509.MarshalPKCS8PrivateKey(key)
	return pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: der}), err
}
