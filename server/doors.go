package server

import (
	"net"
	"net/netip"
	"sync"

	"freshet.example/server/auth"
)

// doors let so many connections in, of one network address and of all, and
// close what comes beyond them before a byte of it is read.
type doors struct {
	net.Listener
	mu   sync.Mutex
	open map[netip.Prefix]int
	all  int
}

func newDoors(l net.Listener) *doors { return &doors{Listener: l, open: map[netip.Prefix]int{}} }

// Accept waits for the next connection that may be let in.
func (d *doors) Accept() (net.Conn, error) {
	for {
		conn, err := d.Listener.Accept()
		if err != nil {
			return nil, err
		}
		from := networkOf(conn)
		if d.admit(from) {
			return &guestConn{Conn: conn, leave: sync.OnceFunc(func() { d.leave(from) })}, nil
		}
		_ = conn.Close() // whoever it was is gone either way
	}
}

func networkOf(conn net.Conn) netip.Prefix {
	at, _ := netip.ParseAddrPort(conn.RemoteAddr().String())
	return auth.Network(at.Addr())
}

func (d *doors) admit(from netip.Prefix) bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.all >= maxConnections || d.open[from] >= maxConnectionsOfOne {
		return false
	}
	d.all++
	d.open[from]++
	return true
}

func (d *doors) leave(from netip.Prefix) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.all--
	if d.open[from]--; d.open[from] == 0 {
		delete(d.open, from)
	}
}

type guestConn struct {
	net.Conn
	leave func()
}

// Close lets the next one in.
func (c *guestConn) Close() error {
	c.leave()
	return c.Conn.Close()
}
