package device

import (
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
)

// lane is how a packet's operations are packed.
type lane int

const (
	laneReadings       lane = iota + 1 // readings as rows, which may become columns
	laneFeedings                       // feedings as rows, which may become columns
	laneOther                          // rows that stay rows
	laneReadingColumns                 // readings as columns
	laneFeedingColumns                 // feedings as columns
)

const (
	// columnsFrom is the fewest rows that are worth packing as columns.
	columnsFrom = 8
	// maxPacketRows and maxPacketBytes keep packets of rows well within a push.
	maxPacketRows  = 500
	maxPacketBytes = 128 << 10
)

// A packet is operations as they are sent: a piece of an encoded PushRequest.
// Protobuf joins messages by joining their bytes, so a push is its packets one
// behind the other.
type packet struct {
	first, count, group uint64
	lane                lane
	scope               string
	notedMs             int64
	body                []byte
}

func (p packet) last() uint64 { return p.first + p.count - 1 }

func laneOf(e *freshetv1.Event) lane {
	switch k := e.GetKind().(type) {
	case *freshetv1.Event_Reading:
		return laneReadings
	case *freshetv1.Event_Feeding:
		if k.Feeding.GetLeftG() == 0 { // columns have no room for what was left
			return laneFeedings
		}
	}
	return laneOther
}

// A run is operations with consecutive numbers that go into one packet.
type run struct {
	lane  lane
	scope string
	group uint64
	ops   []*freshetv1.Operation
	bytes int
}

func (r *run) takes(op *freshetv1.Operation, l lane, scope string) bool {
	if r.lane != l || r.scope != scope || r.group != op.GetGroup() {
		return false
	}
	if l == laneReadings || l == laneFeedings {
		return len(r.ops) < wire.MaxRows && op.GetNoted().GetBootId() == r.ops[0].GetNoted().GetBootId()
	}
	return len(r.ops) < maxPacketRows && r.bytes < maxPacketBytes
}

func (r *run) add(op *freshetv1.Operation) {
	r.ops = append(r.ops, op)
	if r.lane == laneOther {
		r.bytes += proto.Size(op)
	}
}

// pack encodes the run; an empty run is a packet of none.
func (r *run) pack() (packet, error) {
	if len(r.ops) == 0 {
		return packet{}, nil
	}
	first := r.ops[0]
	p := packet{
		first: first.GetNumber(), count: uint64(len(r.ops)), group: r.group,
		lane: r.lane, scope: r.scope, notedMs: first.GetNoted().GetWallMs(),
	}
	request := &freshetv1.PushRequest{Operations: r.ops}
	if len(r.ops) >= columnsFrom {
		p.lane = asColumns(request, r.lane)
	}
	var err error
	p.body, err = proto.Marshal(request)
	return p, err
}

// asColumns turns rows of a lane that has columns into them.
func asColumns(request *freshetv1.PushRequest, l lane) lane {
	ops := request.GetOperations()
	noted := ops[len(ops)-1].GetNoted()
	switch l {
	case laneReadings:
		request.Readings = []*freshetv1.ReadingColumns{wire.EncodeReadings(readingRows(ops), noted)}
		request.Operations = nil
		return laneReadingColumns
	case laneFeedings:
		request.Feedings = []*freshetv1.FeedingColumns{wire.EncodeFeedings(feedingRows(ops), noted)}
		request.Operations = nil
		return laneFeedingColumns
	}
	return l
}

func readingRows(ops []*freshetv1.Operation) []wire.ReadingRow {
	rows := make([]wire.ReadingRow, len(ops))
	for i, op := range ops {
		e, r := op.GetEvent(), op.GetEvent().GetReading()
		rows[i] = wire.ReadingRow{
			Number: op.GetNumber(), Site: e.GetSiteId(), Place: r.GetPlaceId(), Equipment: r.GetEquipmentId(),
			OccurredMs: e.GetOccurredAt().AsTime().UnixMilli(), EnteredMs: op.GetNoted().GetWallMs(),
			Quantity: r.GetQuantity(), Digits: r.GetDigits(), Decimals: r.GetDecimals(), Unit: r.GetUnit(),
			Basis: r.GetBasis(), Method: r.GetMethod(), Censoring: r.GetCensoring(),
		}
	}
	return rows
}

func feedingRows(ops []*freshetv1.Operation) []wire.FeedingRow {
	rows := make([]wire.FeedingRow, len(ops))
	for i, op := range ops {
		e, f := op.GetEvent(), op.GetEvent().GetFeeding()
		rows[i] = wire.FeedingRow{
			Number: op.GetNumber(), Site: e.GetSiteId(), Vessel: f.GetVesselId(), Cohort: f.GetCohortId(),
			Feed: f.GetFeedId(), OccurredMs: e.GetOccurredAt().AsTime().UnixMilli(),
			EnteredMs: op.GetNoted().GetWallMs(), MassG: f.GetMassG(),
		}
	}
	return rows
}
