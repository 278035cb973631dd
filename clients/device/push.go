package device

import (
	"context"
	"crypto/rand"
	"database/sql"
	"encoding/hex"
	"errors"
	"fmt"

	"google.golang.org/grpc"
	"google.golang.org/grpc/encoding"
	_ "google.golang.org/grpc/encoding/proto" // registers the codec that rawCodec falls back to
	"google.golang.org/grpc/mem"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
)

// A push holds at most so much.
const (
	maxPushOperations = 5000
	maxPushBytes      = 1_000_000
)

// push sends packets until none waits. A second try begins with Hello: the
// answer to the first may be lost, and then the server's last mark is not the
// one that this push would name. So may another process of this device push.
func (d *Device) push(ctx context.Context, p *Progress, again *bool) error {
	if *again {
		if err := d.hello(ctx); err != nil {
			return err
		}
	}
	*again = true
	for retried := false; ; {
		err := d.pushOnce(ctx, p)
		switch {
		case errors.Is(err, errNothing):
			return nil
		case isCopied(understand(err)) && !retried:
			retried, err = true, d.hello(ctx)
		}
		if err != nil {
			return err
		}
	}
}

// errNothing says that nothing waits.
var errNothing = errors.New("nothing waits")

func (d *Device) pushOnce(ctx context.Context, p *Progress) error {
	packets, err := d.nextPush(ctx)
	if err != nil {
		return err
	}
	if len(packets) == 0 {
		return errNothing
	}
	marked, err := d.prepare(ctx, packets[len(packets)-1].last())
	if err != nil {
		return err
	}
	answer, err := d.send(ctx, packets, marked)
	if err != nil {
		return err
	}
	return d.learn(ctx, packets, answer, marked, p)
}

// marks are a push's own mark and that of the push before it.
type marks struct{ own, after []byte }

// prepare gives a push its mark, and keeps it before the push is sent: made
// again after a lost answer, the push has the same.
func (d *Device) prepare(ctx context.Context, last uint64) (m marks, err error) {
	fresh := make([]byte, 8)
	_, _ = rand.Read(fresh) // never fails: crypto/rand ends the program instead
	return m, d.inTransaction(ctx, func(tx *sql.Tx) error {
		if _, err := tx.ExecContext(ctx, `INSERT OR IGNORE INTO pushes (last_number, mark) VALUES (?, ?)`, int64(last), fresh); err != nil {
			return err
		}
		if err := tx.QueryRowContext(ctx, `SELECT mark FROM pushes WHERE last_number = ?`, int64(last)).Scan(&m.own); err != nil {
			return err
		}
		after, err := fact(ctx, tx, factMark)
		if err != nil {
			return err
		}
		m.after, err = hex.DecodeString(after)
		return err
	})
}

// nextPush takes the packets that wait longest, as many as one push may hold.
// A group is never cut.
func (d *Device) nextPush(ctx context.Context) ([]packet, error) {
	through, err := factNumber(ctx, d.db, factThrough)
	if err != nil {
		return nil, err
	}
	var packets []packet
	var count uint64
	var bytes int
	full := false
	err = each(ctx, d.db, `SELECT first_number, operations_count, group_number, lane, scope, body FROM outbox
		WHERE first_number + operations_count > ? ORDER BY first_number LIMIT 2000`, []any{through + 1},
		func(scan func(...any) error) error {
			var p packet
			if full {
				return nil
			}
			if err := scan(&p.first, &p.count, &p.group, &p.lane, &p.scope, &p.body); err != nil {
				return err
			}
			count, bytes = count+p.count, bytes+len(p.body)
			if full = len(packets) > 0 && (count > maxPushOperations || bytes > maxPushBytes); !full {
				packets = append(packets, p)
			}
			return nil
		})
	if full {
		packets = wholeGroups(packets)
	}
	return packets, err
}

// wholeGroups leaves a group that goes on beyond the end for the next push.
func wholeGroups(packets []packet) []packet {
	end := len(packets)
	group := packets[end-1].group
	for group != 0 && end > 0 && packets[end-1].group == group {
		end--
	}
	if end == 0 { // the group begins the push: a group always fits into one
		return packets
	}
	return packets[:end]
}

// send makes one push of packets, joining their bytes.
func (d *Device) send(ctx context.Context, packets []packet, m marks) (*freshetv1.PushResponse, error) {
	connection, err := d.Connection(ctx)
	if err != nil {
		return nil, err
	}
	packets, err = repacked(packets)
	if err != nil {
		return nil, err
	}
	install := d.Install()
	request, err := proto.Marshal(&freshetv1.PushRequest{Install: install[:], Noted: d.clock(), Mark: m.own, AfterMark: m.after})
	if err != nil {
		return nil, err
	}
	for _, p := range packets {
		body, err := d.forServer(p)
		if err != nil {
			return nil, err
		}
		request = append(request, body...)
	}
	answer := &freshetv1.PushResponse{}
	err = connection.Invoke(ctx, freshetv1.SyncService_Push_FullMethodName, rawMessage(request), answer,
		grpc.ForceCodecV2(rawCodec{encoding.GetCodecV2("proto")}))
	return answer, err
}

// schemaOfDense is the first whose server reads dense readings, and pages many in a step.
const schemaOfDense = 2

// forServer is a packet's body, the shorter one where the server reads it.
func (d *Device) forServer(p packet) ([]byte, error) {
	if p.lane != laneReadingColumns || d.serverSchema.Load() < schemaOfDense {
		return p.body, nil
	}
	request := &freshetv1.PushRequest{}
	if err := proto.Unmarshal(p.body, request); err != nil {
		return nil, err
	}
	for i, c := range request.GetReadings() {
		if request.Readings[i] = wire.Dense(c); request.Readings[i].GetStepMs() == 0 {
			return p.body, nil
		}
	}
	request.DenseReadings, request.Readings = request.Readings, nil
	return proto.Marshal(request)
}

// repacked packs runs of single readings and feedings again, as columns: an
// hour's entries made one by one are many small packets.
func repacked(packets []packet) ([]packet, error) {
	out := make([]packet, 0, len(packets))
	var waiting run
	finish := func() error {
		p, err := waiting.pack()
		if err == nil && p.count > 0 {
			out = append(out, p)
		}
		waiting = run{}
		return err
	}
	for _, p := range packets {
		if p.lane != laneReadings && p.lane != laneFeedings {
			if err := finish(); err != nil {
				return nil, err
			}
			out = append(out, p)
			continue
		}
		ops, err := unpack(p)
		if err != nil {
			return nil, err
		}
		for _, op := range ops {
			if !waiting.takes(op, p.lane, p.scope) {
				if err := finish(); err != nil {
					return nil, err
				}
				waiting = run{lane: p.lane, scope: p.scope}
			}
			waiting.add(op)
		}
	}
	return out, finish()
}

// learn keeps the outcomes of a push.
func (d *Device) learn(ctx context.Context, packets []packet, answer *freshetv1.PushResponse, m marks, p *Progress) error {
	last := packets[len(packets)-1].last()
	if answer.GetThroughNumber() < last {
		return fmt.Errorf("the server settled entries through %d of %d sent: %w", answer.GetThroughNumber(), last, errShort)
	}
	operations, err := operationsOf(packets, answer.GetOutcomes())
	if err != nil {
		return err
	}
	err = d.inTransaction(ctx, func(tx *sql.Tx) error {
		for _, o := range answer.GetOutcomes() {
			if err := keepOutcome(ctx, tx, o, operations[o.GetNumber()]); err != nil {
				return err
			}
		}
		if _, err := tx.ExecContext(ctx, `UPDATE pushes SET answered_ms = ? WHERE last_number = ?`, answer.GetServerMs(), int64(last)); err != nil {
			return err
		}
		if err := keep(ctx, tx, factMark, hex.EncodeToString(m.own)); err != nil {
			return err
		}
		return keepNumber(ctx, tx, factThrough, int64(last))
	})
	for _, packet := range packets {
		p.Sent += int(packet.count)
	}
	p.Stored += int(answer.GetStoredCount())
	p.Left += len(operations)
	return err
}

// operationsOf finds the operations that were not stored, as they were sent.
func operationsOf(packets []packet, outcomes []*freshetv1.Outcome) (map[uint64]*freshetv1.Operation, error) {
	found := map[uint64]*freshetv1.Operation{}
	for _, o := range outcomes {
		if lasting(o) {
			found[o.GetNumber()] = nil
		}
	}
	for _, p := range packets {
		if len(found) == 0 {
			break
		}
		ops, err := unpack(p)
		if err != nil {
			return nil, err
		}
		for _, op := range ops {
			if _, asked := found[op.GetNumber()]; asked {
				found[op.GetNumber()] = op
			}
		}
	}
	return found, nil
}

// rawMessage is a message that is encoded already.
type rawMessage []byte

// rawCodec sends a rawMessage as it is and leaves the rest to the usual codec.
type rawCodec struct{ encoding.CodecV2 }

// Marshal passes encoded messages through.
func (c rawCodec) Marshal(v any) (mem.BufferSlice, error) {
	if raw, ok := v.(rawMessage); ok {
		return mem.BufferSlice{mem.SliceBuffer(raw)}, nil
	}
	return c.CodecV2.Marshal(v)
}
