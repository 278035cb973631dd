package store

import (
	"context"
	"fmt"
	"reflect"
	"strings"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// selectList names the columns of a row struct by its db tags. A record's
// field that was never set reads as its zero.
func selectList(row reflect.Type) string {
	var list []string
	for i := range row.NumField() {
		f := row.Field(i)
		if f.Anonymous {
			list = append(list, selectList(f.Type))
			continue
		}
		if column := f.Tag.Get("db"); column != "" {
			list = append(list, "coalesce("+column+", "+zeroOf(f.Type)+") AS "+column)
		}
	}
	return strings.Join(list, ", ")
}

func zeroOf(t reflect.Type) string {
	switch t {
	case reflect.TypeFor[uuid.UUID]():
		return "'00000000-0000-0000-0000-000000000000'"
	case reflect.TypeFor[time.Time]():
		return "'-infinity'"
	case reflect.TypeFor[Moment]():
		return "null"
	}
	switch t.Kind() {
	case reflect.String:
		return "''"
	case reflect.Bool:
		return "false"
	case reflect.Slice, reflect.Map, reflect.Pointer:
		return "null"
	}
	return "0"
}

// Moment is a date or time that may not be given; its Time is zero then.
type Moment struct{ time.Time }

// Scan reads a nullable timestamp or date.
func (m *Moment) Scan(src any) error {
	switch v := src.(type) {
	case nil:
		m.Time = time.Time{}
	case time.Time:
		m.Time = v
	default:
		return fmt.Errorf("store: a moment cannot be read from %T", src)
	}
	return nil
}

// rows runs a query whose select list is that of T.
func rows[T any](ctx context.Context, s *Store, from string, args ...any) ([]T, error) {
	sql := "SELECT " + selectList(reflect.TypeFor[T]()) + " FROM " + from
	found, err := s.query(ctx, sql, args...)
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(found, pgx.RowToStructByName[T])
}
