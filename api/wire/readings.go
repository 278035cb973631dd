package wire

import (
	"errors"

	freshetv1 "freshet.example/api/freshet/v1"
)

// MaxRows is the most rows one column message may carry.
const MaxRows = 5000

// ErrColumns says that a column message cannot be read.
var ErrColumns = errors.New("columns do not fit together")

// ReadingRow is one reading of a column message.
type ReadingRow struct {
	Number     uint64 // running number of the operation
	Site       string // id
	Place      string // id, or empty
	Equipment  string // id, or empty
	OccurredMs int64
	EnteredMs  int64 // the device's wall clock
	Quantity   freshetv1.Quantity
	Digits     int64
	Decimals   uint32
	Unit       freshetv1.Unit
	Basis      freshetv1.Basis
	Method     freshetv1.Method
	Censoring  freshetv1.Censoring
}

// EncodeReadings packs rows whose numbers run on without gaps. It panics on
// none, more than MaxRows, or a gap: the caller cuts batches.
func EncodeReadings(rows []ReadingRow, noted *freshetv1.Noted) *freshetv1.ReadingColumns {
	mustRun(len(rows), func(i int) uint64 { return rows[i].Number })
	c := &freshetv1.ReadingColumns{FirstNumber: rows[0].Number, Count: uint32(len(rows)), Noted: noted}
	ids, series := newDictionary(&c.Ids), make(map[seriesKey]int64)
	var occurred, after delta
	for i := range rows {
		r := &rows[i]
		c.Sites = append(c.Sites, ids.index(r.Site))
		c.Places = append(c.Places, ids.optional(r.Place))
		c.Equipment = append(c.Equipment, ids.optional(r.Equipment))
		c.OccurredMs = append(c.OccurredMs, occurred.next(r.OccurredMs))
		c.EnteredAfterMs = append(c.EnteredAfterMs, after.next(r.EnteredMs-r.OccurredMs))
		c.Quantities = append(c.Quantities, r.Quantity)
		k := seriesKey{c.Places[i], r.Quantity}
		c.Digits = append(c.Digits, r.Digits-series[k])
		series[k] = r.Digits
		c.Decimals = append(c.Decimals, r.Decimals)
		c.Units = append(c.Units, r.Unit)
		c.Bases = append(c.Bases, r.Basis)
		c.Methods = append(c.Methods, r.Method)
		c.Censorings = append(c.Censorings, r.Censoring)
	}
	foldReadings(c)
	return c
}

// seriesKey is one series of a batch: digits are differences within it.
type seriesKey struct {
	place    uint32
	quantity freshetv1.Quantity
}

func foldReadings(c *freshetv1.ReadingColumns) {
	c.Sites, c.Places, c.Equipment = fold(c.Sites), fold(c.Places), fold(c.Equipment)
	c.OccurredMs, c.EnteredAfterMs = foldZero(c.OccurredMs), foldZero(c.EnteredAfterMs)
	c.Quantities, c.Digits, c.Decimals = fold(c.Quantities), foldZero(c.Digits), fold(c.Decimals)
	c.Units, c.Bases, c.Methods = fold(c.Units), fold(c.Bases), fold(c.Methods)
	c.Censorings = fold(c.Censorings)
}

// EachReading calls each for every row in order, and stops at its first error.
// The row is used again: each must not keep the pointer.
func EachReading(c *freshetv1.ReadingColumns, each func(*ReadingRow) error) error {
	n := int(c.GetCount())
	if !readingColumnsFit(c, n) {
		return ErrColumns
	}
	series := make(map[seriesKey]int64)
	var row ReadingRow
	var occurred, after int64
	for i := range n {
		occurred += at(c.OccurredMs, i)
		after += at(c.EnteredAfterMs, i)
		k := seriesKey{at(c.Places, i), at(c.Quantities, i)}
		series[k] += at(c.Digits, i)
		site, ok1 := named(c.Ids, at(c.Sites, i)+1)
		place, ok2 := named(c.Ids, k.place)
		equipment, ok3 := named(c.Ids, at(c.Equipment, i))
		if !ok1 || !ok2 || !ok3 {
			return ErrColumns
		}
		row = ReadingRow{
			Number: c.FirstNumber + uint64(i), Site: site, Place: place, Equipment: equipment,
			OccurredMs: occurred, EnteredMs: occurred + after, Quantity: k.quantity,
			Digits: series[k], Decimals: at(c.Decimals, i), Unit: at(c.Units, i), Basis: at(c.Bases, i),
			Method: at(c.Methods, i), Censoring: at(c.Censorings, i),
		}
		if err := each(&row); err != nil {
			return err
		}
	}
	return nil
}

func readingColumnsFit(c *freshetv1.ReadingColumns, n int) bool {
	return n > 0 && n <= MaxRows && c.GetFirstNumber() > 0 && c.GetFirstNumber() <= MaxNumber-MaxRows &&
		fits(c.Sites, n) && fits(c.Places, n) && fits(c.Equipment, n) &&
		whole(c.OccurredMs, n) && whole(c.EnteredAfterMs, n) && fits(c.Quantities, n) && whole(c.Digits, n) &&
		fits(c.Decimals, n) && fits(c.Units, n) && fits(c.Bases, n) && fits(c.Methods, n) && fits(c.Censorings, n)
}
