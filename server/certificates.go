package server

import (
	"crypto/sha256"
	"crypto/tls"
	"crypto/x509"
	"encoding/base64"
	"errors"
	"fmt"
	"os"
	"sync"
	"time"
)

// lookEvery is how often handshakes look whether the files have changed.
const lookEvery = 10 * time.Second

// certificates shows the certificate of two files, and follows them: who renews
// the files need not stop the server. What cannot be read is not shown; the
// certificate from before goes on.
type certificates struct {
	certFile, keyFile string

	mu      sync.Mutex
	pair    *tls.Certificate
	changed time.Time // of the newer of the files, when they were read
	looked  time.Time
}

// readCertificates is nil where none are named.
func readCertificates(certFile, keyFile string) (*certificates, error) {
	if certFile == "" && keyFile == "" {
		return nil, nil
	}
	if certFile == "" || keyFile == "" {
		return nil, errors.New("a certificate needs its key: give both --tls-cert and --tls-key")
	}
	c := &certificates{certFile: certFile, keyFile: keyFile}
	return c, c.read()
}

func (c *certificates) read() error {
	changed, err := c.newest()
	if err != nil {
		return fmt.Errorf("the certificate cannot be used: %w", err)
	}
	pair, err := tls.LoadX509KeyPair(c.certFile, c.keyFile)
	if err != nil {
		return fmt.Errorf("the certificate cannot be used: %w", err)
	}
	c.pair, c.changed, c.looked = &pair, changed, time.Now()
	return nil
}

func (c *certificates) newest() (newest time.Time, err error) {
	for _, name := range []string{c.certFile, c.keyFile} {
		about, err := os.Stat(name)
		if err != nil {
			return newest, err
		}
		if about.ModTime().After(newest) {
			newest = about.ModTime()
		}
	}
	return newest, nil
}

// reload reads the files again; on an error the certificate from before goes on.
func (c *certificates) reload() error {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.read()
}

// show is tls.Config.GetCertificate.
func (c *certificates) show(*tls.ClientHelloInfo) (*tls.Certificate, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if time.Since(c.looked) > lookEvery {
		c.looked = time.Now()
		if changed, err := c.newest(); err == nil && !changed.Equal(c.changed) {
			_ = c.read() // half-written files are whole at one of the next looks
		}
	}
	return c.pair, nil
}

// config speaks TLS 1.3 only: every client of Freshet can. Nil for nil: plain text.
func (c *certificates) config() *tls.Config {
	if c == nil {
		return nil
	}
	return &tls.Config{GetCertificate: c.show, MinVersion: tls.VersionTLS13}
}

func (c *certificates) leaf() *x509.Certificate {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.pair.Leaf
}

// pin is the SHA-256 of the public key (SubjectPublicKeyInfo), base64url.
func (c *certificates) pin() string {
	sum := sha256.Sum256(c.leaf().RawSubjectPublicKeyInfo)
	return base64.RawURLEncoding.EncodeToString(sum[:])
}
