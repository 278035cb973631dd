package sheet

import (
	"errors"
	"slices"
	"strings"
	"time"

	"google.golang.org/protobuf/reflect/protoreflect"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/cmd/freshet/words"
)

// Wishes are what a person says about a sheet beforehand.
type Wishes struct {
	Map   map[string]string // header: what it is; "skip", "when", a quantity, a noun, a field; "@place" may follow
	Unit  map[string]string // header or quantity: unit, perhaps with basis
	Basis map[string]string // header or quantity: basis
	Kind  string            // kind of entry that the sheet holds; "wide"; empty: guessed
	At    string            // place, vessel or cohort of all rows that name none
	Dates string            // order of day and month
	Zone  string            // time zone of its times; empty: the site's
}

// A Plan says how a sheet is read.
type Plan struct {
	File    string
	Columns []Column
	Kind    string // "wide", "reading" for long sheets, or a noun
	At      string
	Order   string
	zone    *time.Location
	kits    map[freshetv1.Quantity]words.Kit // long sheets
	// toldBefore are units and bases of a long sheet's cells, as read.
	toldBefore map[string]words.Kit
	desk       words.Desk
}

// NewPlan guesses how a sheet is to be read, following what is wished. What it
// could not find out is asked by Missing.
func NewPlan(file string, wishes Wishes, desk words.Desk) (*Plan, error) {
	header, err := Header(file)
	if err != nil {
		return nil, err
	}
	p := &Plan{File: file, At: wishes.At, Order: wishes.Dates, zone: desk.Now.Location(), kits: map[freshetv1.Quantity]words.Kit{}, toldBefore: map[string]words.Kit{}, desk: desk}
	if wishes.Zone != "" {
		if p.zone, err = time.LoadLocation(wishes.Zone); err != nil {
			return nil, problem(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_NAME, "\""+wishes.Zone+"\" is no time zone", "write it like UTC or Europe/Rome")
		}
	}
	for _, h := range header {
		p.Columns = append(p.Columns, guess(h))
	}
	for _, name := range sortedKeys(wishes.Map) {
		if err := p.wish(name, wishes.Map[name]); err != nil {
			return nil, err
		}
	}
	if err := p.decideKind(wishes.Kind); err != nil {
		return nil, err
	}
	if err := p.wishKits(wishes); err != nil {
		return nil, err
	}
	p.settleClock()
	if !p.has(When) {
		if err := p.findWhen(); err != nil {
			return nil, err
		}
	}
	return p, p.complete()
}

// column finds a column by its header, by its everyday part or by its number.
func (p *Plan) column(name string) (*Column, error) {
	for i := range p.Columns {
		head, _ := parted(p.Columns[i].Header)
		if strings.EqualFold(p.Columns[i].Header, name) || strings.EqualFold(strings.TrimSpace(head), name) {
			return &p.Columns[i], nil
		}
	}
	headers := make([]string, len(p.Columns))
	for i, c := range p.Columns {
		headers[i] = "\"" + c.Header + "\""
	}
	return nil, problem(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_NAME, "the sheet has no column \""+name+"\"", "it has "+strings.Join(headers, ", "))
}

// wish gives a column the meaning that a person wishes.
func (p *Plan) wish(name, meaning string) error {
	c, err := p.column(name)
	if err != nil {
		return err
	}
	meaning, at, _ := strings.Cut(meaning, "@")
	meaning = strings.TrimSpace(meaning)
	kit := c.Kit
	if _, spec := parted(c.Header); kit == (words.Kit{}) {
		kit, _ = kitOf(spec)
	}
	*c = Column{Header: c.Header, At: strings.TrimSpace(at), wished: true}
	snake := words.Snake(meaning)
	if role, ok := everyday[snake]; ok {
		c.Role = role
		return nil
	}
	if snake == "skip" {
		return nil
	}
	if q, ok := words.QuantityCalled(meaning); ok {
		c.Role, c.Quantity, c.Kit = Measured, q, kit
		return nil
	}
	if noun, err := words.FindNoun(meaning); err == nil && noun.Name == snake && noun.Name != "reading" {
		c.Role, c.Noun, c.Kit = Counted, noun.Name, kit
		return nil
	}
	c.Role, c.Name, c.Kit = Field, snake, kit // of the sheet's kind; checked when the kind is known
	return nil
}

// decideKind finds out what the rows are.
func (p *Plan) decideKind(wished string) error {
	switch words.Snake(wished) {
	case "":
		p.Kind = "wide"
		if p.has(What) && p.has(Value) {
			p.Kind = "reading"
		}
	case "wide", "reading":
		p.Kind = words.Snake(wished)
	default:
		noun, err := words.FindNoun(wished)
		if err != nil {
			return err
		}
		p.Kind = noun.Name
		return p.fields(noun.Name)
	}
	return nil
}

// fields lets each column be the field of the kind that its header names.
func (p *Plan) fields(kind string) error {
	_, body := device.NewEvent(kind)
	for i := range p.Columns {
		c := &p.Columns[i]
		if c.Role == When || c.Role == Clock || c.Role == Field || c.wished && c.Role == Skipped {
			continue
		}
		name, spec := parted(c.Header)
		field, ok := fieldCalled(body, name)
		kit, _ := kitOf(spec)
		if at, unit, found := strings.Cut(name, " "); !ok && found { // "mass g", "volume (L)"
			field, ok = fieldCalled(body, at)
			kit, _ = kitOf(strings.TrimSpace(unit))
		}
		*c = Column{Header: c.Header}
		if ok {
			c.Role, c.Name, c.Kit = Field, field, kit
		}
	}
	return nil
}

// typedFor are everyday headers of fields of whole rows, by what they are typed as.
var typedFor = map[string]string{
	"fish": "cohort", "sampled": "sample_count", "sample_size": "sample_count", "number": "sample_count", "count": "sample_count", "n": "sample_count",
	"mean_weight": "each", "average_weight": "each", "avg_weight": "each", "mean_mass": "each", "average_mass": "each",
	"total_weight": "mass_g", "weight": "mass_g", "sd": "sd_g",
}

// fieldCalled finds a field by its own name, or by an everyday one.
func fieldCalled(body protoreflect.Message, name string) (string, bool) {
	if field, ok := words.FieldCalled(body, name); ok {
		return field, true
	}
	typed := typedFor[words.Snake(inEnglish(name))]
	if typed == "each" {
		return typed, body.Descriptor().Fields().ByName("mass_g") != nil
	}
	return words.FieldCalled(body, typed)
}

func (p *Plan) has(role Role) bool {
	return slices.ContainsFunc(p.Columns, func(c Column) bool { return c.Role == role })
}

// settleClock lets a lone column of times be the day and time.
func (p *Plan) settleClock() {
	if p.has(When) {
		return
	}
	for i := range p.Columns {
		if p.Columns[i].Role == Clock {
			p.Columns[i].Role = When
			return
		}
	}
}

// findWhen takes the first column without a meaning whose cells all read as
// days: its header may be in any language.
func (p *Plan) findWhen() error {
	const looked = 50
	cells := make([][]string, len(p.Columns))
	enough := errors.New("enough")
	err := Each(p.File, len(p.Columns), func(r Row, bad *Bad) error {
		for i := range p.Columns {
			if bad == nil && !empty(r.Cells[i]) {
				cells[i] = append(cells[i], strings.Clone(r.Cells[i]))
			}
		}
		if len(cells[0]) >= looked {
			return enough
		}
		return nil
	})
	if err != nil && !errors.Is(err, enough) {
		return err
	}
	for i := range p.Columns {
		if p.Columns[i].Role == Skipped && allDays(cells[i], p.zone) {
			p.Columns[i].Role = When
			return nil
		}
	}
	return nil
}

func allDays(cells []string, zone *time.Location) bool {
	for order := range dayLayouts {
		c := calendar{order: order, zone: zone}
		if len(cells) > 0 && !slices.ContainsFunc(cells, func(text string) bool { return !c.isDay(text) }) {
			return true
		}
	}
	return false
}

// complete refuses a plan that can give no entries.
func (p *Plan) complete() error {
	if !p.has(When) {
		return problem(freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING, "no column tells when", "say which does: --map \"COLUMN=when\"")
	}
	if p.Kind == "reading" && (!p.has(What) || !p.has(Value)) {
		return problem(freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING, "no columns tell what was measured and its value",
			"say which do: --map \"COLUMN=quantity\" --map \"COLUMN=value\"; or --kind wide")
	}
	if p.Kind == "wide" && !p.has(Measured) && !p.has(Counted) {
		return problem(freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING, "no column could be understood",
			"say what they are: --map \"COLUMN=ph\"; or what the rows are: --kind feeding")
	}
	return nil
}

func sortedKeys(m map[string]string) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}
