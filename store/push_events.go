package store

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

func millis(ms int64) time.Time { return time.UnixMilli(ms).UTC() }

// baseColumns are what every event's row begins with.
var baseColumns = []string{"id", "site_id", "member_id", "occurred_at", "entered_at"}

func (e *EventRow) base(member uuid.UUID) []any {
	return []any{e.ID, e.SiteID, member, e.OccurredAt, e.EnteredAt}
}

// queueEvents stores events of all kinds but readings, table by table.
func (p *Pushing) queueEvents(events []EventRow) error {
	byNoun := make(map[string][]*EventRow)
	for i := range events {
		e := &events[i]
		byNoun[e.Noun] = append(byNoun[e.Noun], e)
	}
	nouns := make([]string, 0, len(byNoun))
	for noun := range byNoun {
		nouns = append(nouns, noun)
	}
	slices.Sort(nouns)
	for _, noun := range nouns {
		if err := p.queueNoun(noun, byNoun[noun]); err != nil {
			return err
		}
	}
	return nil
}

func (p *Pushing) queueNoun(noun string, events []*EventRow) error {
	table, ok := eventTables[noun]
	if !ok {
		return fmt.Errorf("store: no event is called %q", noun)
	}
	columns := append(slices.Clone(baseColumns), events[0].Columns...)
	for chunk := range slices.Chunk(events, rowsAtOnce) {
		if len(chunk) < rowsAtOnce {
			for _, e := range chunk {
				p.queueEvent(table, e)
			}
			continue
		}
		values := make([]any, 0, len(chunk)*len(columns))
		for _, e := range chunk {
			values = append(append(values, e.base(p.who.MemberID)...), e.Values...)
		}
		p.batch.Queue(insertStatement(table, columns, rowsAtOnce), values...)
	}
	return nil
}

// Rows of one statement: enough that a statement's own cost is small, one
// number of them so that each connection prepares two statements a table.
const rowsAtOnce = 40

func (p *Pushing) queueEvent(table string, e *EventRow) {
	p.batch.Queue(insertStatement(table, append(slices.Clone(baseColumns), e.Columns...), 1),
		append(e.base(p.who.MemberID), e.Values...)...)
}

// insertStatement puts names of our own schema into SQL; values never.
func insertStatement(table string, columns []string, rows int) string {
	var sql strings.Builder
	sql.WriteString("INSERT INTO " + pgx.Identifier{table}.Sanitize() + " (" + quoted(columns) + ") VALUES ")
	for i := range rows * len(columns) {
		switch {
		case i == 0:
			sql.WriteString("($")
		case i%len(columns) == 0:
			sql.WriteString("), ($")
		default:
			sql.WriteString(", $")
		}
		sql.WriteString(strconv.Itoa(i + 1))
	}
	sql.WriteString(")")
	return sql.String()
}

func quoted(columns []string) string {
	names := make([]string, len(columns))
	for i, column := range columns {
		names[i] = pgx.Identifier{column}.Sanitize()
	}
	return strings.Join(names, ", ")
}
