package words

import (
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
)

// Desk is what typed words are read against: the records at hand, the site
// that is meant where none is named, and the time it is there.
type Desk struct {
	Book   *Book
	SiteID string
	Now    time.Time // in the site's time zone
}

// limitsOf are the contract's limits of a field; never nil.
func limitsOf(field protoreflect.FieldDescriptor) *freshetv1.Limits {
	l, ok := proto.GetExtension(field.Options(), freshetv1.E_Limits).(*freshetv1.Limits)
	if !ok || l == nil {
		return &freshetv1.Limits{}
	}
	return l
}

// Set reads text into the field of a message that name means, which may be the
// contract's name or a shorter one ("mass" for mass_g), and gives the
// contract's name of the field that was set.
func (d Desk) Set(m protoreflect.Message, name, text string) (protoreflect.Name, error) {
	field, whole, err := d.fieldNamed(m, name, text)
	if err != nil {
		return "", err
	}
	if err := d.fill(m, field, text, whole); err != nil {
		return "", inField(name, err)
	}
	return field.Name(), nil
}

// inField says in which field a problem is.
func inField(name string, err error) error {
	if p, ok := err.(*Problem); ok && p.Field == "" { //nolint:errorlint // only a bare Problem takes the name
		p.Field = name
	}
	return err
}

// fill reads text into a field. Whole says that the name in use tells the unit,
// so that a bare number will do.
func (d Desk) fill(m protoreflect.Message, field protoreflect.FieldDescriptor, text string, whole bool) error {
	if field.IsList() {
		return d.fillList(m, field, text)
	}
	v, err := d.value(field, text, whole)
	if err != nil {
		return err
	}
	m.Set(field, v)
	return nil
}

func (d Desk) value(field protoreflect.FieldDescriptor, text string, whole bool) (protoreflect.Value, error) {
	switch field.Kind() {
	case protoreflect.EnumKind:
		n, err := enumNumber(field.Enum(), text)
		return protoreflect.ValueOfEnum(n), err
	case protoreflect.BoolKind:
		yes, err := yesOrNo(text)
		return protoreflect.ValueOfBool(yes), err
	case protoreflect.StringKind:
		s, err := d.word(field, text)
		return protoreflect.ValueOfString(s), err
	case protoreflect.DoubleKind:
		v, err := decimal(field, text, whole)
		return protoreflect.ValueOfFloat64(v), err
	case protoreflect.MessageKind:
		return d.message(field, text)
	}
	return wholeNumber(field, text)
}

// message reads the one kind of message that a single field can be: a moment.
func (d Desk) message(field protoreflect.FieldDescriptor, text string) (protoreflect.Value, error) {
	if field.Message().FullName() != "google.protobuf.Timestamp" {
		return protoreflect.Value{}, problem("", malformed, "cannot be written on one line", "use another field")
	}
	t, err := When(text, d.Now)
	if err != nil {
		return protoreflect.Value{}, err
	}
	return protoreflect.ValueOfMessage(timestamppb.New(t).ProtoReflect()), nil
}

func enumNumber(enum protoreflect.EnumDescriptor, text string) (protoreflect.EnumNumber, error) {
	want := Snake(text)
	var begun []protoreflect.EnumNumber
	for i := 1; i < enum.Values().Len(); i++ {
		v := enum.Values().Get(i)
		short := EnumWord(enum, v.Number())
		if short == want {
			return v.Number(), nil
		}
		if want != "" && strings.HasPrefix(short, want) {
			begun = append(begun, v.Number())
		}
	}
	if len(begun) == 1 {
		return begun[0], nil
	}
	return 0, problem("", unknownValue, "\""+text+"\" is none of the words it can be", "one of "+strings.Join(EnumWords(enum), ", "))
}

// EnumWords lists the words of an enum as people type them.
func EnumWords(enum protoreflect.EnumDescriptor) []string {
	var list []string
	for i := 1; i < enum.Values().Len(); i++ {
		list = append(list, EnumWord(enum, enum.Values().Get(i).Number()))
	}
	return list
}

// EnumWord is one of them: FILTER_CLEANED of UpkeepKind is "filter_cleaned".
func EnumWord(enum protoreflect.EnumDescriptor, n protoreflect.EnumNumber) string {
	v := enum.Values().ByNumber(n)
	if v == nil {
		return strconv.Itoa(int(n))
	}
	zero := string(enum.Values().ByNumber(0).Name())
	return strings.ToLower(strings.TrimPrefix(string(v.Name()), strings.TrimSuffix(zero, "UNSPECIFIED")))
}

func yesOrNo(text string) (bool, error) {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "yes", "y", "true", "1", "on":
		return true, nil
	case "no", "n", "false", "0", "off":
		return false, nil
	}
	return false, problem("", unknownValue, "\""+text+"\" is neither yes nor no", "write yes or no")
}

// word reads a text field: a name of a record, a day, a name of a table, or
// just words.
func (d Desk) word(field protoreflect.FieldDescriptor, text string) (string, error) {
	l := limitsOf(field)
	text = strings.TrimSpace(text)
	switch {
	case field.Name() == "about_id" && text != "":
		r, err := d.Book.Find(d.SiteID, text, device.RecordKinds()...)
		return r.ID, err
	case l.GetRefersTo() != "" && text != "":
		r, err := d.Book.Find(d.SiteID, text, kindsReferred(l.GetRefersTo())...)
		return r.ID, err
	case l.GetDate() && text != "":
		return Date(text, d.Now)
	case l.GetOneOf() != "" && text != "":
		return nameInTable(l.GetOneOf(), text)
	}
	return text, checkText(l, text)
}

// kindsReferred are the kinds of records a field may name.
func kindsReferred(to string) []string {
	if to == "place" {
		return []string{"vessel", "bed"}
	}
	return []string{to}
}

// checkText keeps to the contract's limits of a text.
func checkText(l *freshetv1.Limits, text string) error {
	longest := 200
	if l.GetLongest() > 0 {
		longest = int(l.GetLongest())
	}
	if !utf8.ValidString(text) || strings.ContainsFunc(text, func(r rune) bool { return unicode.IsControl(r) && r != '\n' && r != '\t' }) {
		return problem("", badText, "holds signs that are no text", "type it anew; files should be in UTF-8")
	}
	if n := utf8.RuneCountInString(text); n > longest {
		return problem("", tooLong, "is "+strconv.Itoa(n)+" characters long", "at most "+strconv.Itoa(longest))
	}
	return nil
}
