package words

import (
	"math"
	"slices"
	"strings"

	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/types/known/fieldmaskpb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
)

// Own are the ids of the records that belong to whoever types.
type Own struct{ MemberID, CooperativeID string }

// FindKind finds a kind of record by its name, its plural, or the beginning of
// a name that no other shares.
func FindKind(text string) (string, error) {
	want := Snake(text)
	var begun []string
	for _, k := range device.RecordKinds() {
		if k == want || plural(k) == want || k == "remedy" && want == "remedies" {
			return k, nil
		}
		if want != "" && strings.HasPrefix(k, want) {
			begun = append(begun, k)
		}
	}
	if len(begun) == 1 {
		return begun[0], nil
	}
	hint := "one of " + strings.Join(device.RecordKinds(), ", ")
	if kind, ok := kindsCalled[want]; ok {
		hint = "it is kept under " + kind + ": freshet set " + kind
	}
	return "", problem("", unknownName, "\""+text+"\" is no kind of record", hint)
}

// kindsCalled are everyday words for kinds of records. They are told, not taken,
// so that a record has one name wherever it is read.
var kindsCalled = map[string]string{
	"tank": "vessel", "tub": "vessel", "filter": "vessel", "sump": "vessel", "pond": "vessel", "loop": "system", "place": "site", "greenhouse": "site",
	"pump": "equipment", "heater": "equipment", "probe": "equipment", "kit": "equipment", "fish": "cohort", "batch": "cohort", "plant": "planting",
}

// shared kinds are the co-op's, or a site's where it overrides them.
var shared = []string{"feed", "species", "crop", "remedy"}

// Edit reads a line into an edit: the first plain words are the record's name.
// Made tells that the record is new. ForAll makes a shared kind the co-op's.
func (d Desk) Edit(noun string, t Typed, forAll bool, own Own) (e *freshetv1.Edit, made bool, err error) {
	kind, err := FindKind(noun)
	if err != nil {
		return nil, false, err
	}
	name := strings.Join(t.Words, " ")
	e, body := device.NewEdit(kind)
	found := d.meant(e, kind, name, own)
	fields, err := d.typed(kind, body, name, t, found)
	if err != nil {
		return nil, false, err
	}
	roundPosition(e.GetSite())
	e.Fields = &fieldmaskpb.FieldMask{Paths: uniq(fields)}
	if len(fields) == 0 {
		return nil, false, problem(kind, missing, "\""+name+"\" is there already, and no field was given", "add field=value; it has "+some(FieldNames(body.Descriptor())))
	}
	if found {
		return e, false, nil
	}
	if err := required(body); err != nil {
		return nil, false, err
	}
	return e, true, d.place(e, kind, body, forAll)
}

// meant puts the record into the edit that is there already, or that can only
// be one: one's own settings, the co-op's.
func (d Desk) meant(e *freshetv1.Edit, kind, name string, own Own) (found bool) {
	before, found := d.exactly(kind, name, own)
	if found {
		e.RecordId, e.SiteId = before.ID, before.SiteID
	}
	if e.RecordId == "" {
		e.RecordId = map[string]string{"member": own.MemberID, "cooperative": own.CooperativeID}[kind]
	}
	return found
}

// typed sets what the line says, and names the fields it set.
func (d Desk) typed(kind string, body protoreflect.Message, name string, t Typed, found bool) (fields []string, err error) {
	if !found || kind == "member" || kind == "cooperative" {
		if fields, err = d.named(kind, body, name); err != nil {
			return nil, err
		}
	}
	for _, p := range t.Pairs {
		set, err := d.setOrClear(body, p[0], p[1])
		if err != nil {
			return nil, err
		}
		fields = append(fields, string(set))
	}
	if !found {
		fields = append(fields, d.only(body)...)
	}
	return fields, nil
}

// place says which site a new record belongs to.
func (d Desk) place(e *freshetv1.Edit, kind string, body protoreflect.Message, forAll bool) (err error) {
	if kind == "site" || kind == "member" || kind == "cooperative" || forAll && slices.Contains(shared, kind) {
		return nil
	}
	e.SiteId, err = d.siteFor(body)
	return err
}

// exactly finds the record that is meant by a whole name; half a name would
// change the wrong one.
func (d Desk) exactly(kind, name string, own Own) (device.Record, bool) {
	for _, r := range d.Book.Of(d.SiteID, kind) {
		switch {
		case kind == "member" && r.ID == own.MemberID, kind == "cooperative":
			return r, true
		case strings.EqualFold(d.Book.Label(r), name) && !d.Book.Ended(r), d.Book.Short(r) == name, r.ID == name:
			return r, true
		case kind == "crop" || kind == "species":
			if inTable, err := nameInTable(kind, name); err == nil && inTable == d.Book.Label(r) {
				return r, true
			}
		}
	}
	return device.Record{}, false
}

// named puts a new record's name into the fields that hold it.
func (d Desk) named(kind string, body protoreflect.Message, name string) ([]string, error) {
	switch kind {
	case "planting":
		return d.plantingNamed(body, name)
	case "crop", "species":
		set, err := d.Set(body, kind, name)
		return []string{string(set)}, err
	case "trial":
		set, err := d.Set(body, "question", name)
		return []string{string(set)}, err
	case "member":
		set, err := d.Set(body, "display_name", name)
		return []string{string(set)}, err
	}
	set, err := d.Set(body, "name", name)
	return []string{string(set)}, err
}

// plantingNamed reads "tomato Roma in Bed 2": crop, variety, bed.
func (d Desk) plantingNamed(body protoreflect.Message, name string) ([]string, error) {
	var fields []string
	name, bed, hasBed := strings.Cut(name, " in ")
	if hasBed {
		if _, err := d.Set(body, "bed_id", bed); err != nil {
			return nil, err
		}
		fields = append(fields, "bed_id")
	}
	words := strings.Fields(name)
	for n := len(words); n > 0; n-- {
		crop, err := nameInTable("crop", strings.Join(words[:n], " "))
		if err != nil && n > 1 {
			continue
		}
		if err != nil {
			return nil, inField("crop", err)
		}
		body.Set(body.Descriptor().Fields().ByName("crop"), protoreflect.ValueOfString(crop))
		fields = append(fields, "crop")
		if n < len(words) {
			body.Set(body.Descriptor().Fields().ByName("variety"), protoreflect.ValueOfString(strings.Join(words[n:], " ")))
			fields = append(fields, "variety")
		}
		return fields, nil
	}
	return nil, problem("planting", missing, "needs its crop", "write it like planting \"lettuce in Raft 1\"")
}

// setOrClear sets a field; an empty value takes it back.
func (d Desk) setOrClear(m protoreflect.Message, name, text string) (protoreflect.Name, error) {
	if text != "" {
		return d.Set(m, name, text)
	}
	field, _, err := d.fieldNamed(m, name, text)
	if err != nil {
		return "", err
	}
	return field.Name(), nil
}

func uniq(list []string) []string {
	slices.Sort(list)
	return slices.Compact(list)
}

// Fields tells what a record holds, without what its label says already.
func (b *Book) Fields(r device.Record) string {
	told := map[protoreflect.Name]bool{"name": true, "question": r.Kind == "trial", "display_name": true}
	if r.Kind == "planting" {
		told["crop"], told["variety"], told["bed_id"] = true, true, true
	}
	if r.Kind == "species" || r.Kind == "crop" {
		told[protoreflect.Name(r.Kind)] = true
	}
	var parts []string
	for i := range r.Message.Descriptor().Fields().Len() {
		field := r.Message.Descriptor().Fields().Get(i)
		if r.Message.Has(field) && !told[field.Name()] {
			parts = append(parts, b.Field(r.Message, field))
		}
	}
	if len(parts) == 0 {
		return "nothing more is known of it"
	}
	return strings.Join(parts, ", ")
}

// roundPosition keeps a site's place coarse, before it leaves the device.
func roundPosition(s *freshetv1.Site) {
	if s != nil {
		s.LatitudeDegrees = math.Round(s.GetLatitudeDegrees()*10) / 10
		s.LongitudeDegrees = math.Round(s.GetLongitudeDegrees()*10) / 10
	}
}
