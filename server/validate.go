package server

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/google/uuid"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/crop"
	"freshet.example/husbandry/fish"
)

// paragraph is from how many allowed characters on a text may have lines.
const paragraph = 300

// usualLength is the most characters of a text whose limits name none.
const usualLength = 200

// A referee tells whether a record may be referred to: that it exists in the
// scope, or is made by the same push, and is of the noun ("place" is a vessel
// or a bed).
type referee func(noun string, id uuid.UUID) bool

// limitsOf is a field's limits in the contract; empty limits where it has none.
func limitsOf(field protoreflect.FieldDescriptor) *freshetv1.Limits {
	if kept, ok := limitsRead.Load(field); ok {
		return kept.(*freshetv1.Limits)
	}
	limits, ok := proto.GetExtension(field.Options(), freshetv1.E_Limits).(*freshetv1.Limits)
	if !ok || limits == nil {
		limits = &freshetv1.Limits{}
	}
	limitsRead.Store(field, limits)
	return limits
}

// limitsRead keeps limits by field: reading an option takes longer than all
// else that is done with a field.
var limitsRead sync.Map

// validate holds a message to the contract's limits and gives the first fault,
// with its path. With names it looks at those fields only, as an edit does.
func validate(path string, m protoreflect.Message, refers referee, names []string) *refusal {
	fields := m.Descriptor().Fields()
	for i := range fields.Len() {
		field := fields.Get(i)
		if names != nil && !slices.Contains(names, string(field.Name())) {
			continue
		}
		if fault := validateField(join(path, string(field.Name())), field, m, refers); fault != nil {
			return fault
		}
	}
	return nil
}

func join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

func validateField(path string, field protoreflect.FieldDescriptor, m protoreflect.Message, refers referee) *refusal {
	limits := limitsOf(field)
	if !m.Has(field) {
		if limits.GetRequired() && mustShow(field) {
			return fault(freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING, path, "")
		}
		if !field.HasPresence() && !field.IsList() {
			return validateValue(path, field, limits, m.Get(field), refers)
		}
		return nil
	}
	if !field.IsList() {
		return validateValue(path, field, limits, m.Get(field), refers)
	}
	list := m.Get(field).List()
	if most := int(limits.GetLongest()); most > 0 && list.Len() > most {
		return fault(freshetv1.ErrorReason_ERROR_REASON_TOO_LONG, path, fmt.Sprintf("it has %d entries, more than %d", list.Len(), most))
	}
	for i := range list.Len() {
		if f := validateValue(fmt.Sprintf("%s[%d]", path, i), field, &freshetv1.Limits{
			RefersTo: limits.GetRefersTo(), OneOf: limits.GetOneOf(), Date: limits.GetDate(),
		}, list.Get(i), refers); f != nil {
			return f
		}
	}
	return nil
}

// mustShow says whether an empty field is a missing one: a number may be 0.
func mustShow(field protoreflect.FieldDescriptor) bool {
	switch field.Kind() {
	case protoreflect.StringKind, protoreflect.BytesKind, protoreflect.EnumKind, protoreflect.MessageKind:
		return true
	}
	return false
}

func validateValue(path string, field protoreflect.FieldDescriptor, limits *freshetv1.Limits, value protoreflect.Value, refers referee) *refusal {
	switch field.Kind() {
	case protoreflect.StringKind:
		return validateText(path, limits, value.String(), refers)
	case protoreflect.BytesKind:
		if most := int(limits.GetLongest()); most > 0 && len(value.Bytes()) > most {
			return fault(freshetv1.ErrorReason_ERROR_REASON_TOO_LONG, path, "")
		}
	case protoreflect.DoubleKind:
		return validateNumber(path, limits, value.Float())
	case protoreflect.Uint32Kind, protoreflect.Uint64Kind:
		return validateNumber(path, limits, float64(value.Uint()))
	case protoreflect.Int64Kind, protoreflect.Sint64Kind, protoreflect.Int32Kind, protoreflect.Sint32Kind:
		return validateNumber(path, limits, float64(value.Int()))
	case protoreflect.EnumKind:
		if field.Enum().Values().ByNumber(value.Enum()) == nil {
			return fault(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_VALUE, path, "")
		}
	case protoreflect.MessageKind:
		if field.Message().FullName() == "google.protobuf.Timestamp" {
			return validateMoment(path, value.Message())
		}
		return validate(path, value.Message(), refers, nil)
	}
	return nil
}

func validateNumber(path string, limits *freshetv1.Limits, v float64) *refusal {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return fault(freshetv1.ErrorReason_ERROR_REASON_OUT_OF_RANGE, path, "it is not a number")
	}
	if (limits.GetLow() != 0 || limits.GetHigh() != 0) && (v < limits.GetLow() || v > limits.GetHigh()) {
		return fault(freshetv1.ErrorReason_ERROR_REASON_OUT_OF_RANGE, path, fmt.Sprintf("%g is outside %g to %g", v, limits.GetLow(), limits.GetHigh()))
	}
	return nil
}

// validateText looks at length first: what is too long is not looked at further.
func validateText(path string, limits *freshetv1.Limits, text string, refers referee) *refusal {
	most := int(limits.GetLongest())
	if most == 0 {
		most = usualLength
	}
	if len(text) > 4*most || utf8.RuneCountInString(text) > most {
		return fault(freshetv1.ErrorReason_ERROR_REASON_TOO_LONG, path, fmt.Sprintf("it is longer than %d characters", most))
	}
	if !utf8.ValidString(text) || strings.ContainsFunc(text, forbidden) || most < paragraph && strings.ContainsAny(text, "\n\t") {
		return fault(freshetv1.ErrorReason_ERROR_REASON_BAD_TEXT, path, "")
	}
	if limits.GetRequired() && strings.TrimSpace(text) == "" {
		return fault(freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING, path, "")
	}
	if text == "" {
		return nil
	}
	if limits.GetDate() {
		return validateDate(path, text)
	}
	if limits.GetRefersTo() != "" {
		return validateReference(path, limits.GetRefersTo(), text, refers)
	}
	if known, ok := tables[limits.GetOneOf()]; ok && !known(text) {
		return fault(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_NAME, path, fmt.Sprintf("%q is not a %s", text, strings.ReplaceAll(limits.GetOneOf(), "_", " ")))
	}
	return nil
}

// forbidden are control characters but for those that lay out a note, and the
// marks that turn the direction of what follows them.
func forbidden(r rune) bool {
	return unicode.IsControl(r) && r != '\n' && r != '\t' || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069
}

func validateReference(path, noun, text string, refers referee) *refusal {
	id, ok := readID(text)
	if !ok {
		return fault(freshetv1.ErrorReason_ERROR_REASON_BAD_ID, path, "")
	}
	if !refers(noun, id) {
		return fault(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_RECORD, path, fmt.Sprintf("there is no %s with this id here", noun))
	}
	return nil
}

// readID reads an id in the one form in which ids travel: everybody compares
// them as texts.
func readID(text string) (uuid.UUID, bool) {
	id, err := uuid.Parse(text)
	return id, err == nil && id != uuid.Nil && id.String() == text
}

func validateDate(path, text string) *refusal {
	d, err := time.Parse(time.DateOnly, text)
	if err != nil || d.Year() < 1900 || d.Year() > 2200 {
		return fault(freshetv1.ErrorReason_ERROR_REASON_BAD_DATE, path, "")
	}
	return nil
}

func validateMoment(path string, m protoreflect.Message) *refusal {
	seconds := m.Get(m.Descriptor().Fields().ByName("seconds")).Int()
	nanos := m.Get(m.Descriptor().Fields().ByName("nanos")).Int()
	t := time.Unix(seconds, 0).UTC()
	if t.Year() < 1900 || t.Year() > 2200 || nanos < 0 || nanos > 999_999_999 {
		return fault(freshetv1.ErrorReason_ERROR_REASON_BAD_DATE, path, "")
	}
	return nil
}

func fault(reason freshetv1.ErrorReason, field, words string) *refusal {
	return &refusal{reason: reason, field: field, words: words}
}

// tables are the lists of names that a field may be held to.
var tables = map[string]func(string) bool{
	"species":   func(s string) bool { _, err := fish.SpeciesByName(strings.ReplaceAll(s, "_", " ")); return err == nil },
	"crop":      func(s string) bool { _, err := crop.Find(s); return err == nil },
	"time_zone": func(s string) bool { _, err := time.LoadLocation(s); return err == nil && s != "Local" },
	"locale":    func(s string) bool { return len(s) >= 2 && len(s) <= 35 && !strings.ContainsFunc(s, notTag) },
	"currency":  func(s string) bool { return len(s) == 3 && strings.ToUpper(s) == s && !strings.ContainsFunc(s, notTag) },
	"month_day": func(s string) bool { _, err := time.Parse("01-02", s); return err == nil },
}

func notTag(r rune) bool {
	return (r < 'a' || r > 'z') && (r < 'A' || r > 'Z') && (r < '0' || r > '9') && r != '-'
}
