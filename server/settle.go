package server

import (
	"slices"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
)

// Phones' clocks are wrong, so the server settles when something was entered.
// Within one boot the monotonic clock counts back from the moment the push was
// received. Across boots the wall clock is taken as being as wrong as it is
// now. Nothing can have been entered before what was entered before it, nor
// later than more than two minutes from now: the edit of a phone set to 2031
// does not win for ever.

// ahead is how far a settled time may lie in the future.
const ahead = 2 * time.Minute

// settle fills in when each operation was entered, in its place in the outbox:
// none later than the next.
func (u *upload) settle(received time.Time) {
	bound := received.UnixMilli() + ahead.Milliseconds()
	for i := range slices.Backward(u.parts) {
		p := &u.parts[i]
		if p.operation == nil {
			continue
		}
		p.enteredMs = min(u.settled(p.operation.GetNoted(), received.UnixMilli()), bound)
		bound = p.enteredMs
	}
}

// settled is when something was entered by what the device's clocks said then
// and say now, milliseconds since 1970 UTC. A time that lies ahead becomes now;
// so does one of a clock that was never set.
func (u *upload) settled(noted *freshetv1.Noted, received int64) int64 {
	if noted.GetWallMs() == 0 && noted.GetMonotonicMs() == 0 {
		return received
	}
	now := u.now
	sameBoot := noted.GetBootId() == now.GetBootId() && noted.GetMonotonicMs() > 0 && noted.GetMonotonicMs() <= now.GetMonotonicMs()
	entered := noted.GetWallMs()
	switch {
	case sameBoot:
		entered = received - (now.GetMonotonicMs() - noted.GetMonotonicMs())
	case now.GetWallMs() != 0:
		entered += received - now.GetWallMs()
	}
	if entered > received+ahead.Milliseconds() || entered < earliest.UnixMilli() {
		return received
	}
	return entered
}

// settledAt is an operation as it goes into the feed: with the settled time in
// place of the device's clocks. What came is left as it is.
func settledAt(op *freshetv1.Operation, enteredMs int64) *freshetv1.Operation {
	out := &freshetv1.Operation{Number: op.GetNumber(), Group: op.GetGroup(), Change: op.GetChange(), Noted: &freshetv1.Noted{WallMs: enteredMs}}
	out.ProtoReflect().SetUnknown(op.ProtoReflect().GetUnknown())
	return out
}
