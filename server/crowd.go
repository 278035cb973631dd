package server

import (
	"sync"
	"time"

	"golang.org/x/time/rate"
)

// Bounds are how much one caller may ask of the server.
type Bounds struct {
	Often   float64 // calls a second in the long run
	AtOnce  int     // calls that may come together
	Running int     // unary calls that run at a time
	Streams int     // streams at a time
}

// A Crowd bounds everybody: whoever is not known by the network address they
// come from, and whoever is by device and by member.
type Crowd struct {
	Address, Device, Member Bounds
	// Unknown bounds credentials that nobody knows, of one network address.
	Unknown Bounds
	// Opened bounds connections that one network address opens.
	Opened Bounds
	// Late is how long a caller beyond their bounds waits for the refusal.
	Late time.Duration
}

// UsualCrowd leaves any honest device room: a phone that was away for a season
// makes some hundred calls, a page of the app a dozen; a school's phones come
// with tokens that ended after the holidays, and all at once after a power cut.
var UsualCrowd = Crowd{
	Address: Bounds{Often: 20, AtOnce: 1000, Running: 64, Streams: 64},
	Device:  Bounds{Often: 50, AtOnce: 1000, Running: 16, Streams: 8},
	Member:  Bounds{Often: 100, AtOnce: 2000, Running: 32, Streams: 32},
	Unknown: Bounds{Often: 5, AtOnce: 300},
	Opened:  Bounds{Often: 50, AtOnce: 1000},
	Late:    time.Second,
}

// Boundless is for measuring what the server does when nobody holds it back.
var Boundless = Crowd{Address: boundless, Device: boundless, Member: boundless, Unknown: boundless, Opened: boundless}

var boundless = Bounds{Often: 1e9, AtOnce: 1e9, Running: 1e9, Streams: 1e9}

// crowd counts the callers of one sort, by what they are told apart by.
type crowd[K comparable] struct {
	bounds Bounds
	whose  string // for words: "this device"
	mu     sync.Mutex
	by     map[K]*guest
}

type guest struct {
	often            *rate.Limiter
	running, streams int
}

func newCrowd[K comparable](bounds Bounds, whose string) *crowd[K] {
	return &crowd[K]{bounds: bounds, whose: whose, by: map[K]*guest{}}
}

// guestsKept is how many callers are remembered; beyond it the quiet are forgotten.
const guestsKept = 8192

func (c *crowd[K]) guest(key K) *guest {
	if g := c.by[key]; g != nil {
		return g
	}
	if len(c.by) >= guestsKept {
		for k, g := range c.by {
			if g.running == 0 && g.streams == 0 && g.often.Tokens() >= float64(c.bounds.AtOnce)/2 {
				delete(c.by, k)
			}
		}
	}
	g := &guest{often: rate.NewLimiter(rate.Limit(c.bounds.Often), c.bounds.AtOnce)}
	c.by[key] = g
	return g
}

// spent tells how long a caller must wait until they may call again; 0: now.
func (c *crowd[K]) spent(key K) time.Duration {
	c.mu.Lock()
	defer c.mu.Unlock()
	g := c.by[key]
	if g == nil {
		return 0
	}
	missing := 1 - g.often.Tokens()
	return max(0, time.Duration(missing/c.bounds.Often*float64(time.Second)))
}

// count counts a call against a caller, whether or not it was allowed.
func (c *crowd[K]) count(key K) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.guest(key).often.Allow()
}

// enter lets a call or a stream of a caller in, until leave; or tells why not.
func (c *crowd[K]) enter(key K, stream bool) (leave func(), err error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	g := c.guest(key)
	now, most := &g.running, c.bounds.Running
	if stream {
		now, most = &g.streams, c.bounds.Streams
	}
	if *now >= most {
		return nil, tooMany(c.whose+" has too much going on at once", crowdedWait)
	}
	if !g.often.Allow() {
		missing := 1 - g.often.Tokens()
		return nil, tooMany("too many calls came from "+c.whose, time.Duration(missing/c.bounds.Often*float64(time.Second)))
	}
	*now++
	return func() {
		c.mu.Lock()
		defer c.mu.Unlock()
		*now--
	}, nil
}

// crowdedWait is when to try again where something must end first.
const crowdedWait = 2 * time.Second
