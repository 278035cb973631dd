package device

import (
	"context"
	"crypto/sha256"
	"crypto/subtle"
	"crypto/tls"
	"crypto/x509"
	"encoding/base64"
	"errors"
	"net"
	"net/url"
	"strconv"
	"strings"

	"google.golang.org/grpc/credentials"
)

// trusted is whom a device takes for its server: whoever shows the pinned key,
// else whom an authority vouches for.
type trusted struct {
	authority string // PEM; empty: the system's authorities
	pin       string
}

func (d *Device) trusts(ctx context.Context) (t trusted, err error) {
	if t.authority, err = fact(ctx, d.db, factAuthority); err != nil {
		return t, err
	}
	t.pin, err = fact(ctx, d.db, factPin)
	return t, err
}

// ErrPin says that whoever answers is not the server of the invitation.
var ErrPin = errors.New("the server that answers is not the one that the invitation names; ask whoever keeps it for a new invitation before you go on")

func secure(whom trusted) (credentials.TransportCredentials, error) {
	settings := &tls.Config{MinVersion: tls.VersionTLS13}
	if whom.pin != "" {
		pin, err := base64.RawURLEncoding.DecodeString(whom.pin)
		if err != nil || len(pin) != sha256.Size {
			return nil, errors.New("the pin in the invitation is not whole; scan or copy it once more")
		}
		settings.InsecureSkipVerify = true // #nosec G402 -- the pinned key is looked for instead, which is narrower than names and authorities
		settings.VerifyConnection = pinned(pin)
	} else if whom.authority != "" {
		settings.RootCAs = x509.NewCertPool()
		if !settings.RootCAs.AppendCertsFromPEM([]byte(whom.authority)) {
			return nil, errors.New("the authority's file holds no certificate in PEM")
		}
	}
	return credentials.NewTLS(settings), nil
}

func pinned(pin []byte) func(tls.ConnectionState) error {
	return func(state tls.ConnectionState) error {
		sum := sha256.Sum256(state.PeerCertificates[0].RawSubjectPublicKeyInfo)
		if subtle.ConstantTimeCompare(sum[:], pin) != 1 {
			return ErrPin
		}
		return nil
	}
}

// ReadLink reads an invitation's link, as a QR code holds it; false where the
// text is none. The names in the invitation are left to fill in.
func ReadLink(text string) (in Invitation, ok bool) {
	link, err := url.Parse(strings.TrimSpace(text))
	if err != nil || link.Scheme != "https" && link.Scheme != "http" {
		return in, false
	}
	code, found := strings.CutPrefix(link.Fragment, "/join/")
	about := link.Query()
	port, err := strconv.ParseUint(about.Get("grpc"), 10, 16)
	if !found || strings.TrimSpace(code) == "" || link.Hostname() == "" || err != nil || port == 0 {
		return in, false
	}
	address := net.JoinHostPort(link.Hostname(), strconv.FormatUint(port, 10))
	if _, _, err := net.SplitHostPort(address); err != nil { // half a bracket passes for a name
		return in, false
	}
	return Invitation{Code: code, Address: address, Pin: about.Get("pin")}, true
}
