package device

import (
	"context"
	"encoding/hex"
	"errors"
	"strconv"
	"strings"

	"github.com/google/uuid"

	"freshet.example/api/wire"
)

// ErrSeveral says that a short id fits entries of several devices.
var ErrSeveral = errors.New("that number fits entries of several devices; give the whole id")

// Short is how people name an entry or a record: its number where it was made
// on this device ("123"), else with the beginning of the other device's install
// before it ("7d3c-123").
func (d *Device) Short(id string) string {
	parsed, err := uuid.Parse(id)
	if err != nil {
		return id
	}
	install, number, ok := wire.Split(parsed)
	if !ok {
		return id
	}
	text := strconv.FormatUint(number, 10)
	if install == d.Install() {
		return text
	}
	return hex.EncodeToString(install[:2]) + "-" + text
}

// FindShort gives an entry by what Short gives, or by its whole id.
// ErrUnknownEntry where there is none.
func (d *Device) FindShort(ctx context.Context, text string) (Entry, error) {
	text = strings.TrimPrefix(text, "#")
	if n, err := strconv.ParseUint(text, 10, 62); err == nil && n > 0 {
		return d.find(ctx, d.db, wire.ID(d.Install(), n).String())
	}
	prefix, number, found := strings.Cut(text, "-")
	n, err := strconv.ParseUint(number, 10, 62)
	if !found || len(prefix) != 4 || err != nil || n == 0 {
		return d.find(ctx, d.db, text)
	}
	return d.findByPrefix(ctx, prefix, n)
}

// findByPrefix looks for the number on every device heard of whose install
// begins so.
func (d *Device) findByPrefix(ctx context.Context, prefix string, number uint64) (Entry, error) {
	var installs []wire.Install
	err := each(ctx, d.db, `SELECT install FROM columns WHERE hex(install) LIKE ?1 || '%'
		UNION SELECT install FROM events WHERE hex(install) LIKE ?1 || '%'`, []any{prefix}, func(scan func(...any) error) error {
		var raw []byte
		if err := scan(&raw); err != nil {
			return err
		}
		install, err := wire.ParseInstall(raw)
		installs = append(installs, install)
		return err
	})
	if err != nil {
		return Entry{}, err
	}
	found, missing := Entry{}, ErrUnknownEntry
	for _, install := range installs {
		e, err := d.find(ctx, d.db, wire.ID(install, number).String())
		switch {
		case errors.Is(err, ErrUnknownEntry):
			continue
		case err != nil:
			return Entry{}, err
		case missing == nil:
			return Entry{}, ErrSeveral
		}
		found, missing = e, nil
	}
	return found, missing
}
