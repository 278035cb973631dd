package store

import (
	"bytes"
	"cmp"
	"context"
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// touchedDay is a day of one kind of event at one site whose rows changed; of
// readings those of one quantity.
type touchedDay struct {
	site     uuid.UUID
	noun     string
	quantity int16
	day      day
}

// sumAgain reckons days anew from their rows, after all rows of the push are
// in, and then their months. Sums alone could be mended by taking away what was voided; the lowest and
// the highest could not.
func (p *Pushing) sumAgain(ctx context.Context, touched map[touchedDay]bool) error {
	s := newSums()
	for _, t := range slices.SortedFunc(maps.Keys(touched), compareTouched) {
		z, err := p.zone(t.site)
		if err != nil {
			return err
		}
		if err := p.alone(t.site); err != nil {
			return err
		}
		p.batch.Queue("DELETE FROM daily WHERE site_id = $1 AND noun = $2 AND day = $3 AND ($2 <> 'readings' OR quantity = $4)",
			t.site, eventTables[t.noun], t.day.time(), t.quantity)
		start, end := z.bounds(t.day)
		for _, q := range sumQueries(t.noun) {
			p.queueRows(s, t.site, t.noun, q+" AND occurred_at >= $2 AND occurred_at < $3"+ofQuantity(t.noun), t.site, start, end, t.quantity)
		}
	}
	if err := p.send(ctx); err != nil {
		return err
	}
	p.queueDays(s.days)
	return p.queueMonthsAgain(touched)
}

func ofQuantity(noun string) string {
	if noun == "reading" {
		return " AND quantity = $4"
	}
	return " AND $4::smallint IS NOT NULL" // the statements differ in nothing else
}

// sumSiteAgain reckons all days of sites whose time zone changed. A day's
// bounds are this program's, not the database's, whose table of time zones may
// be another.
func (p *Pushing) sumSiteAgain(ctx context.Context) error {
	s := newSums()
	for _, site := range p.stale {
		for _, table := range []string{"daily", "monthly", "monthly_bins"} {
			p.batch.Queue("DELETE FROM "+table+" WHERE site_id = $1", site)
		}
		for _, noun := range append(slices.Sorted(maps.Keys(measures)), "reading") {
			for _, q := range sumQueries(noun) {
				p.queueRows(s, site, noun, q, site)
			}
		}
	}
	if err := p.send(ctx); err != nil {
		return err
	}
	p.queueUpsert(s)
	return nil
}

// queueRows adds the rows that a sum's query gives.
func (p *Pushing) queueRows(s sums, site uuid.UUID, noun, query string, arguments ...any) {
	p.batch.Queue(query, arguments...).Query(func(rows pgx.Rows) error {
		z, err := p.zone(site)
		if err != nil {
			return err
		}
		key := sumKey{site: site, table: eventTables[noun]}
		var at time.Time
		var value int64
		_, err = pgx.ForEachRow(rows, []any{&key.quantity, &key.subject, &at, &value}, func() error {
			key.day = z.dayOf(at.UnixMilli())
			s.add(key, value)
			return nil
		})
		return err
	})
}

// sumQueries give quantity, subject, moment and value in millionths of each row
// of a site, one query a measure; they round as micro does.
func sumQueries(noun string) []string {
	from := " FROM " + eventTables[noun] + " WHERE site_id = $1 AND corrected_by IS NULL"
	if noun == "reading" {
		return []string{"SELECT quantity, " + firstGiven([]string{"place_id"}) + ", occurred_at, value_micro" + from}
	}
	var queries []string
	for _, m := range measures[noun] {
		value := m.plus
		if m.minus != "" {
			value += " - " + m.minus
		}
		queries = append(queries, "SELECT "+strconv.Itoa(int(m.quantity))+"::smallint, "+firstGiven(m.subjects)+
			", occurred_at, (("+value+")::double precision * 1e6)::bigint"+from)
	}
	return queries
}

func firstGiven(columns []string) string {
	return "coalesce(" + strings.Join(append(slices.Clone(columns), "'"+uuid.Nil.String()+"'::uuid"), ", ") + ")"
}

func compareTouched(a, b touchedDay) int {
	return cmp.Or(bytes.Compare(a.site[:], b.site[:]), strings.Compare(a.noun, b.noun), cmp.Compare(a.quantity, b.quantity), cmp.Compare(a.day, b.day))
}
