// Package probes takes what probes in the water send over HTTP, as SenML
// (RFC 8428) in JSON or CBOR, and notes it on a device: it waits in the outbox
// like anything else that is noted, with or without a network. A sheet says
// what is measured, and where, by each name that probes send.
package probes

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/cmd/freshet/words"
	"freshet.example/husbandry/quantity"
)

// A Probe is what is meant by one name.
type Probe struct {
	Quantity freshetv1.Quantity
	Kit      words.Kit // what its numbers are read in; without a unit, as it says itself
	SiteID   string
	PlaceID  string // empty: the site's air, or no place that has a name
}

// ErrSheet says that the sheet of probes cannot be used.
var ErrSheet = errors.New("the sheet of probes cannot be used")

// The columns of the sheet; the first two are needed.
const (
	columnName     = "name"
	columnQuantity = "quantity"
	columnAt       = "at"
	columnUnit     = "unit"
)

// Read reads a sheet (CSV with a header) of names as probes send them: name,
// quantity ("water_temperature"), at (a vessel or bed; may be empty), unit
// ("mg/L as N"; empty: as the probe says). Errors name the line.
func Read(in io.Reader, desk words.Desk) (map[string]Probe, error) {
	reader := csv.NewReader(in)
	reader.TrimLeadingSpace = true
	header, err := reader.Read()
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrSheet, err)
	}
	columns := map[string]int{}
	for i, title := range header {
		title = strings.ToLower(strings.TrimSpace(title))
		if !slices.Contains([]string{columnName, columnQuantity, columnAt, columnUnit}, title) {
			return nil, fmt.Errorf("%w: the column %q is none of name, quantity, at, unit", ErrSheet, title)
		}
		columns[title] = i
	}
	if _, named := columns[columnName]; !named || len(columns) != len(header) {
		return nil, fmt.Errorf("%w: its first line names the columns name, quantity, at, unit, each once", ErrSheet)
	}
	known := map[string]Probe{}
	for line := 2; ; line++ {
		row, err := reader.Read()
		if errors.Is(err, io.EOF) {
			return known, nil
		}
		if err != nil {
			return nil, fmt.Errorf("%w: %w", ErrSheet, err)
		}
		cell := func(column string) string {
			if i, there := columns[column]; there {
				return strings.TrimSpace(row[i])
			}
			return ""
		}
		probe, err := read(cell, desk)
		if err == nil && (cell(columnName) == "" || known[cell(columnName)] != Probe{}) {
			err = errors.New("each name stands there once")
		}
		if err != nil {
			return nil, fmt.Errorf("%w: line %d: %w", ErrSheet, line, err)
		}
		known[cell(columnName)] = probe
	}
}

func read(cell func(string) string, desk words.Desk) (p Probe, err error) {
	if p.Quantity, err = words.FindQuantity(cell(columnQuantity)); err != nil {
		return p, err
	}
	if p.Kit.Unit, p.Kit.Basis, err = quantity.ParseUnit(cell(columnUnit)); err != nil {
		return p, err
	}
	p.SiteID = desk.SiteID
	if at := cell(columnAt); at != "" {
		place, err := desk.Book.Find(desk.SiteID, at, "vessel", "bed")
		if err != nil {
			return p, err
		}
		p.SiteID, p.PlaceID = place.SiteID, place.ID
	}
	if p.SiteID == "" {
		return p, errors.New("which site is meant? name the place, or give --site")
	}
	return p, nil
}
