package server

import (
	"runtime"
	"time"
)

// Calls that work at a time, and look-ups of who calls beside them: as many as
// keep the processors busy while some wait for the disk. Each at work holds a
// connection to the database, and a new one costs it tens of milliseconds until
// it knows the tables: a storm of calls that opened many at once kept everybody
// waiting for a second.
var workingAtOnce = max(4, 2*runtime.GOMAXPROCS(0))

const (
	// What one call may bring. Push has its own, smaller bounds.
	maxRequestBytes = 4 << 20
	// What of a larger one is read at all, to say so in the contract's words
	// rather than in grpc's; only from callers who are known.
	maxReadBytes = 3 * maxRequestBytes
	// JSON is about twice as long as the same message in bytes.
	maxJSONBytes   = 2 * maxRequestBytes
	maxHeaderBytes = 16 << 10

	// How long a unary call may take, whatever its caller allows. Streams last as
	// long as their caller wants.
	unaryTime = 30 * time.Second
	// How long a caller may take to send a request's header, and its body.
	headerTime = 10 * time.Second
	bodyTime   = 30 * time.Second
	// How long a connection is kept on which nothing goes on.
	idleTime = 2 * time.Minute

	// Streams of one connection at a time: a device needs two.
	maxStreams = 100

	// Connections of a port, and those of one network address: a school's worth
	// of phones behind one.
	maxConnections      = 8000
	maxConnectionsOfOne = 1000

	// Calls of one member that work at a time: more would keep the processors of a
	// small machine from others.
	workingOfOne = 2
	// Handshakes of a port that go on at a time, those of one network address, and
	// how long one may keep others waiting.
	handshakesAtOnce = 2
	handshakesOfOne  = 1
	handshakeTurn    = 50 * time.Millisecond

	// A silent connection is asked for a sign of life, so that a phone that has
	// walked out of reach is noticed; one that asks the server more often than
	// this is sent away.
	aliveAsked   = time.Minute
	aliveAnswer  = 20 * time.Second
	aliveSpacing = 20 * time.Second

	// How long calls may go on once the server was told to stop.
	stopTime = 10 * time.Second

	// Questions of one ComputeBatch, as the contract says.
	maxQuestions = 1000
	// Values in a list that a formula is asked with.
	maxListed = 10_000

	// Characters of a person's or device's name, and sites of one invitation.
	maxName  = 80
	maxSites = 100
)
