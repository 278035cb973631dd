package store

import (
	"maps"
	"slices"
)

// month is the first day of a day's month.
func (d day) month() day { return d - day(d.time().Day()-1) }

// next is the first day of the month after a month.
func (d day) next() day { return day(d.time().AddDate(0, 1, 0).Unix() / 86400) }

// monthSum is a sum with the days that went into it, as bits: 1 for the first of
// the month, 2 for the second, 4 for the third.
type monthSum struct {
	sum
	days int32
}

// byMonth adds sums of days up to sums of months.
func byMonth(days map[sumKey]*sum) map[sumKey]*monthSum {
	months := map[sumKey]*monthSum{}
	for key, v := range days {
		bit := int32(1) << (key.day - key.day.month())
		key.day = key.day.month()
		m := months[key]
		if m == nil {
			m = &monthSum{sum: sum{low: v.low, high: v.high}}
			months[key] = m
		}
		m.n, m.sum.sum, m.days = m.n+v.n, m.sum.sum+v.sum, m.days|bit
		m.low, m.high = min(m.low, v.low), max(m.high, v.high)
	}
	return months
}

func (p *Pushing) queueMonths(months map[sumKey]*monthSum) {
	if len(months) == 0 {
		return
	}
	keys := slices.SortedFunc(maps.Keys(months), compareKeys)
	c := columnsOf(keys, func(key sumKey) *sum { return &months[key].sum })
	noted := make([]int32, len(keys))
	for i, key := range keys {
		noted[i] = months[key].days
	}
	p.batch.Queue(`INSERT INTO monthly AS m (site_id, noun, quantity, subject_id, month, n, sum_micro, low_micro, high_micro, days)
		SELECT * FROM unnest($1::uuid[], $2::text[], $3::smallint[], $4::uuid[], $5::date[], $6::bigint[], $7::bigint[], $8::bigint[], $9::bigint[], $10::integer[])
		ON CONFLICT (noun, quantity, site_id, month, subject_id) DO UPDATE SET n = m.n + EXCLUDED.n, sum_micro = m.sum_micro + EXCLUDED.sum_micro,
			low_micro = least(m.low_micro, EXCLUDED.low_micro), high_micro = greatest(m.high_micro, EXCLUDED.high_micro), days = m.days | EXCLUDED.days`,
		c.sites, c.tables, c.quantities, c.subjects, c.days, c.counts, c.totals, c.lows, c.highs, noted)
}

// queueMonthsAgain reckons the months of touched days anew from the days; how
// many readings lie in each bin, from the readings themselves.
func (p *Pushing) queueMonthsAgain(touched map[touchedDay]bool) error {
	months := map[touchedDay]bool{}
	for t := range touched {
		t.day = t.day.month()
		months[t] = true
	}
	for _, t := range slices.SortedFunc(maps.Keys(months), compareTouched) {
		from, to := t.day.time(), t.day.next().time()
		p.batch.Queue("DELETE FROM monthly WHERE noun = $1 AND site_id = $2 AND month = $3 AND ($1 <> 'readings' OR quantity = $4)",
			eventTables[t.noun], t.site, from, t.quantity)
		p.batch.Queue(`INSERT INTO monthly (site_id, noun, quantity, subject_id, month, n, sum_micro, low_micro, high_micro, days)
			SELECT site_id, noun, quantity, subject_id, $3::date, sum(n), sum(sum_micro), min(low_micro), max(high_micro), bit_or(1 << (day - $3::date))
			FROM daily WHERE noun = $1 AND site_id = $2 AND day >= $3 AND day < $5 AND ($1 <> 'readings' OR quantity = $4)
			GROUP BY site_id, noun, quantity, subject_id`,
			eventTables[t.noun], t.site, from, t.quantity, to)
		if t.noun != "reading" {
			continue
		}
		if err := p.queueBinsAgain(t); err != nil {
			return err
		}
	}
	return nil
}
