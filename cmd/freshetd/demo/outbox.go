package demo

import (
	"math"
	"slices"
	"strings"
	"time"

	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/types/known/fieldmaskpb"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
)

// outbox is one install's operations, in the order they were entered.
type outbox struct {
	install  wire.Install
	next     uint64
	site     string
	pushes   []*freshetv1.PushRequest
	rows     []*freshetv1.Operation
	readings []wire.ReadingRow
}

func newOutbox(install wire.Install) *outbox { return &outbox{install: install, next: 1} }

func (o *outbox) number() uint64 {
	o.next++
	return o.next - 1
}

// set makes a record with all its fields and gives its id.
func (o *outbox) set(at time.Time, record *freshetv1.Edit, message protoreflect.ProtoMessage) string {
	o.closeReadings()
	number := o.number()
	record.RecordId = wire.ID(o.install, number).String()
	if o.site != "" && !isGlobal(record) {
		record.SiteId = o.site
	}
	if _, ok := record.Record.(*freshetv1.Edit_Site); ok {
		record.SiteId = ""
	}
	record.Fields = &fieldmaskpb.FieldMask{Paths: given(message)}
	o.rows = append(o.rows, &freshetv1.Operation{Number: number, Noted: noted(at), Change: &freshetv1.Operation_Edit{Edit: record}})
	return record.RecordId
}

// isGlobal says that the record belongs to the cooperative.
func isGlobal(e *freshetv1.Edit) bool {
	switch e.Record.(type) {
	case *freshetv1.Edit_Feed, *freshetv1.Edit_Cooperative:
		return true
	}
	return false
}

// given lists the fields that are not empty.
func given(message protoreflect.ProtoMessage) []string {
	var paths []string
	message.ProtoReflect().Range(func(f protoreflect.FieldDescriptor, _ protoreflect.Value) bool {
		paths = append(paths, string(f.Name()))
		return true
	})
	slices.Sort(paths)
	return paths
}

// note enters an event.
func (o *outbox) note(at time.Time, event *freshetv1.Event) {
	o.closeReadings()
	event.SiteId, event.OccurredAt = o.site, timestamppb.New(at)
	o.rows = append(o.rows, &freshetv1.Operation{Number: o.number(), Noted: noted(at), Change: &freshetv1.Operation_Event{Event: event}})
	if len(o.rows) == 500 {
		o.closeRows()
	}
}

// read enters a reading; probes' hours travel as columns.
func (o *outbox) read(at time.Time, row wire.ReadingRow) {
	o.closeRows()
	row.Number, row.Site, row.OccurredMs, row.EnteredMs = o.number(), o.site, at.UnixMilli(), at.UnixMilli()
	o.readings = append(o.readings, row)
	if len(o.readings) == wire.MaxRows {
		o.closeReadings()
	}
}

func (o *outbox) closeRows() {
	if len(o.rows) > 0 {
		o.pushes = append(o.pushes, &freshetv1.PushRequest{Install: o.install[:], Operations: o.rows})
		o.rows = nil
	}
}

func (o *outbox) closeReadings() {
	if len(o.readings) > 0 {
		columns := wire.EncodeReadings(o.readings, noted(time.UnixMilli(o.readings[len(o.readings)-1].EnteredMs)))
		o.pushes = append(o.pushes, &freshetv1.PushRequest{Install: o.install[:], Readings: []*freshetv1.ReadingColumns{columns}})
		o.readings = nil
	}
}

func (o *outbox) close() []*freshetv1.PushRequest {
	o.closeReadings()
	o.closeRows()
	return o.pushes
}

func noted(at time.Time) *freshetv1.Noted {
	return &freshetv1.Noted{WallMs: at.UnixMilli(), MonotonicMs: at.UnixMilli(), BootId: 1}
}

// typed turns a value into the digits a person or probe would show.
func typed(value float64, decimals uint32) (int64, uint32) {
	return int64(math.Round(value * math.Pow(10, float64(decimals)))), decimals
}

// installOf is the same for the same grower in every demo, so that answers can be expected.
func installOf(seed uint64, device byte) wire.Install {
	name := strings.Repeat("\x00", 5) + string([]byte{byte(seed >> 8), 0x80, byte(seed)})
	install := wire.Install([]byte(name))
	install[0], install[1] = 0xde, device
	return install
}
