package device

import (
	"context"
	"errors"
)

// each calls row for every row of a query. Rows are read while the query is
// open: row must not use the database.
func each(ctx context.Context, q queryer, query string, args []any, row func(scan func(...any) error) error) (err error) {
	rows, err := q.QueryContext(ctx, query, args...)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, rows.Close()) }()
	for rows.Next() {
		if err := row(rows.Scan); err != nil {
			return err
		}
	}
	return rows.Err()
}
