package sheet

import (
	"strings"

	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/cmd/freshet/words"
	"freshet.example/husbandry/quantity"
)

// A Reader turns rows into events. It remembers names it has looked up: a
// sheet says the same few thousands of times.
type Reader struct {
	plan       *Plan
	calendar   calendar
	quantities map[string]found[freshetv1.Quantity]
	places     map[string]found[device.Record]
}

type found[T any] struct {
	it  T
	err error
}

// Reader begins to read rows by the plan.
func (p *Plan) Reader() *Reader {
	return &Reader{
		plan:       p,
		calendar:   calendar{order: p.Order, zone: p.zone, now: p.desk.Now},
		quantities: map[string]found[freshetv1.Quantity]{},
		places:     map[string]found[device.Record]{},
	}
}

// Events turns a row into its events, or says why it cannot be read. A row
// with a bad cell is bad as a whole.
func (r *Reader) Events(row Row) ([]*freshetv1.Event, *Bad) {
	day, clock := r.plan.cell(row, When), r.plan.cell(row, Clock)
	at, err := r.calendar.moment(day, clock)
	if err != nil {
		return nil, badRow(row.Line, r.plan.headerOf(When), strings.TrimSpace(day+" "+clock), err)
	}
	when := timestamppb.New(at)
	switch r.plan.Kind {
	case "wide":
		return r.wide(row, when)
	case "reading":
		return r.long(row, when)
	}
	return r.whole(row, when)
}

func (r *Reader) long(row Row, when *timestamppb.Timestamp) ([]*freshetv1.Event, *Bad) {
	what := r.plan.cell(row, What)
	q, err := r.quantity(what)
	if err != nil {
		return nil, badRow(row.Line, r.plan.headerOf(What), what, err)
	}
	value := r.plan.cell(row, Value)
	if empty(value) {
		return nil, badRow(row.Line, r.plan.headerOf(Value), value, problem(freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING,
			"the value is missing", "fill it in, or take the row out"))
	}
	reading, err := words.Reading(q, value, r.plan.kitFor(row, q))
	if err != nil {
		return nil, badRow(row.Line, r.plan.headerOf(Value), value, err)
	}
	return r.placed(row, when, reading, "")
}

// placed puts a reading where it was taken.
func (r *Reader) placed(row Row, when *timestamppb.Timestamp, reading *freshetv1.Reading, own string) ([]*freshetv1.Event, *Bad) {
	site := r.plan.desk.SiteID
	if name := r.placeName(row, own); name != "" {
		place, err := r.place(name, "vessel", "bed")
		if err != nil {
			return nil, badRow(row.Line, r.plan.headerOf(Place), name, err)
		}
		reading.PlaceId, site = place.ID, place.SiteID
	}
	if site == "" {
		return nil, badRow(row.Line, "", "", problem(freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING, "the site is not told", "say which with --site"))
	}
	return []*freshetv1.Event{{SiteId: site, OccurredAt: when, Kind: &freshetv1.Event_Reading{Reading: reading}}}, nil
}

func (r *Reader) placeName(row Row, own string) string {
	if own != "" {
		return own
	}
	if name := strings.TrimSpace(r.plan.cell(row, Place)); name != "" {
		return name
	}
	return r.plan.At
}

func (r *Reader) wide(row Row, when *timestamppb.Timestamp) (events []*freshetv1.Event, bad *Bad) {
	for i, c := range r.plan.Columns {
		if c.Role != Measured && c.Role != Counted || empty(row.Cells[i]) {
			continue
		}
		var more []*freshetv1.Event
		if c.Role == Measured {
			reading, err := words.Reading(c.Quantity, row.Cells[i], c.Kit)
			if err != nil {
				return nil, badRow(row.Line, c.Header, row.Cells[i], err)
			}
			more, bad = r.placed(row, when, reading, c.At)
		} else {
			more, bad = r.counted(row, when, c, row.Cells[i])
		}
		if bad != nil {
			return nil, bad
		}
		events = append(events, more...)
	}
	return events, nil
}

// counted reads a cell of another noun: "feed 850" in g.
func (r *Reader) counted(row Row, when *timestamppb.Timestamp, c Column, cell string) ([]*freshetv1.Event, *Bad) {
	text := withUnit(cell, c.Kit.Unit)
	if text == "0" && c.Noun == "death" {
		return nil, nil // nobody died: nothing happened
	}
	typed := words.Typed{Words: []string{text}}
	if at := r.placeName(row, c.At); at != "" && c.Noun != "labour" && c.Noun != "expense" && c.Noun != "energy" {
		typed.Pairs = append(typed.Pairs, [2]string{"at", at})
	}
	return r.typed(row, when, c.Noun, c.Header, typed)
}

// withUnit writes a unit behind a bare number.
func withUnit(cell string, unit quantity.Unit) string {
	cell = strings.TrimSpace(cell)
	if m, err := quantity.ParseMeasure(cell); err == nil && m.Unit == quantity.NoUnit && unit != quantity.NoUnit {
		return cell + " " + unit.String()
	}
	return cell
}

// whole reads a row that is one entry of the sheet's kind.
func (r *Reader) whole(row Row, when *timestamppb.Timestamp) ([]*freshetv1.Event, *Bad) {
	typed := words.Typed{}
	for i, c := range r.plan.Columns {
		if c.Role == Field && !empty(row.Cells[i]) {
			typed.Pairs = append(typed.Pairs, [2]string{c.Name, withUnit(row.Cells[i], c.Kit.Unit)})
		}
	}
	if r.plan.At != "" {
		typed.Pairs = append(typed.Pairs, [2]string{"at", r.plan.At})
	}
	return r.typed(row, when, r.plan.Kind, "", typed)
}

func (r *Reader) typed(row Row, when *timestamppb.Timestamp, kind, header string, typed words.Typed) ([]*freshetv1.Event, *Bad) {
	noun, err := words.FindNoun(kind)
	if err != nil {
		return nil, badRow(row.Line, header, "", err)
	}
	e, err := r.plan.desk.Event(noun, typed)
	if err != nil {
		return nil, r.badField(row, header, typed, err)
	}
	e.OccurredAt = when
	return []*freshetv1.Event{e}, nil
}

// badField finds the column of the field that a problem is about.
func (r *Reader) badField(row Row, header string, typed words.Typed, err error) *Bad {
	b := badRow(row.Line, header, strings.Join(typed.Words, " "), err)
	field := words.FieldOf(err)
	for i, c := range r.plan.Columns {
		if header == "" && c.Role == Field && c.Name == field {
			b.Column, b.Value = c.Header, clipped(row.Cells[i])
		}
	}
	if header == "" && b.Column == "" && b.Reason == "FIELD_MISSING" {
		name := strings.ReplaceAll(strings.TrimSuffix(field, "_id"), "_", " ")
		b.Words, b.Hint = name+" must be given", "say which column tells it: --map \"COLUMN="+name+"\"; or --at for all rows, where it is a place or fish"
	}
	return b
}

func (r *Reader) quantity(text string) (freshetv1.Quantity, error) {
	f, ok := r.quantities[text]
	if !ok {
		f.it, f.err = words.FindQuantity(text)
		r.quantities[text] = f
	}
	return f.it, f.err
}

func (r *Reader) place(name string, kinds ...string) (device.Record, error) {
	f, ok := r.places[name]
	if !ok {
		f.it, f.err = r.plan.desk.Book.Find(r.plan.desk.SiteID, name, kinds...)
		r.places[name] = f
	}
	return f.it, f.err
}

// cell is the row's cell of a role; empty where no column has it.
func (p *Plan) cell(row Row, role Role) string {
	for i, c := range p.Columns {
		if c.Role == role {
			return row.Cells[i]
		}
	}
	return ""
}

func (p *Plan) headerOf(role Role) string {
	for _, c := range p.Columns {
		if c.Role == role {
			return c.Header
		}
	}
	return ""
}

// kitFor is what a long sheet's row says its value is in.
func (p *Plan) kitFor(row Row, q freshetv1.Quantity) words.Kit {
	kit := p.kits[q]
	if text := p.cell(row, UnitOf); text != "" {
		kit = joined(kit, p.told(text))
	}
	if text := p.cell(row, BasisOf); text != "" {
		kit = joined(kit, p.told("as "+text))
	}
	return kit
}

// told reads a unit or a basis; what is neither tells nothing, and the reading
// is then refused for want of it. Answers are remembered: a sheet repeats them.
func (p *Plan) told(text string) words.Kit {
	kit, ok := p.toldBefore[text]
	if !ok {
		kit, _ = kitOf(strings.TrimSpace(text))
		p.toldBefore[text] = kit
	}
	return kit
}
