package device

import (
	"bytes"
	"context"
	"database/sql"
	"errors"

	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
)

// A phone that is set up from another's backup is a copy: both would go on
// numbering as one install. The mark of the install's last push tells them
// apart, and the one that did not make it takes an install of its own.

// errCopied says that the server's install is not this device's.
var errCopied = errors.New("this device is a copy of another")

// installCopied is the reason the server gives to a copy that pushes, and to a
// device whose install another member had.
const installCopied = "INSTALL_COPIED"

// isCopied tells such errors, this device's finding or the server's.
func isCopied(err error) bool {
	var t *Trouble
	return errors.Is(err, errCopied) || errors.As(err, &t) && t.Reason == installCopied
}

// isCopy tells whether the install's last push was not made here.
func (d *Device) isCopy(ctx context.Context, h *freshetv1.HelloResponse, next int64) (bool, error) {
	if h.GetThroughNumber() >= uint64(max(next, 1)) {
		return true, nil
	}
	if len(h.GetMark()) == 0 {
		return false, nil
	}
	var made bool
	err := d.db.QueryRowContext(ctx, `SELECT EXISTS (SELECT 1 FROM pushes WHERE mark = ?)`, h.GetMark()).Scan(&made)
	return !made, err
}

// becomeOwn gives a copy an install of its own. What waits is entered again
// under new numbers, but for what the other sent for both: the copy of the
// records is brought up to date first, to see that.
func (d *Device) becomeOwn(ctx context.Context, p *Progress) error {
	// From here on nothing that comes is an echo of this device's entries.
	if err := keep(ctx, d.db, factCopied, "1"); err != nil {
		return err
	}
	if err := d.patiently(ctx, p, func() error { return d.pull(ctx, p) }); err != nil {
		return err
	}
	if err := d.inTransaction(ctx, func(tx *sql.Tx) error { return d.enterAgain(ctx, tx) }); err != nil {
		return err
	}
	return d.patiently(ctx, p, func() error { return d.hello(ctx) })
}

func (d *Device) enterAgain(ctx context.Context, tx *sql.Tx) error {
	former, err := d.readInstall(ctx, tx)
	if err != nil {
		return err
	}
	again, err := d.alone(ctx, tx, former)
	if err != nil {
		return err
	}
	fresh := wire.NewInstall()
	if err := startOver(ctx, tx, former, fresh); err != nil {
		return err
	}
	t := &Draft{ctx: ctx, tx: tx, device: d, install: fresh, next: 1}
	ids := newIDs(again, former, fresh)
	numbers := map[uint64]uint64{}
	for i, w := range again {
		numbers[w.op.GetNumber()] = uint64(i) + 1
		op, err := renamed(w.op, former, ids)
		if err != nil {
			return err
		}
		if group := op.GetGroup(); group != 0 {
			if numbers[group] == 0 {
				numbers[group] = t.next
			}
			op.Group = numbers[group]
		}
		scope := []byte(w.scope)
		rename(scope, former, ids)
		if err := t.put(op, w.lane, string(scope)); err != nil {
			return err
		}
	}
	if err := t.finish(); err != nil {
		return err
	}
	d.install.Store(&fresh)
	return nil
}

// entered is an operation of the outbox with where it goes.
type entered struct {
	op    *freshetv1.Operation
	lane  lane
	scope string
}

// alone are the operations without an outcome that the other device has not
// sent as well, in their order.
func (d *Device) alone(ctx context.Context, tx *sql.Tx, former wire.Install) ([]entered, error) {
	through, err := factNumber(ctx, tx, factThrough)
	if err != nil {
		return nil, err
	}
	packets, err := packetsAfter(ctx, tx, through)
	if err != nil {
		return nil, err
	}
	var list []entered
	for _, p := range packets {
		ops, err := unpack(p)
		if err != nil {
			return nil, err
		}
		for _, op := range ops {
			if op.GetNumber() <= uint64(through) {
				continue
			}
			sent, err := d.isSent(ctx, tx, former, op)
			if err != nil {
				return nil, err
			}
			if !sent {
				list = append(list, entered{op, rowLane(p.lane), p.scope})
			}
		}
	}
	return list, nil
}

func packetsAfter(ctx context.Context, tx *sql.Tx, through int64) ([]packet, error) {
	var packets []packet
	return packets, each(ctx, tx, `SELECT lane, scope, body FROM outbox WHERE first_number + operations_count > ? ORDER BY first_number`,
		[]any{through + 1}, func(scan func(...any) error) error {
			var p packet
			err := scan(&p.lane, &p.scope, &p.body)
			packets = append(packets, p)
			return err
		})
}

// rowLane is the lane of rows that may be packed as columns.
func rowLane(l lane) lane {
	switch l {
	case laneReadingColumns:
		return laneReadings
	case laneFeedingColumns:
		return laneFeedings
	}
	return l
}

// isSent tells whether the records hold what an operation says, under its id.
// In doubt it does not: an entry shown twice can be taken back by who sees it.
func (d *Device) isSent(ctx context.Context, tx *sql.Tx, former wire.Install, op *freshetv1.Operation) (bool, error) {
	id := wire.ID(former, op.GetNumber()).String()
	if e := op.GetEvent(); e != nil {
		there, err := d.findStored(ctx, tx, id)
		if errors.Is(err, ErrUnknownEntry) {
			return false, nil
		}
		return err == nil && proto.Equal(there.Event, e), err
	}
	e := op.GetEdit()
	if e.GetRecordId() != id {
		return false, nil // saying again what a field is changes nothing
	}
	record, err := (&applier{ctx: ctx, tx: tx}).record(id)
	return record != nil && record.says(e), err
}

// says tells whether a record has the fields of an edit.
func (m *merged) says(e *freshetv1.Edit) bool {
	given := body(e.ProtoReflect(), recordOneof)
	if given == nil || given.Descriptor() != m.message.Descriptor() {
		return false
	}
	for _, path := range e.GetFields().GetPaths() {
		field := given.Descriptor().Fields().ByName(protoreflect.Name(path))
		if field == nil || !given.Get(field).Equal(m.message.Get(field)) {
			return false
		}
	}
	return true
}

// newIDs are the ids that operations get, by those they had.
func newIDs(again []entered, former, fresh wire.Install) map[string]string {
	ids := map[string]string{}
	for i, w := range again {
		ids[wire.ID(former, w.op.GetNumber()).String()] = wire.ID(fresh, uint64(i)+1).String()
	}
	return ids
}

// renamed is an operation with new ids in the place of former ones. Ids are
// texts of one length, so that they can be exchanged in the encoded bytes, in
// fields of a later release too.
func renamed(op *freshetv1.Operation, former wire.Install, ids map[string]string) (*freshetv1.Operation, error) {
	raw, err := proto.Marshal(op)
	if err != nil {
		return nil, err
	}
	rename(raw, former, ids)
	out := &freshetv1.Operation{}
	return out, proto.Unmarshal(raw, out)
}

// rename exchanges ids within raw, wherever the former install's half of one stands.
func rename(raw []byte, former wire.Install, ids map[string]string) {
	const long, half = 36, 18
	for at := 0; len(raw)-at >= long; at += half {
		found := bytes.Index(raw[at:len(raw)-long+half], []byte(wire.ID(former, 0).String()[:half]))
		if found < 0 {
			return
		}
		at += found
		if id, again := ids[string(raw[at:at+long])]; again {
			copy(raw[at:], id)
		}
	}
}

// startOver empties what belongs to the former install. What it left behind,
// refused or held, stays to be read.
func startOver(ctx context.Context, tx *sql.Tx, former, fresh wire.Install) error {
	for _, statement := range []string{
		`INSERT OR IGNORE INTO former_outcomes SELECT ?1, number, kind, reason, field, hint, operation FROM outcomes`,
		`DELETE FROM outcomes`,
		`DELETE FROM outbox`,
		`DELETE FROM pushes`,
		`UPDATE photo_files SET number = 0`,
		`DELETE FROM facts WHERE name IN ('` + factThrough + `', '` + factArrived + `', '` + factBackedUp + `', '` + factMark + `', '` + factCopied + `')`,
		`UPDATE facts SET value = ?2 WHERE name = 'install'`,
	} {
		if _, err := tx.ExecContext(ctx, statement, former[:], fresh[:]); err != nil {
			return err
		}
	}
	return nil
}
