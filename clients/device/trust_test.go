package device_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/server"
	"freshet.example/server/servertest"
)

// A server with its own certificate, listening beyond this machine: the link
// names the key, and nobody else's is trusted.
func TestALinkPinsTheServersKey(t *testing.T) {
	certFile, keyFile, err := server.OwnCertificate(t.TempDir(), "", time.Now())
	if err != nil {
		t.Fatal(err)
	}
	s := servertest.Start(t, server.Options{GRPC: "0.0.0.0:0", HTTP: "0.0.0.0:0", CertFile: certFile, KeyFile: keyFile})
	code, _, err := server.Found(t.Context(), s.Store)
	if err != nil {
		t.Fatal(err)
	}
	in, ok := device.ReadLink(s.InvitationLink(code))
	if !ok || in.Pin == "" {
		t.Fatalf("the link holds no key: %+v", in)
	}
	in.Device, in.Person = "laptop", "Jo Amsel"
	other := in
	other.Pin = "B" + in.Pin[1:]
	if other.Pin == in.Pin {
		other.Pin = "C" + in.Pin[1:]
	}
	d := open(t, t.TempDir())
	var trouble *device.Trouble
	if err := d.Join(t.Context(), other); !errors.As(err, &trouble) || trouble.NoSignal || !strings.Contains(trouble.Words, "not the one that the invitation names") {
		t.Errorf("another's key: %v", err)
	}
	unpinned := in
	unpinned.Pin = ""
	if err := d.Join(t.Context(), unpinned); err == nil {
		t.Error("a certificate that nobody vouches for was trusted")
	}
	if err := d.Join(t.Context(), in); err != nil {
		t.Fatal(err)
	}
	syncNow(t, d)
	if _, err := device.Ask(t.Context(), d, freshetv1.NewAccountServiceClient, freshetv1.AccountServiceClient.WhoAmI, &freshetv1.WhoAmIRequest{}); err != nil {
		t.Error(err)
	}
}

func TestLinksAreRead(t *testing.T) {
	in, ok := device.ReadLink(" https://coop.example:7412/?grpc=7411&pin=abc#/join/7KQM-2VXA-9RTD\n")
	if !ok || in.Code != "7KQM-2VXA-9RTD" || in.Address != "coop.example:7411" || in.Pin != "abc" {
		t.Errorf("%+v", in)
	}
	for _, text := range []string{"7KQM-2VXA-9RTD", "https://coop.example/", "https://coop.example/?grpc=7411", "https://coop.example/#/join/A", "ftp://coop.example/?grpc=1#/join/A",
		"https:///?grpc=1#/join/A", "https://coop.example/?grpc=1:2#/join/A", "https://coop.example/?grpc=0#/join/A", "https://coop.example/?grpc=65536#/join/A"} {
		if in, ok := device.ReadLink(text); ok {
			t.Errorf("%s: %+v", text, in)
		}
	}
}
