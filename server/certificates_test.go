package server_test

import (
	"crypto/tls"
	"crypto/x509"
	"net"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"freshet.example/server"
	"freshet.example/server/servertest"
)

// shownAt is the certificate that an address shows.
func shownAt(t *testing.T, address *net.TCPAddr) *x509.Certificate {
	t.Helper()
	conn, err := tls.Dial("tcp", address.String(), &tls.Config{InsecureSkipVerify: true})
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close() //nolint:errcheck // a test's
	return conn.ConnectionState().PeerCertificates[0]
}

func TestCertificatesAreReadAgain(t *testing.T) {
	certFile, keyFile, _ := certificate(t)
	s := servertest.Start(t, server.Options{CertFile: certFile, KeyFile: keyFile})
	first := shownAt(t, s.GRPCAddress())
	if err := os.WriteFile(certFile, []byte("half of"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := s.Reload(); err == nil {
		t.Error("half a file was taken")
	}
	if !shownAt(t, s.GRPCAddress()).Equal(first) {
		t.Error("the certificate from before does not go on")
	}
	otherCert, otherKey, _ := certificate(t)
	for from, to := range map[string]string{otherCert: certFile, otherKey: keyFile} {
		if err := os.Rename(from, to); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Reload(); err != nil {
		t.Fatal(err)
	}
	for _, address := range []*net.TCPAddr{s.GRPCAddress(), s.HTTPAddress()} {
		if shownAt(t, address).Equal(first) {
			t.Errorf("%v shows the certificate from before", address)
		}
	}
}

func TestTheOwnCertificateKeepsItsKey(t *testing.T) {
	folder, now := t.TempDir(), time.Now()
	read := func(at time.Time, name string) *x509.Certificate {
		certFile, keyFile, err := server.OwnCertificate(folder, name, at)
		if err != nil {
			t.Fatal(err)
		}
		for _, file := range []string{certFile, keyFile} {
			if about, err := os.Stat(file); err != nil || about.Mode().Perm() != 0o600 {
				t.Errorf("%s: %v %v", file, about.Mode(), err)
			}
		}
		pair, err := tls.LoadX509KeyPair(certFile, keyFile)
		if err != nil {
			t.Fatal(err)
		}
		return pair.Leaf
	}
	first := read(now, "")
	if days := first.NotAfter.Sub(now).Hours() / 24; days > 825 || days < 700 {
		t.Errorf("it holds for %v days", days)
	}
	for _, name := range []string{"localhost", "127.0.0.1"} {
		if err := first.VerifyHostname(name); err != nil {
			t.Error(err)
		}
	}
	if !read(now.AddDate(0, 0, 700), "").Equal(first) {
		t.Error("it was made again though it is good")
	}
	for what, again := range map[string]*x509.Certificate{"a name more": read(now, "greenhouse.example"), "near its end": read(now.AddDate(0, 0, 780), "greenhouse.example")} {
		if again.Equal(first) || string(again.RawSubjectPublicKeyInfo) != string(first.RawSubjectPublicKeyInfo) {
			t.Errorf("%s: another certificate of the same key is wanted", what)
		}
	}
	if err := os.WriteFile(filepath.Join(folder, "certificate-key.pem"), []byte("not a key"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, _, err := server.OwnCertificate(folder, "", now); err == nil {
		t.Error("a broken key was passed over, and all pins with it")
	}
}

func TestLinksSayHowTheServerIsReached(t *testing.T) {
	plain := servertest.New(t)
	link, err := url.Parse(plain.InvitationLink("AAAA-BBBB-CCCC"))
	if err != nil || link.Scheme != "http" || link.Host != plain.HTTPAddress().String() || link.Fragment != "/join/AAAA-BBBB-CCCC" || link.Query().Has("pin") {
		t.Errorf("%v %v", link, err)
	}
	certFile, keyFile, err := server.OwnCertificate(t.TempDir(), "", time.Now())
	if err != nil {
		t.Fatal(err)
	}
	own := servertest.Start(t, server.Options{CertFile: certFile, KeyFile: keyFile, ReachedAs: "greenhouse.example"})
	if link := own.InvitationLink("A"); !strings.HasPrefix(link, "https://greenhouse.example:") || !strings.Contains(link, "pin=") {
		t.Error(link)
	}
}
