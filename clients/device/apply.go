package device

import (
	"bytes"
	"context"
	"crypto/sha256"
	"database/sql"
	"errors"
	"fmt"

	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
)

// errBroken says that a page does not continue what the device has of its
// scope: the copy is dropped and read anew.
var errBroken = errors.New("the page does not follow on the copy")

// An applier stores pages within one transaction.
type applier struct {
	ctx     context.Context
	tx      *sql.Tx
	install wire.Install
	member  string
	came    int // operations of others
}

// pages stores pages that follow each other, and moves the cursor of their scope.
func (a *applier) pages(at *freshetv1.Cursor, encoded [][]byte) error {
	scope := at.GetScope()
	have, err := cursor(a.ctx, a.tx, scope)
	if err != nil {
		return err
	}
	first := at.GetSequence() + 1 - uint64(len(encoded))
	if at.GetEpoch() == have.epoch && first <= have.sequence { // another process of this device was faster
		encoded = encoded[min(have.sequence+1-first, uint64(len(encoded))):]
		first = have.sequence + 1
	}
	if len(encoded) == 0 {
		return nil
	}
	blocks, err := follow(have, first, at, encoded)
	if err != nil {
		return fmt.Errorf("%s at %d: %w", scope, at.GetSequence(), err)
	}
	if have.sequence == 0 {
		if err := a.back(scope); err != nil {
			return err
		}
	}
	count := 0
	for i, block := range blocks {
		n, err := a.block(scope, first+uint64(i), block)
		if err != nil {
			return err
		}
		count += n
		if !bytes.Equal(block.GetInstall(), a.install[:]) {
			a.came += n
		}
	}
	_, err = a.tx.ExecContext(a.ctx, `INSERT INTO cursors VALUES (?1, ?2, ?3, ?4, ?5)
		ON CONFLICT DO UPDATE SET epoch = ?2, sequence = ?3, chain = ?4, operations_count = operations_count + ?5`,
		scope, int64(at.GetEpoch()), int64(at.GetSequence()), at.GetChain(), count)
	return err
}

// follow reads blocks that begin where the copy ends and link up to the cursor.
// None of them is stored before all are known to.
func follow(have position, first uint64, at *freshetv1.Cursor, encoded [][]byte) ([]*freshetv1.Block, error) {
	chain, blocks := bytes.Clone(have.chain), make([]*freshetv1.Block, len(encoded))
	for i, raw := range encoded {
		sum := sha256.Sum256(append(chain, raw...))
		chain, blocks[i] = append(chain[:0], sum[:16]...), &freshetv1.Block{}
		if proto.Unmarshal(raw, blocks[i]) != nil {
			return nil, errBroken
		}
	}
	if first != have.sequence+1 || !bytes.Equal(chain, at.GetChain()) {
		return nil, errBroken
	}
	return blocks, nil
}

// block stores what one push changed and counts its operations.
func (a *applier) block(scope string, sequence uint64, b *freshetv1.Block) (count int, err error) {
	install, err := wire.ParseInstall(b.GetInstall())
	if err != nil {
		return 0, fmt.Errorf("%s at %d: %w", scope, sequence, errBroken)
	}
	from := origin{install: install, member: b.GetMemberId(), scope: scope, sequence: sequence}
	for i, op := range b.GetOperations() {
		if err := a.operation(from, i, op); err != nil {
			return 0, err
		}
	}
	for i, c := range b.GetReadings() {
		if err := a.columns(from, i, laneReadingColumns, c); err != nil {
			return 0, err
		}
		count += int(c.GetCount())
	}
	for i, c := range b.GetFeedings() {
		if err := a.columns(from, len(b.GetReadings())+i, laneFeedingColumns, c); err != nil {
			return 0, err
		}
		count += int(c.GetCount())
	}
	return count + len(b.GetOperations()), nil
}

// origin is where operations of a block are from.
type origin struct {
	install  wire.Install
	member   string
	scope    string
	sequence uint64
}

func (a *applier) operation(from origin, part int, op *freshetv1.Operation) error {
	if err := a.echo(from, op.GetNumber(), 1); err != nil {
		return err
	}
	at := stamp{op.GetNoted().GetWallMs(), from.install}
	switch c := op.GetChange().(type) {
	case *freshetv1.Operation_Event:
		return a.event(from, op)
	case *freshetv1.Operation_Edit:
		whole, err := a.edit(from.scope, c.Edit, at)
		if err != nil || whole {
			return err
		}
	case *freshetv1.Operation_Removal:
		return a.removal(from.scope, c.Removal)
	}
	body, err := proto.Marshal(op)
	if err != nil {
		return err
	}
	_, err = a.tx.ExecContext(a.ctx, `INSERT OR REPLACE INTO unread VALUES (?,?,?,?)`, from.scope, int64(from.sequence), part, body)
	return err
}

func (a *applier) event(from origin, op *freshetv1.Operation) error {
	e := op.GetEvent()
	body, err := proto.Marshal(e)
	if err != nil {
		return err
	}
	_, err = a.tx.ExecContext(a.ctx, `INSERT OR REPLACE INTO events VALUES (?,?,?,?,?,?,?,?)`,
		wire.ID(from.install, op.GetNumber()).String(), from.scope, kindNumber(e.ProtoReflect(), eventOneof),
		e.GetOccurredAt().AsTime().UnixMilli(), op.GetNoted().GetWallMs(), from.install[:], from.member, body)
	return err
}

// columns keeps a column message as it came, with the span of time it covers.
func (a *applier) columns(from origin, part int, l lane, c columnMessage) error {
	span, err := spanOf(c)
	if err != nil {
		return fmt.Errorf("%s at %d: %w", from.scope, from.sequence, errBroken)
	}
	if err := a.echo(from, c.GetFirstNumber(), uint64(c.GetCount())); err != nil {
		return err
	}
	body, err := proto.Marshal(c)
	if err != nil {
		return err
	}
	_, err = a.tx.ExecContext(a.ctx, `INSERT OR REPLACE INTO columns VALUES (?,?,?,?,?,?,?,?,?,?)`,
		from.scope, int64(from.sequence), part, int(l), from.install[:], from.member,
		int64(c.GetFirstNumber()), span.from, span.to, body)
	return err
}

// columnMessage is what readings and feedings as columns have in common.
type columnMessage interface {
	proto.Message
	GetFirstNumber() uint64
	GetCount() uint32
	GetOccurredMs() []int64
}

type span struct{ from, to int64 }

// spanOf reads a column message through, which also proves that it can be read.
func spanOf(c columnMessage) (span, error) {
	s := span{from: 1<<63 - 1, to: -1 << 63}
	widen := func(ms int64) { s.from, s.to = min(s.from, ms), max(s.to, ms) }
	switch c := c.(type) {
	case *freshetv1.ReadingColumns:
		return s, wire.EachReading(c, func(r *wire.ReadingRow) error { widen(r.OccurredMs); return nil })
	case *freshetv1.FeedingColumns:
		return s, wire.EachFeeding(c, func(r *wire.FeedingRow) error { widen(r.OccurredMs); return nil })
	}
	return s, wire.ErrColumns
}

// echo notes that own operations came back: from now on the replica shows them.
// A packet goes to one scope by one push, so a part of it stands for the whole.
func (a *applier) echo(from origin, first, count uint64) error {
	if from.install != a.install {
		return nil
	}
	_, err := a.tx.ExecContext(a.ctx, `UPDATE outbox SET echoed = 1
		WHERE first_number < ?1 AND first_number + operations_count > ?2 AND echoed <> 1
		AND first_number > ?2 - 5000`, int64(first+count), int64(first))
	return err
}

// position is how far a scope was read.
type position struct {
	epoch, sequence uint64
	chain           []byte
	count           int64
}

// cursor is zero for a scope that was never read.
func cursor(ctx context.Context, q queryer, scope string) (position, error) {
	var p position
	var epoch, sequence int64
	err := q.QueryRowContext(ctx, `SELECT epoch, sequence, chain, operations_count FROM cursors WHERE scope = ?`, scope).
		Scan(&epoch, &sequence, &p.chain, &p.count)
	if errors.Is(err, sql.ErrNoRows) {
		return position{}, nil
	}
	p.epoch, p.sequence = uint64(epoch), uint64(sequence)
	return p, err
}

// back lays own entries of a scope over that was gone and is read again.
func (a *applier) back(scope string) error {
	_, err := a.tx.ExecContext(a.ctx, `UPDATE outbox SET echoed = 0 WHERE scope = ? AND echoed = 2`, scope)
	return err
}

// drop deletes a scope's rows. What the device itself entered there is laid
// over again as far as it is still kept; where the scope is gone, until the
// cooperative has answered it.
func (a *applier) drop(scope string, gone bool) error {
	for _, table := range []string{"columns", "events", "records", "unread", "cursors"} {
		if _, err := a.tx.ExecContext(a.ctx, `DELETE FROM `+table+` WHERE scope = ?`, scope); err != nil { //nolint:gosec // the names stand above
			return err
		}
	}
	echoed := 0
	if gone {
		echoed = 2
	}
	_, err := a.tx.ExecContext(a.ctx, `UPDATE outbox SET echoed = ? WHERE scope = ?`, echoed, scope)
	return err
}
