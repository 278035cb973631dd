package server

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"errors"
	"fmt"
	"io/fs"
	"math/big"
	"net"
	"os"
	"path/filepath"
	"slices"
	"time"
)

const (
	// Some phones take no certificate that holds for longer than 825 days, also
	// where their owner trusts it (from memory). The key goes on for ever.
	ownCertificateLife  = 800 * 24 * time.Hour
	ownCertificateSpare = 60 * 24 * time.Hour
)

// OwnCertificate makes a key and a certificate signed with it in a folder, for a
// network where nobody else vouches for the server: for this machine's names and
// addresses, and one more name where it is not empty. The key is made once, so
// that a pin of it stays right; the certificate again where names have changed or
// it ends within two months.
func OwnCertificate(folder, name string, now time.Time) (certFile, keyFile string, err error) {
	certFile, keyFile = filepath.Join(folder, "certificate.pem"), filepath.Join(folder, "certificate-key.pem")
	key, err := ownServerKey(keyFile)
	if err != nil {
		return "", "", err
	}
	names, addresses := namesOfThisMachine(name)
	if stillGood(certFile, key, names, addresses, now) {
		return certFile, keyFile, nil
	}
	serial, err := rand.Int(rand.Reader, new(big.Int).Lsh(big.NewInt(1), 120))
	if err != nil {
		return "", "", err
	}
	template := &x509.Certificate{
		SerialNumber: serial, Subject: pkix.Name{CommonName: "Freshet on " + names[0]}, DNSNames: names, IPAddresses: addresses,
		NotBefore: now.Add(-time.Hour), NotAfter: now.Add(ownCertificateLife),
		KeyUsage: x509.KeyUsageDigitalSignature | x509.KeyUsageCertSign, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
		// A phone lets its owner trust an authority only.
		IsCA: true, BasicConstraintsValid: true, MaxPathLenZero: true,
	}
	der, err := x509.CreateCertificate(rand.Reader, template, template, &key.PublicKey, key)
	if err != nil {
		return "", "", err
	}
	return certFile, keyFile, writeWhole(certFile, "CERTIFICATE", der)
}

func ownServerKey(file string) (*ecdsa.PrivateKey, error) {
	text, err := os.ReadFile(file) // #nosec G304 -- in the server's own folder
	if errors.Is(err, fs.ErrNotExist) {
		return makeServerKey(file)
	}
	if err != nil {
		return nil, err
	}
	if block, _ := pem.Decode(text); block != nil {
		if key, err := x509.ParseECPrivateKey(block.Bytes); err == nil {
			return key, nil
		}
	}
	return nil, fmt.Errorf("%s holds no key that this server made", file)
}

func makeServerKey(file string) (*ecdsa.PrivateKey, error) {
	// Browsers take no Ed25519 in certificates.
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, err
	}
	der, err := x509.MarshalECPrivateKey(key)
	if err != nil {
		return nil, err
	}
	return key, writeWhole(file, "EC PRIVATE KEY", der)
}

// writeWhole writes beside and renames: a server that follows the file never
// reads half of it. Only the server's own user can read it.
func writeWhole(file, kind string, der []byte) error {
	if err := os.WriteFile(file+".new", pem.EncodeToMemory(&pem.Block{Type: kind, Bytes: der}), 0o600); err != nil {
		return err
	}
	return os.Rename(file+".new", file)
}

// namesOfThisMachine are what others on its network may call it by.
func namesOfThisMachine(name string) (names []string, addresses []net.IP) {
	if host, err := os.Hostname(); err == nil && host != "" {
		names = append(names, host, host+".local")
	}
	names = append(names, "localhost")
	found, _ := net.InterfaceAddrs() // none: names are all there is
	for _, a := range found {
		if n, ok := a.(*net.IPNet); ok && !n.IP.IsLinkLocalUnicast() {
			addresses = append(addresses, n.IP)
		}
	}
	if ip := net.ParseIP(name); ip != nil {
		addresses = append(addresses, ip)
	} else if name != "" {
		names = append(names, name)
	}
	return names, addresses
}

// stillGood tells whether the certificate in a file is still good.
func stillGood(file string, key *ecdsa.PrivateKey, names []string, addresses []net.IP, now time.Time) bool {
	text, err := os.ReadFile(file) // #nosec G304 -- in the server's own folder
	if err != nil {
		return false
	}
	block, _ := pem.Decode(text)
	if block == nil {
		return false
	}
	c, err := x509.ParseCertificate(block.Bytes)
	if err != nil || !key.PublicKey.Equal(c.PublicKey) || now.Add(ownCertificateSpare).After(c.NotAfter) {
		return false
	}
	missing := slices.ContainsFunc(names, func(n string) bool { return !slices.Contains(c.DNSNames, n) })
	return !missing && !slices.ContainsFunc(addresses, func(ip net.IP) bool {
		return !slices.ContainsFunc(c.IPAddresses, ip.Equal)
	})
}
