// Package server answers the contract's calls over a store: gRPC on one port,
// and Connect, gRPC-Web and REST with JSON for browsers and curl on another.
//
// One file a service: account.go, husbandry.go, sync.go, analysis.go, pool.go,
// each a small type with a constructor that server.go registers. What all calls
// share stands apart:
//
//	server.go   putting it together; starting, stopping
//	listen.go   addresses, and TLS wherever they are not this machine's own
//	web.go      the second port; rest.go has a path for each call, webcodec.go
//	            reads and unpacks what comes in
//	calls.go    what surrounds each call: request id, time limit, log, panics;
//	            registrar.go and letter.go put it before the reading
//	errors.go   the one table from an error to its code, reason and hint
//	limits.go   sizes, counts and times
//	auth/       who calls, and what they may
//
// A service returns a refusal, or an error of store, auth or husbandry as it
// came; what surrounds the call turns it into the contract's words. A stream
// ends when its context does: a server that stops ends the contexts of its
// streams first, so they need no signal of their own.
package server
