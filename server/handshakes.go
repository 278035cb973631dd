package server

import (
	"crypto/tls"
	"net/netip"
	"sync"
	"time"

	"freshet.example/server/auth"
)

// inTurns has the handshakes of a port wait for each other once their greeting
// was read, and before a key is agreed on and signed for, which is what costs:
// few at a time, and one of an address, in turn.
func inTurns(secured *tls.Config, protocols ...string) *tls.Config {
	turns, port, each := newTurns(handshakesAtOnce, handshakesOfOne), secured.Clone(), secured.Clone()
	each.NextProtos = protocols
	port.GetConfigForClient = func(hello *tls.ClientHelloInfo) (*tls.Config, error) {
		at, _ := netip.ParseAddrPort(hello.Conn.RemoteAddr().String())
		done, err := turns.take(hello.Context(), party{network: auth.Network(at.Addr())})
		if err != nil {
			return nil, err
		}
		done = sync.OnceFunc(done)
		time.AfterFunc(handshakeTurn, done) // who breaks off gives it back too
		mine := each.Clone()
		mine.VerifyConnection = func(tls.ConnectionState) error { done(); return nil }
		return mine, nil
	}
	return port
}
