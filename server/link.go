package server

import (
	"crypto/x509"
	"net"
	"net/url"
	"strconv"
	"strings"
)

// InvitationLink opens the app with a code in it, as CreateInvitationResponse
// describes it. The code stands where browsers keep it from the server.
func (s *Server) InvitationLink(code string) string {
	link := url.URL{Scheme: "http", Host: net.JoinHostPort(s.host(), strconv.Itoa(s.HTTPAddress().Port)), Path: "/"}
	about := url.Values{"grpc": {strconv.Itoa(s.GRPCAddress().Port)}}
	if s.certificates != nil {
		link.Scheme = "https"
	}
	if s.pinned() {
		about.Set("pin", s.certificates.pin())
	}
	link.RawQuery = about.Encode()
	return link.String() + "#/join/" + code
}

// host is how devices reach the server: as it was told, by the name that its
// certificate was made for, or at the address where it listens.
func (s *Server) host() string {
	if s.reachedAs != "" {
		return s.reachedAs
	}
	ip := s.HTTPAddress().IP
	if !ip.IsUnspecified() {
		return ip.String()
	}
	if s.certificates != nil && !s.pinned() {
		for _, name := range s.certificates.leaf().DNSNames {
			if !strings.HasPrefix(name, "*") {
				return name
			}
		}
	}
	return addressOfThisMachine()
}

// pinned tells whether nobody else vouches for the certificate.
func (s *Server) pinned() bool {
	if s.certificates == nil {
		return false
	}
	leaf := s.certificates.leaf()
	_, err := leaf.Verify(x509.VerifyOptions{})
	return err != nil && leaf.CheckSignatureFrom(leaf) == nil
}

// addressOfThisMachine is the first at which others on its network reach it.
func addressOfThisMachine() string {
	_, addresses := namesOfThisMachine("")
	for _, ip := range addresses {
		if ip.To4() != nil && !ip.IsLoopback() {
			return ip.String()
		}
	}
	return "localhost"
}
