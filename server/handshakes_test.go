package server

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"math/big"
	"net"
	"net/netip"
	"sync"
	"sync/atomic"
	"testing"
	"time"
)

// TestAHandshakeOvertakesThoseOfAnotherAddress: were they taken as they come, a
// new phone's would be answered after everybody's.
func TestAHandshakeOvertakesThoseOfAnotherAddress(t *testing.T) {
	port := inTurns(&tls.Config{Certificates: []tls.Certificate{ownCertificate(t)}})
	var greeted sync.WaitGroup
	var answered atomic.Int64
	const many = 40
	for range many {
		greeted.Add(1)
		crowd, ours := net.Pipe()
		t.Cleanup(func() { _ = crowd.Close() })
		go func() {
			_ = tls.Server(&cameFrom{Conn: ours, address: "192.0.2.1:1", answered: &answered}, port).Handshake()
		}()
		go func() { _ = tls.Client(&greeter{Conn: crowd, greeted: greeted.Done}, untrusting).Handshake() }()
	}
	greeted.Wait()
	phone, ours := net.Pipe()
	defer phone.Close() //nolint:errcheck // a test's
	go func() { _ = tls.Server(&cameFrom{Conn: ours, address: "192.0.2.2:1"}, port).Handshake() }()
	if err := tls.Client(phone, untrusting).Handshake(); err != nil {
		t.Fatal(err)
	}
	if answered.Load() == many {
		t.Errorf("all %d handshakes of another address went first", many)
	}
}

var untrusting = &tls.Config{InsecureSkipVerify: true} // #nosec G402 -- whose certificate it is does not matter here

// A greeter says hello and takes no answer, so that its handshake keeps its turn
// for as long as one may.
type greeter struct {
	net.Conn
	greeted func()
}

func (g *greeter) Write(bytes []byte) (int, error) {
	n, err := g.Conn.Write(bytes)
	g.greeted()
	return n, err
}

func (g *greeter) Read([]byte) (int, error) { select {} }

// cameFrom is a connection from an address, which counts once it is answered.
type cameFrom struct {
	net.Conn
	address  string
	answered *atomic.Int64
}

func (c *cameFrom) RemoteAddr() net.Addr {
	return net.TCPAddrFromAddrPort(netip.MustParseAddrPort(c.address))
}

func (c *cameFrom) Write(bytes []byte) (int, error) {
	if c.answered != nil {
		c.answered.Add(1)
	}
	return c.Conn.Write(bytes)
}

func ownCertificate(t *testing.T) tls.Certificate {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	template := &x509.Certificate{SerialNumber: big.NewInt(1), NotAfter: time.Now().Add(time.Hour)}
	signed, err := x509.CreateCertificate(rand.Reader, template, template, &key.PublicKey, key)
	if err != nil {
		t.Fatal(err)
	}
	return tls.Certificate{Certificate: [][]byte{signed}, PrivateKey: key}
}
