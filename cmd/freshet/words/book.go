package words

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"github.com/google/uuid"
	"google.golang.org/protobuf/reflect/protoreflect"

	"freshet.example/api/wire"
	"freshet.example/clients/device"
)

// Book is the records of a device, by the names people call them.
type Book struct {
	records []device.Record
	byID    map[string]device.Record
	ended   map[string]bool
}

// NewBook makes a book of records. Ended are the ids of plantings that were
// pulled: a name means one of them only where no other has it.
func NewBook(records []device.Record, ended map[string]bool) *Book {
	b := &Book{records: records, byID: map[string]device.Record{}, ended: ended}
	for _, r := range records {
		b.byID[r.ID] = r
	}
	return b
}

// ByID gives a record; false where there is none.
func (b *Book) ByID(id string) (device.Record, bool) { r, ok := b.byID[id]; return r, ok }

// Of lists the records of the given kinds, of one site where siteID is given,
// by name.
func (b *Book) Of(siteID string, kinds ...string) []device.Record {
	var list []device.Record
	for _, r := range b.records {
		if slices.Contains(kinds, r.Kind) && (siteID == "" || r.SiteID == "" || r.SiteID == siteID) {
			list = append(list, r)
		}
	}
	slices.SortStableFunc(list, func(x, y device.Record) int { return strings.Compare(b.Label(x), b.Label(y)) })
	return list
}

// Label is what people call a record: its name, the crop with its variety and
// bed, the trial's question.
func (b *Book) Label(r device.Record) string {
	switch r.Kind {
	case "planting":
		label := strings.TrimSpace(text(r.Message, "crop") + " " + text(r.Message, "variety"))
		if bed, ok := b.byID[text(r.Message, "bed_id")]; ok {
			label += " in " + b.Label(bed)
		}
		return label
	case "species", "crop":
		return text(r.Message, protoreflect.Name(r.Kind))
	case "trial":
		return text(r.Message, "question")
	case "member":
		return text(r.Message, "display_name")
	}
	if name := text(r.Message, "name"); name != "" {
		return name
	}
	return r.Kind + " " + b.Short(r)
}

// Name is the label of a record by its id; a short id where it is not here.
func (b *Book) Name(id string) string {
	if r, ok := b.byID[id]; ok {
		return b.Label(r)
	}
	return "#" + number(id)
}

// number is the running number in an id; the id itself where it has none.
func number(id string) string {
	parsed, err := uuid.Parse(id)
	if err != nil {
		return id
	}
	_, n, ok := wire.Split(parsed)
	if !ok {
		return id
	}
	return strconv.FormatUint(n, 10)
}

func text(m protoreflect.Message, name protoreflect.Name) string {
	field := m.Descriptor().Fields().ByName(name)
	if field == nil || field.Kind() != protoreflect.StringKind || field.IsList() {
		return ""
	}
	return m.Get(field).String()
}

// Find finds the one record of the given kinds that a text names: by its whole
// name, its id, the beginning of its name, or words of it. Of several equally
// good ones none is taken: the Problem lists them.
func (b *Book) Find(siteID, text string, kinds ...string) (device.Record, error) {
	candidates := b.Of(siteID, kinds...)
	standing := where(candidates, func(r device.Record) bool { return !b.ended[r.ID] })
	if r, err := b.find(text, standing); err == nil || len(standing) == len(candidates) || !none(err) {
		return r, b.orUnknown(err, text, kinds, candidates)
	}
	r, err := b.find(text, candidates)
	return r, b.orUnknown(err, text, kinds, candidates)
}

// errNone says that no record fits.
var errNone = errors.New("no record fits")

func none(err error) bool { return errors.Is(err, errNone) }

func (b *Book) orUnknown(err error, text string, kinds []string, candidates []device.Record) error {
	if none(err) {
		return b.unknown(text, kinds, candidates)
	}
	return err
}

func (b *Book) find(text string, candidates []device.Record) (device.Record, error) {
	for _, fits := range []func(device.Record) bool{
		func(r device.Record) bool { return strings.EqualFold(b.Label(r), text) || r.ID == text },
		func(r device.Record) bool { return strings.EqualFold(b.Short(r), text) },
		func(r device.Record) bool { return begins(b.Label(r), text) },
		func(r device.Record) bool { return holds(b.Label(r), text) },
	} {
		found := where(candidates, fits)
		if len(found) == 1 {
			return found[0], nil
		}
		if len(found) > 1 {
			return device.Record{}, b.ambiguous(text, found)
		}
	}
	return device.Record{}, errNone
}

// Ended tells whether a planting was pulled.
func (b *Book) Ended(r device.Record) bool { return b.ended[r.ID] }

// Short is how a record can be named where names do not tell it apart: "#12".
func (b *Book) Short(r device.Record) string { return "#" + number(r.ID) }

func where(records []device.Record, fits func(device.Record) bool) []device.Record {
	var found []device.Record
	for _, r := range records {
		if fits(r) {
			found = append(found, r)
		}
	}
	return found
}

func begins(label, text string) bool {
	return text != "" && strings.HasPrefix(strings.ToLower(label), strings.ToLower(text))
}

// holds tells whether each word of text stands in the label.
func holds(label, text string) bool {
	label = strings.ToLower(label)
	words := strings.Fields(strings.ToLower(text))
	for _, w := range words {
		if w != "in" && !strings.Contains(label, w) {
			return false
		}
	}
	return len(words) > 0
}

func (b *Book) ambiguous(text string, found []device.Record) error {
	choices := make([]string, len(found))
	for i, r := range found {
		choices[i] = "\"" + b.Label(r) + "\" (" + r.Kind + " " + b.Short(r) + b.atSite(r) + ")"
	}
	return problem("", unknownOne, "\""+text+"\" could be "+some(choices), "give the whole name, or the # sign with its number")
}

// atSite tells records of several sites apart.
func (b *Book) atSite(r device.Record) string {
	if site, ok := b.byID[r.SiteID]; ok && r.Kind != "site" {
		return " at " + b.Label(site)
	}
	return ""
}

func (b *Book) unknown(text string, kinds []string, candidates []device.Record) error {
	said := strings.ReplaceAll(strings.Join(kinds, " or "), "_", " ")
	if len(candidates) == 0 {
		return problem("", unknownOne, "there is no "+said+" yet to be \""+text+"\"",
			"make one: freshet set "+kinds[0]+" \""+text+"\"; freshet sync fetches what was made elsewhere")
	}
	names := make([]string, len(candidates))
	for i, r := range candidates {
		names[i] = "\"" + b.Label(r) + "\""
	}
	return problem("", unknownOne, "no "+said+" is called \""+text+"\"", "there is "+some(names))
}
