package server

import (
	"crypto/tls"
	"fmt"
	"net"
)

// Check reports what New would refuse of the options, without a database and
// without opening anything.
func (o Options) Check() error {
	shown, err := readCertificates(o.CertFile, o.KeyFile)
	if err != nil {
		return err
	}
	secured := shown.config()
	if _, err = resolve(o.GRPC, secured); err != nil {
		return err
	}
	_, err = resolve(o.HTTP, secured)
	return err
}

// resolve reads an address, "127.0.0.1:7411". Without TLS it must be this
// machine's own: tokens and growers' records never cross a network in the clear.
func resolve(address string, secured *tls.Config) (*net.TCPAddr, error) {
	resolved, err := net.ResolveTCPAddr("tcp", address)
	if err != nil {
		return nil, fmt.Errorf("the address %s is not one: %w", address, err)
	}
	if secured == nil && !resolved.IP.IsLoopback() {
		return nil, fmt.Errorf("%s can be reached from other machines, and without TLS everything would be readable on the way: give --tls-cert and --tls-key, or --own-certificate, or listen on 127.0.0.1", address)
	}
	return resolved, nil
}

func listen(address string, secured *tls.Config, c Crowd) (*doors, error) {
	resolved, err := resolve(address, secured)
	if err != nil {
		return nil, err
	}
	listener, err := net.ListenTCP("tcp", resolved)
	if err != nil {
		return nil, fmt.Errorf("cannot listen on %s: %w", address, err)
	}
	return newDoors(listener, c), nil
}
