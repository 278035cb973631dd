package device_test

import (
	"net"
	"strconv"
	"strings"
	"testing"

	"freshet.example/clients/device"
)

// Whatever a square or a message holds is no link, or names a code and a
// machine's port that can be dialled; written anew it is the same link.
func FuzzLink(f *testing.F) {
	for _, text := range []string{
		" https://coop.example:7412/?grpc=7411&pin=abc#/join/7KQM-2VXA-9RTD\n", "http://127.0.0.1:1/?grpc=2#/join/A",
		"https://[2001:db8::1]:7412/?grpc=7411#/join/7KQM", "https:///?grpc=1#/join/A", "https://a/?grpc=1:2#/join/A", "https://a/?grpc=%00#/join/%00", "\x00",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		in, ok := device.ReadLink(text)
		if !ok {
			if in != (device.Invitation{}) {
				t.Fatalf("no link, and yet %+v", in)
			}
			return
		}
		host, port, err := net.SplitHostPort(in.Address)
		if err != nil || host == "" || strings.TrimSpace(in.Code) == "" {
			t.Fatalf("%+v of %q: %v", in, text, err)
		}
		if n, err := strconv.ParseUint(port, 10, 16); err != nil || n == 0 {
			t.Fatalf("port %q of %q", port, text)
		}
	})
}
