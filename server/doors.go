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
	*net.TCPListener
	mu   sync.Mutex
	open map[netip.Prefix]int
	all  int
}

func newDoors(l *net.TCPListener) *doors {
	return &doors{TCPListener: l, open: map[netip.Prefix]int{}}
}

// Accept waits for the next connection that may be let in.
func (d *doors) Accept() (net.Conn, error) {
	for {
		conn, err := d.AcceptTCP()
		if err != nil {
			return nil, err
		}
		from := networkOf(conn)
		if d.admit(from) {
			return &guestConn{TCPConn: conn, leave: sync.OnceFunc(func() { d.leave(from) })}, nil
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

// A guestConn is a TCP connection still, which can be closed on one side: who is
// refused while they send reads why before the line goes.
type guestConn struct {
	*net.TCPConn
	leave func()
}

// Close lets the next one in.
func (c *guestConn) Close() error {
	c.leave()
	return c.TCPConn.Close()
}
