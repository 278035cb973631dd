package store

import (
	"bytes"
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5/pgtype"
)

// A measure is what is summed by day of one kind of event: plus, less minus.
// Of several, quantity 0 is the mass, volume, energy or time and quantity 1 the
// count, save that a reading's is its own. The subject is the first column given.
type measure struct {
	quantity int16
	plus     string
	minus    string
	subjects []string
}

var measures = map[string][]measure{
	"feeding":      {{plus: "mass_g", minus: "left_g", subjects: []string{"cohort_id", "vessel_id"}}},
	"stocking":     {{plus: "mass_g", subjects: []string{"cohort_id"}}, {quantity: 1, plus: "count", subjects: []string{"cohort_id"}}},
	"death":        {{plus: "mass_g", subjects: []string{"cohort_id"}}, {quantity: 1, plus: "count", subjects: []string{"cohort_id"}}},
	"fish_harvest": {{plus: "mass_g", subjects: []string{"cohort_id"}}, {quantity: 1, plus: "count", subjects: []string{"cohort_id"}}},
	"bed_harvest":  {{plus: "mass_g", subjects: []string{"planting_id"}}, {quantity: 1, plus: "pieces_count", subjects: []string{"planting_id"}}},
	"water_in":     {{plus: "volume_l", subjects: []string{"vessel_id", "system_id"}}},
	"water_out":    {{plus: "volume_l", subjects: []string{"vessel_id", "system_id"}}},
	"solids_out":   {{plus: "dry_mass_g", subjects: []string{"vessel_id"}}},
	"labour":       {{plus: "minutes"}},
	"energy":       {{plus: "energy_kwh", subjects: []string{"equipment_id"}}},
}

// micro is how SQL's ::bigint rounds a double.
func micro(v float64) int64 { return int64(math.RoundToEven(v * 1e6)) }

// sumKey is one row of the table daily.
type sumKey struct {
	site     uuid.UUID
	table    string
	quantity int16
	subject  uuid.UUID
	day      day
}

type sum struct{ n, sum, low, high int64 }

// sums adds up a push before it touches the tables, once a row of them.
type sums struct {
	days map[sumKey]*sum
	bins map[binKey]int64
}

func newSums() sums { return sums{map[sumKey]*sum{}, map[binKey]int64{}} }

func (s sums) add(key sumKey, value int64) {
	if key.table == "readings" {
		s.bins[key.bin(value)]++
	}
	found := s.days[key]
	if found == nil {
		s.days[key] = &sum{1, value, value, value}
		return
	}
	found.add(value)
}

func (s *sum) add(value int64) {
	s.n++
	s.sum += value
	s.low, s.high = min(s.low, value), max(s.high, value)
}

// readings adds readings; neighbours often fall into one row.
func (s sums) readings(p *Pushing, rows []ReadingRow) error {
	var z *zone
	var of uuid.UUID
	last := make(map[seriesKey]*openSum)
	for i := range rows {
		r := &rows[i]
		if z == nil || r.SiteID != of {
			var err error
			if z, err = p.zone(r.SiteID); err != nil {
				return err
			}
			of = r.SiteID
			clear(last)
		}
		d := z.dayOf(r.OccurredMs)
		series := seriesKey{r.Quantity, r.PlaceID}
		key := sumKey{of, "readings", r.Quantity, r.PlaceID, d}
		if open := last[series]; open != nil && open.day == d {
			open.sum.add(r.ValueMicro)
			s.bins[key.bin(r.ValueMicro)]++
			continue
		}
		s.add(key, r.ValueMicro)
		last[series] = &openSum{d, s.days[key]}
	}
	return nil
}

type seriesKey struct {
	quantity int16
	place    uuid.UUID
}

type openSum struct {
	day day
	sum *sum
}

func (s sums) events(p *Pushing, rows []EventRow) error {
	for i := range rows {
		e := &rows[i]
		for _, m := range measures[e.Noun] {
			z, err := p.zone(e.SiteID)
			if err != nil {
				return err
			}
			value, err := m.of(e)
			if err != nil {
				return err
			}
			s.add(sumKey{e.SiteID, eventTables[e.Noun], m.quantity, m.subject(e), z.dayOf(e.OccurredAt.UnixMilli())}, value)
		}
	}
	return nil
}

// of is the measure's value in millionths.
func (m measure) of(e *EventRow) (int64, error) {
	plus, err := e.number(m.plus)
	if err != nil || m.minus == "" {
		return micro(plus), err
	}
	minus, err := e.number(m.minus)
	return micro(plus - minus), err
}

func (e *EventRow) number(column string) (float64, error) {
	switch v := e.value(column).(type) {
	case float64:
		return v, nil
	case int64:
		return float64(v), nil
	default:
		return 0, fmt.Errorf("store: %s.%s is no number but %T", e.Noun, column, v)
	}
}

func (e *EventRow) value(column string) any {
	if i := slices.Index(e.Columns, column); i >= 0 && i < len(e.Values) {
		return e.Values[i]
	}
	return nil
}

func (m measure) subject(e *EventRow) uuid.UUID {
	for _, column := range m.subjects {
		if id, ok := e.value(column).(pgtype.UUID); ok && id.Valid {
			return id.Bytes
		}
	}
	return uuid.Nil
}

// queueSums adds what a push adds to the sums.
func (p *Pushing) queueSums(push *Push) error {
	s := newSums()
	if err := s.readings(p, push.Readings); err != nil {
		return err
	}
	if err := s.events(p, push.Events); err != nil {
		return err
	}
	p.queueUpsert(s)
	return nil
}

// queueUpsert adds to the tables, each in the order of its key, so that two
// pushes never wait for each other.
func (p *Pushing) queueUpsert(s sums) {
	p.queueDays(s.days)
	p.queueMonths(byMonth(s.days))
	p.queueBins(s.bins)
}

func (p *Pushing) queueDays(days map[sumKey]*sum) {
	if len(days) == 0 {
		return
	}
	c := columnsOf(slices.SortedFunc(maps.Keys(days), compareKeys), func(key sumKey) *sum { return days[key] })
	p.batch.Queue(`INSERT INTO daily AS d (site_id, noun, quantity, subject_id, day, n, sum_micro, low_micro, high_micro)
		SELECT * FROM unnest($1::uuid[], $2::text[], $3::smallint[], $4::uuid[], $5::date[], $6::bigint[], $7::bigint[], $8::bigint[], $9::bigint[])
		ON CONFLICT (site_id, noun, quantity, day, subject_id) DO UPDATE SET n = d.n + EXCLUDED.n, sum_micro = d.sum_micro + EXCLUDED.sum_micro,
			low_micro = least(d.low_micro, EXCLUDED.low_micro), high_micro = greatest(d.high_micro, EXCLUDED.high_micro)`,
		c.sites, c.tables, c.quantities, c.subjects, c.days, c.counts, c.totals, c.lows, c.highs)
}

// sumColumns are rows of sums as the columns that unnest takes.
type sumColumns struct {
	sites                       []uuid.UUID
	tables                      []string
	quantities                  []int16
	subjects                    []uuid.UUID
	days                        []time.Time
	counts, totals, lows, highs []int64
}

func columnsOf(keys []sumKey, of func(sumKey) *sum) sumColumns {
	var c sumColumns
	for _, key := range keys {
		v := of(key)
		c.sites, c.tables, c.quantities = append(c.sites, key.site), append(c.tables, key.table), append(c.quantities, key.quantity)
		c.subjects, c.days = append(c.subjects, key.subject), append(c.days, key.day.time())
		c.counts, c.totals, c.lows, c.highs = append(c.counts, v.n), append(c.totals, v.sum), append(c.lows, v.low), append(c.highs, v.high)
	}
	return c
}

func compareKeys(a, b sumKey) int {
	return cmp.Or(bytes.Compare(a.site[:], b.site[:]), strings.Compare(a.table, b.table), cmp.Compare(a.quantity, b.quantity),
		cmp.Compare(a.day, b.day), bytes.Compare(a.subject[:], b.subject[:]))
}
