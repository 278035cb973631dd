package device

import (
	"context"

	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
)

// A waiting operation is one of this device's own that the replica does not
// show yet.
type waiting struct {
	op      *freshetv1.Operation
	pending bool // the cooperative has not said what became of it
}

// laidOver gives own operations that the replica does not hold, in the order
// they were entered, without those that were refused or are held. Lanes
// narrows it; none means all.
func (d *Device) laidOver(ctx context.Context, q queryer, each func(waiting) error, lanes ...lane) error {
	through, err := factNumber(ctx, q, factThrough)
	if err != nil {
		return err
	}
	left, err := notStored(ctx, q)
	if err != nil {
		return err
	}
	packets, err := unechoed(ctx, q, through, lanes)
	if err != nil {
		return err
	}
	for _, p := range packets {
		ops, err := unpack(p)
		if err != nil {
			return err
		}
		for _, op := range ops {
			if left[op.GetNumber()] {
				continue
			}
			if err := each(waiting{op, op.GetNumber() > uint64(through)}); err != nil {
				return err
			}
		}
	}
	return nil
}

// notStored are the numbers whose outcome is refused or held.
func notStored(ctx context.Context, q queryer) (map[uint64]bool, error) {
	numbers := map[uint64]bool{}
	return numbers, each(ctx, q, `SELECT number FROM outcomes`, nil, func(scan func(...any) error) error {
		var n int64
		err := scan(&n)
		numbers[uint64(n)] = true
		return err
	})
}

// unechoed are the packets that are laid over: the echo of none of them came,
// or of some, or word that the scope is gone, while the answer, which may refuse
// them, has not.
func unechoed(ctx context.Context, q queryer, through int64, lanes []lane) ([]packet, error) {
	wanted := map[lane]bool{}
	for _, l := range lanes {
		wanted[l] = true
	}
	var found []packet
	err := each(ctx, q, `SELECT lane, scope, body FROM outbox WHERE echoed = 0
		OR echoed > 0 AND first_number > ?1 - 5000 AND first_number + operations_count > ?1 + 1 ORDER BY first_number`, []any{through},
		func(scan func(...any) error) error {
			var p packet
			if err := scan(&p.lane, &p.scope, &p.body); err != nil {
				return err
			}
			if len(lanes) == 0 || wanted[p.lane] {
				found = append(found, p)
			}
			return nil
		})
	return found, err
}

// unpack gives a packet's operations as rows, whatever it is packed as.
func unpack(p packet) ([]*freshetv1.Operation, error) {
	request := &freshetv1.PushRequest{}
	if err := proto.Unmarshal(p.body, request); err != nil {
		return nil, err
	}
	ops := request.GetOperations()
	for _, c := range request.GetReadings() {
		err := wire.EachReading(c, func(r *wire.ReadingRow) error {
			ops = append(ops, rowOperation(r.Number, r.EnteredMs, c.GetNoted(), readingEvent(r)))
			return nil
		})
		if err != nil {
			return nil, err
		}
	}
	for _, c := range request.GetFeedings() {
		err := wire.EachFeeding(c, func(r *wire.FeedingRow) error {
			ops = append(ops, rowOperation(r.Number, r.EnteredMs, c.GetNoted(), feedingEvent(r)))
			return nil
		})
		if err != nil {
			return nil, err
		}
	}
	return ops, nil
}

func rowOperation(number uint64, enteredMs int64, noted *freshetv1.Noted, e *freshetv1.Event) *freshetv1.Operation {
	return &freshetv1.Operation{
		Number: number, Noted: &freshetv1.Noted{WallMs: enteredMs, BootId: noted.GetBootId()},
		Change: &freshetv1.Operation_Event{Event: e},
	}
}

func readingEvent(r *wire.ReadingRow) *freshetv1.Event {
	return &freshetv1.Event{
		SiteId: r.Site, OccurredAt: timestamp(r.OccurredMs),
		Kind: &freshetv1.Event_Reading{Reading: &freshetv1.Reading{
			Quantity: r.Quantity, Digits: r.Digits, Decimals: r.Decimals, Unit: r.Unit, Basis: r.Basis,
			Method: r.Method, Censoring: r.Censoring, PlaceId: r.Place, EquipmentId: r.Equipment,
		}},
	}
}

func feedingEvent(r *wire.FeedingRow) *freshetv1.Event {
	return &freshetv1.Event{
		SiteId: r.Site, OccurredAt: timestamp(r.OccurredMs),
		Kind: &freshetv1.Event_Feeding{Feeding: &freshetv1.Feeding{
			VesselId: r.Vessel, CohortId: r.Cohort, FeedId: r.Feed, MassG: r.MassG,
		}},
	}
}

func timestamp(ms int64) *timestamppb.Timestamp {
	return &timestamppb.Timestamp{Seconds: floorDiv(ms, 1000), Nanos: int32((ms - floorDiv(ms, 1000)*1000) * 1e6)}
}

// floorDiv rounds down also below nought: a timestamp's nanos are never negative.
func floorDiv(a, b int64) int64 {
	if q := a / b; a%b >= 0 {
		return q
	}
	return a/b - 1
}
