package store

import (
	"bytes"
	"context"
	"encoding/binary"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// Fewer rows than this go as statements of the last batch, which spares a
// message to the database and back; more are copied.
const copyFrom = 24

// Postgres copies into no table with row security, so that readings are copied
// into a table of this connection's own, which each commit empties, and go on
// from there under the rules. Measured, that costs no more than the copy alone.
const batchTable = "CREATE TEMPORARY TABLE IF NOT EXISTS readings_in (LIKE readings) ON COMMIT DELETE ROWS"

func makeBatchTable(ctx context.Context, conn *pgx.Conn) error {
	_, err := conn.Exec(ctx, batchTable)
	return err
}

const insertBatch = "INSERT INTO readings (" + readingColumns + ") SELECT " + readingColumns + " FROM readings_in"

const readingColumns = "id, site_id, member_id, occurred_at, entered_at, quantity, digits, decimals, unit, basis, method, censoring, place_id, equipment_id, value_micro"

const insertReading = "INSERT INTO readings (" + readingColumns + ") VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15)"

// copyReadings stores readings. They are written in COPY's binary form by hand:
// a push is mostly readings, and the general way costs a dozen times as much.
func (p *Pushing) copyReadings(ctx context.Context, rows []ReadingRow) error {
	if len(rows) < copyFrom {
		for i := range rows {
			r := &rows[i]
			p.batch.Queue(insertReading, r.ID, r.SiteID, p.who.MemberID, millis(r.OccurredMs), millis(r.EnteredMs),
				r.Quantity, r.Digits, r.Decimals, r.Unit, r.Basis, r.Method, r.Censoring,
				reference(r.PlaceID), reference(r.EquipmentID), r.ValueMicro)
		}
		return nil
	}
	c := newCopy(len(rows) * 200)
	for i := range rows {
		c.reading(&rows[i], p.who.MemberID)
	}
	p.batch.Queue(insertBatch)
	_, err := p.conn.PgConn().CopyFrom(ctx, c.reader(), "COPY readings_in ("+readingColumns+") FROM STDIN BINARY")
	return err
}

// binaryCopy is what COPY ... BINARY reads: a header, rows of fields each with
// its length, a trailer; all numbers big-endian.
type binaryCopy struct{ b []byte }

func newCopy(size int) *binaryCopy {
	return &binaryCopy{append(make([]byte, 0, size), "PGCOPY\n\xff\r\n\x00\x00\x00\x00\x00\x00\x00\x00\x00"...)}
}

func (c *binaryCopy) reader() *bytes.Reader {
	c.int16raw(-1)
	return bytes.NewReader(c.b)
}

func (c *binaryCopy) reading(r *ReadingRow, member uuid.UUID) {
	c.int16raw(15)
	c.uuid(r.ID)
	c.uuid(r.SiteID)
	c.uuid(member)
	c.timestamp(r.OccurredMs)
	c.timestamp(r.EnteredMs)
	c.int16(r.Quantity)
	c.int64(r.Digits)
	c.int64(r.Decimals)
	c.int16(r.Unit)
	c.int16(r.Basis)
	c.int16(r.Method)
	c.int16(r.Censoring)
	c.reference(r.PlaceID)
	c.reference(r.EquipmentID)
	c.int64(r.ValueMicro)
}

func (c *binaryCopy) length(n int32)   { c.b = binary.BigEndian.AppendUint32(c.b, uint32(n)) }
func (c *binaryCopy) int16raw(v int16) { c.b = binary.BigEndian.AppendUint16(c.b, uint16(v)) }

func (c *binaryCopy) int16(v int16) {
	c.length(2)
	c.int16raw(v)
}

func (c *binaryCopy) int64(v int64) {
	c.length(8)
	c.b = binary.BigEndian.AppendUint64(c.b, uint64(v))
}

func (c *binaryCopy) uuid(v uuid.UUID) {
	c.length(16)
	c.b = append(c.b, v[:]...)
}

func (c *binaryCopy) reference(v uuid.UUID) {
	if v == uuid.Nil {
		c.length(-1)
		return
	}
	c.uuid(v)
}

// Postgres counts microseconds from 2000-01-01.
const epoch2000 = 946_684_800_000

func (c *binaryCopy) timestamp(ms int64) { c.int64((ms - epoch2000) * 1000) }
