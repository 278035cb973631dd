package server_test

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"math/big"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/credentials"
	healthv1 "google.golang.org/grpc/health/grpc_health_v1"
	reflectionv1 "google.golang.org/grpc/reflection/grpc_reflection_v1"
	"google.golang.org/grpc/status"

	"freshet.example/server"
	"freshet.example/server/servertest"
	"freshet.example/store/storetest"
)

func TestPlainTextStaysOnThisMachine(t *testing.T) {
	st := storetest.New(t)
	certFile, keyFile, _ := certificate(t)
	loopback := "127.0.0.1:0"
	for _, c := range []struct {
		what    string
		options server.Options
		says    string
	}{
		{"all addresses", server.Options{GRPC: ":0", HTTP: loopback}, "--tls-cert"},
		{"all addresses by number", server.Options{GRPC: loopback, HTTP: "0.0.0.0:0"}, "--tls-cert"},
		{"all addresses of the newer kind", server.Options{GRPC: "[::]:0", HTTP: loopback}, "--tls-cert"},
		{"another address", server.Options{GRPC: loopback, HTTP: "192.0.2.7:0"}, "--tls-cert"},
		{"no address", server.Options{GRPC: "here", HTTP: loopback}, "here"},
		{"certificate without key", server.Options{GRPC: loopback, HTTP: loopback, CertFile: certFile}, "--tls-key"},
		{"key for certificate", server.Options{GRPC: loopback, HTTP: loopback, CertFile: keyFile, KeyFile: keyFile}, "certificate"},
		{"no such file", server.Options{GRPC: loopback, HTTP: loopback, CertFile: "none.pem", KeyFile: keyFile}, "none.pem"},
	} {
		checked := c.options.Check()
		_, err := server.New(st, c.options)
		if err == nil || checked == nil || err.Error() != checked.Error() || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v; checked: %v", c.what, err, checked)
		}
	}
	if _, err := server.New(st, server.Options{GRPC: loopback, HTTP: "localhost:0"}); err != nil {
		t.Errorf("localhost: %v", err)
	}
}

func TestAPortInUseIsSaid(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = taken.Close() }()
	_, err = server.New(storetest.New(t), server.Options{GRPC: "127.0.0.1:0", HTTP: taken.Addr().String()})
	if err == nil || !strings.Contains(err.Error(), taken.Addr().String()) {
		t.Errorf("%v", err)
	}
}

func TestTLSOnEveryAddress(t *testing.T) {
	certFile, keyFile, roots := certificate(t)
	s := servertest.Start(t, server.Options{GRPC: "0.0.0.0:0", HTTP: "0.0.0.0:0", CertFile: certFile, KeyFile: keyFile})
	local := func(address *net.TCPAddr) string {
		return (&net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: address.Port}).String()
	}
	newest := &tls.Config{RootCAs: roots}
	conn, err := grpc.NewClient(local(s.GRPCAddress()), grpc.WithTransportCredentials(credentials.NewTLS(newest.Clone())))
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = conn.Close() }()
	health, err := healthv1.NewHealthClient(conn).Check(t.Context(), &healthv1.HealthCheckRequest{})
	if err != nil || health.GetStatus() != healthv1.HealthCheckResponse_SERVING {
		t.Errorf("health: %v %v", health, err)
	}
	if code := reflectionCode(t, conn); code != codes.Unauthenticated {
		t.Errorf("reflection from anywhere: %v", code)
	}
	for _, address := range []string{local(s.GRPCAddress()), local(s.HTTPAddress())} {
		if _, err := tls.Dial("tcp", address, &tls.Config{RootCAs: roots, MaxVersion: tls.VersionTLS12}); err == nil {
			t.Errorf("%s speaks TLS 1.2", address)
		}
	}
	client := &http.Client{Transport: &http.Transport{TLSClientConfig: newest, ForceAttemptHTTP2: true}}
	defer client.CloseIdleConnections()
	response, err := client.Get("https://" + local(s.HTTPAddress()) + "/v1/health")
	if err != nil {
		t.Fatal(err)
	}
	_ = response.Body.Close()
	if response.StatusCode != 200 || response.ProtoMajor != 2 || response.Header.Get("Strict-Transport-Security") == "" {
		t.Errorf("%s %s %v", response.Proto, response.Status, response.Header)
	}
}

func reflectionCode(t *testing.T, conn *grpc.ClientConn) codes.Code {
	t.Helper()
	stream, err := reflectionv1.NewServerReflectionClient(conn).ServerReflectionInfo(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	_, err = stream.Recv()
	return status.Code(err)
}

// certificate makes one for this machine, and the roots that trust it.
func certificate(t *testing.T) (certFile, keyFile string, roots *x509.CertPool) {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	now := time.Now()
	template := &x509.Certificate{SerialNumber: big.NewInt(1), NotBefore: now.Add(-time.Hour), NotAfter: now.Add(time.Hour),
		IPAddresses: []net.IP{net.IPv4(127, 0, 0, 1)}, IsCA: true, BasicConstraintsValid: true}
	der, err := x509.CreateCertificate(rand.Reader, template, template, &key.PublicKey, key)
	if err != nil {
		t.Fatal(err)
	}
	secret, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		t.Fatal(err)
	}
	roots = x509.NewCertPool()
	made, err := x509.ParseCertificate(der)
	if err != nil {
		t.Fatal(err)
	}
	roots.AddCert(made)
	return pemFile(t, "CERTIFICATE", der), pemFile(t, "PRIVATE KEY", secret), roots
}

func pemFile(t *testing.T, kind string, der []byte) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "file.pem")
	if err := os.WriteFile(name, pem.EncodeToMemory(&pem.Block{Type: kind, Bytes: der}), 0o600); err != nil {
		t.Fatal(err)
	}
	return name
}
