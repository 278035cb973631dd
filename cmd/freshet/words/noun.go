package words

import (
	"strings"

	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/husbandry/quantity"
)

// A Noun is a kind of event as people note it: which fields its plain words
// fill, in their order, and how a line looks. "mass_g|volume_ml" is filled by
// whichever fits the unit typed.
type Noun struct {
	Name    string
	Slots   []string
	Example string
}

// Nouns lists the kinds of events that can be noted, in the order of a day.
var Nouns = []Noun{
	{"reading", nil, `reading ph 7.2 at="Fish tank"`},
	{"feeding", []string{"mass_g"}, `feeding 850g to="Big perch"`},
	{"death", []string{"count", "suspected_cause"}, `death 2 of="Big perch" cause=oxygen`},
	{"weighing", []string{"sample_count", "mass_g"}, `weighing 12 3.4kg of="Big perch"`},
	{"count", []string{"count"}, `count 480 of="Big perch"`},
	{"stocking", []string{"count", "mass_g"}, `stocking 200 4kg into="Big perch"`},
	{"move", []string{"count", "mass_g"}, `move 40 from="Big perch" to="Growing on"`},
	{"fish_harvest", []string{"count", "mass_g"}, `fish-harvest 6 4.8kg of="Big perch"`},
	{"sowing", []string{"seeds_count"}, `sowing 40 of="lettuce in Raft 1"`},
	{"transplanting", []string{"plants_count"}, `transplanting 24 of=lettuce in="Raft 1"`},
	{"bed_harvest", []string{"mass_g", "pieces_count"}, `bed-harvest 1.2kg of="lettuce in Raft 1"`},
	{"pulling", []string{"reason"}, `pulling finished of="lettuce in Raft 1"`},
	{"dosing", []string{"substance", "mass_g|volume_ml"}, `dosing potassium_bicarbonate 40g at="Pump tank"`},
	{"treatment", []string{"substance", "mass_g|volume_ml"}, `treatment potassium_soap 20mL of=tomato against=aphids`},
	{"water_in", []string{"volume_l", "source"}, `water-in 200L rain into="Pump tank"`},
	{"water_out", []string{"volume_l"}, `water-out 50gal from="Fish tank"`},
	{"solids_out", []string{"volume_l"}, `solids-out 20L from=Settler to=compost`},
	{"disposition", []string{"crop|species", "mass_g", "use"}, `disposition tomato 3kg canned pieces_count=6`},
	{"upkeep", []string{"kind"}, `upkeep filter_cleaned on=Settler`},
	{"incident", []string{"kind"}, `incident power_cut when="today 03:10" ended=05:40`},
	{"labour", []string{"minutes", "task"}, `labour 90min pruning`},
	{"energy", []string{"energy_kwh"}, `energy 41kWh`},
	{"expense", []string{"amount_minor", "category"}, `expense 12.50 feed currency=EUR`},
	{"note", []string{"text"}, `note "Leaves pale at the far end"`},
	{"photo", nil, `photo bed.jpg caption="Raft 1 in week three"`},
}

// FindNoun finds a noun by its name, by its plural, or by the beginning of a
// name that no other shares.
func FindNoun(text string) (Noun, error) {
	want := Snake(text)
	var begun []Noun
	for _, n := range Nouns {
		if n.Name == want || plural(n.Name) == want {
			return n, nil
		}
		if want != "" && strings.HasPrefix(n.Name, want) {
			begun = append(begun, n)
		}
	}
	if len(begun) == 1 {
		return begun[0], nil
	}
	return Noun{}, problem("", unknownName, "\""+text+"\" is nothing that can be noted", "one of "+strings.Join(nounNames(), ", "))
}

// Typed is a line as typed: plain words, and name=value pairs in their order.
type Typed struct {
	Words []string
	Pairs [][2]string
	Photo Photo // of a photo only: what its file told
}

// Photo is what a picture's file tells.
type Photo struct {
	SHA256    []byte
	Bytes     uint64
	MediaType string
}

// Split parts arguments into plain words and pairs.
func Split(args []string) Typed {
	var t Typed
	for _, a := range args {
		name, value, found := strings.Cut(a, "=")
		if found && isName(name) {
			t.Pairs = append(t.Pairs, [2]string{name, value})
		} else {
			t.Words = append(t.Words, a)
		}
	}
	return t
}

func isName(text string) bool {
	return text != "" && strings.Trim(strings.ToLower(text), "abcdefghijklmnopqrstuvwxyz0123456789_-") == ""
}

// take removes a pair and gives its value.
func (t *Typed) take(name string) (string, bool) {
	for i, p := range t.Pairs {
		if Snake(p[0]) == name {
			t.Pairs = append(t.Pairs[:i:i], t.Pairs[i+1:]...)
			return p[1], true
		}
	}
	return "", false
}

// Event reads a line into an event of the noun, at its site and time. Errors
// are Problems.
func (d Desk) Event(n Noun, t Typed) (*freshetv1.Event, error) {
	e, body := device.NewEvent(n.Name)
	when, _ := t.take("when")
	at, err := When(when, d.Now)
	if err != nil {
		return nil, inField("when", err)
	}
	e.OccurredAt = timestamppb.New(at)
	if p := e.GetPhoto(); p != nil {
		p.Sha256, p.SizeBytes, p.MediaType = t.Photo.SHA256, t.Photo.Bytes, t.Photo.MediaType
	}
	if n.Name == "reading" {
		if err := d.readingWords(e.GetReading(), &t); err != nil {
			return nil, err
		}
	} else if err := d.slots(n, body, t.Words); err != nil {
		return nil, err
	}
	each, ofEach := t.take("each")
	for _, p := range t.Pairs {
		if _, err := d.Set(body, p[0], p[1]); err != nil {
			return nil, err
		}
	}
	if ofEach {
		if err := d.each(body, each); err != nil {
			return nil, err
		}
	}
	d.only(body)
	if err := required(body); err != nil {
		return nil, err
	}
	e.SiteId, err = d.siteFor(body)
	return e, err
}

// readingWords reads "ammonia <0.25 ppm" and what the kit reads in.
func (d Desk) readingWords(r *freshetv1.Reading, t *Typed) error {
	if len(t.Words) < 2 {
		return problem("reading", missing, "needs what was measured and the value", `write it like reading ph 7.2 or reading ammonia "<0.25 ppm" as=NH3`)
	}
	q, err := FindQuantity(t.Words[0])
	if err != nil {
		return err
	}
	kit := Kit{}
	if as, ok := t.take("as"); ok {
		if kit.Basis, err = quantity.ParseBasis(as); err != nil {
			return inField("as", typing(err))
		}
	}
	if unit, ok := t.take("unit"); ok {
		if kit.Unit, _, err = quantity.ParseUnit(unit); err != nil {
			return inField("unit", typing(err))
		}
	}
	got, err := Reading(q, strings.Join(t.Words[1:], " "), kit)
	if err != nil {
		return inField(QuantityName(q), err)
	}
	r.Quantity, r.Digits, r.Decimals, r.Unit = got.Quantity, got.Digits, got.Decimals, got.Unit
	r.Basis, r.Censoring, r.Method = got.Basis, got.Censoring, got.Method
	return nil
}

// each fills in the weight of all from what one weighs: sheets and scales tell
// either.
func (d Desk) each(body protoreflect.Message, text string) error {
	fields := body.Descriptor().Fields()
	count, mass := fields.ByName("sample_count"), fields.ByName("mass_g")
	if count == nil {
		count = fields.ByName("count")
	}
	if count == nil || mass == nil {
		return problem("each", unknownName, "is not known of "+said(body.Descriptor()), "it has "+strings.Join(FieldNames(body.Descriptor()), ", "))
	}
	if body.Has(mass) {
		return problem("each", malformed, "cannot stand beside the weight of all", "give one of the two")
	}
	one := body.New()
	if err := d.fill(one, mass, text, false); err != nil {
		return inField("each", err)
	}
	all := one.Get(mass).Float() * float64(body.Get(count).Uint())
	body.Set(mass, protoreflect.ValueOfFloat64(all))
	return nil
}

// slots fills the noun's fields with plain words in their order.
func (d Desk) slots(n Noun, body protoreflect.Message, typed []string) error {
	if len(typed) > len(n.Slots) {
		if n.Name == "note" { // words of a note need no quotes
			typed = []string{strings.Join(typed, " ")}
		} else {
			return problem(n.Name, malformed, "\""+typed[len(n.Slots)]+"\" is a word too many", "write it like "+n.Example)
		}
	}
	for i, w := range typed {
		if err := d.slot(n.Slots[i], body, w); err != nil {
			return err
		}
	}
	return nil
}

// slot fills the first field of alternatives that takes the word.
func (d Desk) slot(names string, body protoreflect.Message, word string) error {
	var first error
	for _, name := range strings.Split(names, "|") {
		field := body.Descriptor().Fields().ByName(protoreflect.Name(name))
		err := d.fill(body, field, word, false)
		if err == nil {
			return nil
		}
		if first == nil {
			first = inField(name, err)
		}
	}
	return first
}

// only fills in a record that must be named where the site has just one of its
// kind: there is nothing to ask. The answer says it.
func (d Desk) only(m protoreflect.Message) (filled []string) {
	fields := m.Descriptor().Fields()
	for i := range fields.Len() {
		field := fields.Get(i)
		l := limitsOf(field)
		if !l.GetRequired() || l.GetRefersTo() == "" || m.Has(field) || field.IsList() || field.Name() == "to_cohort_id" {
			continue
		}
		kind := kindsReferred(l.GetRefersTo())
		there := where(d.Book.Of(d.SiteID, kind...), func(r device.Record) bool { return !d.Book.Ended(r) })
		if len(there) == 1 {
			m.Set(field, protoreflect.ValueOfString(there[0].ID))
			filled = append(filled, string(field.Name()))
		}
	}
	return filled
}

// required finds what must be given and is not. A number may be nought.
func required(m protoreflect.Message) error {
	fields := m.Descriptor().Fields()
	for i := range fields.Len() {
		field := fields.Get(i)
		if !limitsOf(field).GetRequired() || m.Has(field) {
			continue
		}
		hint := ""
		switch {
		case field.Kind() == protoreflect.EnumKind:
			hint = "one of " + strings.Join(EnumWords(field.Enum()), ", ")
		case limitsOf(field).GetRefersTo() != "":
			hint = "write " + stem(string(field.Name())) + "=\"...\""
		case field.Kind() == protoreflect.DoubleKind, field.Kind() == protoreflect.Sint64Kind:
			continue
		}
		return problem(string(field.Name()), missing, "must be given", hint)
	}
	return nil
}

// siteFor is the site of the records that a message names, else the desk's.
func (d Desk) siteFor(m protoreflect.Message) (string, error) {
	site := d.SiteID
	m.Range(func(field protoreflect.FieldDescriptor, v protoreflect.Value) bool {
		if limitsOf(field).GetRefersTo() == "" || field.IsList() {
			return true
		}
		if r, ok := d.Book.ByID(v.String()); ok && r.SiteID != "" {
			site = r.SiteID
			return false
		}
		return true
	})
	if site != "" {
		return site, nil
	}
	sites := d.Book.Of("", "site")
	if len(sites) == 1 {
		return sites[0].ID, nil
	}
	if len(sites) == 0 {
		return "", problem("site", missing, "there is no site yet", `make one: freshet set site "My place" time_zone=Europe/Rome`)
	}
	names := make([]string, len(sites))
	for i, s := range sites {
		names[i] = "\"" + d.Book.Label(s) + "\""
	}
	return "", problem("site", missing, "there are several sites", "say which with --site: "+strings.Join(names, ", "))
}

// SlotUnit is a unit that a noun's first plain word may be in; empty where it
// needs none.
func SlotUnit(noun string) string {
	for _, n := range Nouns {
		if n.Name != noun || len(n.Slots) == 0 {
			continue
		}
		if s, ok := suffixOf(n.Slots[0]); ok && s.unit != quantity.NoUnit {
			return s.unit.String()
		}
	}
	return ""
}
