package server

import (
	"net"
	"net/netip"
	"sync"
	"sync/atomic"
	"time"

	"freshet.example/server/auth"
)

// doors let so many connections in, of one network address and of all, and so
// many within a time. What comes beyond is closed before a byte of it is read.
type doors struct {
	*net.TCPListener
	pace *crowd[netip.Prefix] // connections that are opened
	late time.Duration        // how long one that came too fast is left waiting
	most int

	mu   sync.Mutex
	open map[netip.Prefix]map[netip.AddrPort]*guestConn
	all  int
	left int // that wait to be closed
}

// leftWaiting is how many connections that came too fast are left waiting at a
// time; others are closed at once.
const leftWaiting = 256

func newDoors(l *net.TCPListener, c Crowd) *doors {
	return &doors{TCPListener: l, pace: newCrowd[netip.Prefix](c.Opened, "your network"), late: c.Late, most: maxConnections,
		open: map[netip.Prefix]map[netip.AddrPort]*guestConn{}}
}

// Accept waits for the next connection that may be let in.
func (d *doors) Accept() (net.Conn, error) {
	for {
		conn, err := d.AcceptTCP()
		if err != nil {
			return nil, err
		}
		at, _ := netip.ParseAddrPort(conn.RemoteAddr().String())
		from := auth.Network(at.Addr())
		if d.pace.spent(from) > 0 {
			d.turnAway(conn)
			continue
		}
		d.pace.count(from)
		guest := &guestConn{TCPConn: conn, heard: newClock(), leave: sync.OnceFunc(func() { d.leave(from, at) })}
		yields, ok := d.admit(from, at, guest)
		if yields != nil {
			_ = yields.Close() // who it was may come again
		}
		if ok {
			return guest, nil
		}
		_ = conn.Close() // whoever it was is gone either way
	}
}

// turnAway closes a connection after a while: who opens the next one as soon as
// one was closed opens few.
func (d *doors) turnAway(conn *net.TCPConn) {
	d.mu.Lock()
	waits := d.late > 0 && d.left < leftWaiting
	if waits {
		d.left++
	}
	d.mu.Unlock()
	if !waits {
		_ = conn.Close()
		return
	}
	time.AfterFunc(d.late, func() {
		_ = conn.Close()
		d.mu.Lock()
		defer d.mu.Unlock()
		d.left--
	})
}

// admit lets a connection in. Where all doors are taken, the address that has
// most of them yields the one that has been silent longest, so that many
// connections of a few keep nobody out.
func (d *doors) admit(from netip.Prefix, at netip.AddrPort, guest *guestConn) (yields *guestConn, ok bool) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if len(d.open[from]) >= maxConnectionsOfOne {
		return nil, false
	}
	if d.all >= d.most {
		if yields = d.yielding(len(d.open[from])); yields == nil {
			return nil, false
		}
	}
	if d.open[from] == nil {
		d.open[from] = map[netip.AddrPort]*guestConn{}
	}
	d.open[from][at] = guest
	d.all++
	return yields, true
}

// yielding is the longest silent connection of the address that has most; nil
// where none has more than a newcomer's would then have.
func (d *doors) yielding(newcomers int) (longest *guestConn) {
	var most map[netip.AddrPort]*guestConn
	for _, of := range d.open {
		if len(of) > len(most) {
			most = of
		}
	}
	if len(most) <= newcomers+1 {
		return nil
	}
	for _, c := range most {
		if longest == nil || c.heard.Load() < longest.heard.Load() {
			longest = c
		}
	}
	return longest
}

func (d *doors) leave(from netip.Prefix, at netip.AddrPort) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.all--
	if delete(d.open[from], at); len(d.open[from]) == 0 {
		delete(d.open, from)
	}
}

// shut closes the connection from an address and port, if it came through here.
func (d *doors) shut(at netip.AddrPort) {
	d.mu.Lock()
	guest := d.open[auth.Network(at.Addr())][at]
	d.mu.Unlock()
	if guest != nil {
		_ = guest.Close() // it may have gone meanwhile
	}
}

// A guestConn is a TCP connection still, which can be closed on one side: who is
// refused while they send reads why before the line goes.
type guestConn struct {
	*net.TCPConn
	heard *atomic.Int64 // when something last came, in Unix nanoseconds
	leave func()
}

func newClock() *atomic.Int64 {
	c := &atomic.Int64{}
	c.Store(time.Now().UnixNano())
	return c
}

// Read notes that somebody is there.
func (c *guestConn) Read(into []byte) (int, error) {
	n, err := c.TCPConn.Read(into)
	if n > 0 {
		c.heard.Store(time.Now().UnixNano())
	}
	return n, err
}

// Close lets the next one in.
func (c *guestConn) Close() error {
	c.leave()
	return c.TCPConn.Close()
}
