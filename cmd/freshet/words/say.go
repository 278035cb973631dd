package words

import (
	"strconv"
	"strings"

	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/husbandry/quantity"
)

// Say tells an event on one line: "pH 7.2, Fish tank".
func (b *Book) Say(e *freshetv1.Event) string {
	if r := e.GetReading(); r != nil {
		return b.sayReading(r)
	}
	if c := e.GetCorrection(); c != nil {
		return b.sayCorrection(c)
	}
	body := device.EventBody(e)
	if body == nil {
		return "an entry of a later release"
	}
	said := b.sayFields(body)
	return strings.TrimSuffix(strings.ReplaceAll(device.EventKind(e), "_", " ")+": "+said, ": ")
}

func (b *Book) sayReading(r *freshetv1.Reading) string {
	s := Known(r.GetQuantity()).Title() + " " + Value(r)
	if r.GetPlaceId() != "" {
		s += ", " + b.Name(r.GetPlaceId())
	}
	if r.GetMethod() != 0 {
		s += ", by " + EnumWord(r.GetMethod().Descriptor(), r.GetMethod().Number())
	}
	return s
}

func (b *Book) sayCorrection(c *freshetv1.Correction) string {
	s := "entry " + number(c.GetEventId())
	if c.GetReplacement() == nil {
		s += " is void"
	} else {
		s += " should be: " + b.Say(c.GetReplacement())
	}
	if c.GetWords() != "" {
		s += ", because " + c.GetWords()
	}
	return s
}

func (b *Book) sayFields(m protoreflect.Message) string {
	var parts []string
	for i := range m.Descriptor().Fields().Len() {
		field := m.Descriptor().Fields().Get(i)
		if m.Has(field) {
			parts = append(parts, b.Field(m, field))
		}
	}
	return strings.Join(parts, ", ")
}

// Field tells one field of a message: "850 g", "to Big perch", "count 3".
func (b *Book) Field(m protoreflect.Message, field protoreflect.FieldDescriptor) string {
	value := b.FieldValue(m, field)
	name := string(field.Name())
	s, hasUnit := suffixOf(name)
	switch {
	case field.Kind() == protoreflect.EnumKind && saysLittle[value]:
		return strings.ReplaceAll(stem(name), "_", " ") + " " + value
	case limitsOf(field).GetRefersTo() != "", field.Kind() == protoreflect.EnumKind, name == "text", name == "words":
		return value
	case name == "mass_g", name == "volume_l", name == "volume_ml", name == "energy_kwh", name == "minutes", name == "crop", name == "species":
		return value
	case hasUnit:
		return strings.ReplaceAll(strings.TrimSuffix(name, s.end), "_", " ") + " " + value
	}
	return strings.ReplaceAll(stem(name), "_", " ") + " " + value
}

// saysLittle are words of a choice that mean nothing without its name.
var saysLittle = map[string]bool{"none": true, "other": true, "unknown": true, "partial": true}

// FieldValue writes a field's value as people read it, with its unit.
func (b *Book) FieldValue(m protoreflect.Message, field protoreflect.FieldDescriptor) string {
	if field.IsList() {
		list := m.Get(field).List()
		parts := make([]string, list.Len())
		for i := range parts {
			parts[i] = b.single(field, list.Get(i))
		}
		return strings.Join(parts, ", ")
	}
	return b.single(field, m.Get(field))
}

func (b *Book) single(field protoreflect.FieldDescriptor, v protoreflect.Value) string {
	name := string(field.Name())
	switch field.Kind() {
	case protoreflect.StringKind:
		if limitsOf(field).GetRefersTo() != "" || strings.HasSuffix(name, "_id") || strings.HasSuffix(name, "_ids") {
			return b.Name(v.String())
		}
		if l := limitsOf(field).GetOneOf(); l == "species" || l == "crop" {
			return strings.ReplaceAll(v.String(), "_", " ")
		}
		return v.String()
	case protoreflect.EnumKind:
		return strings.ReplaceAll(EnumWord(field.Enum(), v.Enum()), "_", " ")
	case protoreflect.BoolKind:
		if v.Bool() {
			return "yes"
		}
		return "no"
	case protoreflect.DoubleKind:
		return withUnit(name, v.Float())
	case protoreflect.MessageKind:
		return b.sayMessage(v.Message())
	case protoreflect.BytesKind:
		return strconv.Itoa(len(v.Bytes())) + " bytes"
	}
	if strings.Contains(name, "_minor") {
		return strconv.FormatFloat(float64(v.Int())/100, 'f', 2, 64)
	}
	return v.String()
}

func (b *Book) sayMessage(m protoreflect.Message) string {
	if t, ok := m.Interface().(*timestamppb.Timestamp); ok {
		return t.AsTime().Format("2006-01-02 15:04 UTC")
	}
	return b.sayFields(m)
}

// figure writes a number with at most six digits that mean something.
func figure(v float64) string {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 6, 64), 64)
	if err != nil {
		return plain(v)
	}
	return plain(rounded)
}

// withUnit writes a number with the unit that its field's name tells; grams
// and litres that are many become kilograms and cubic metres.
func withUnit(name string, v float64) string {
	s, ok := suffixOf(name)
	if !ok {
		if name == "minutes" {
			return plain(v) + " min"
		}
		return plain(v)
	}
	switch {
	case s.end == "_g" && v >= 1000:
		return quantity.Show(v/1000, 3) + " kg"
	case s.unit != quantity.NoUnit:
		return Degrees(figure(v) + " " + s.unit.String())
	}
	spelt, _, _ := strings.Cut(s.spelt, " ")
	if spelt == "%" || spelt == "°" {
		return figure(v) + spelt
	}
	return strings.TrimSpace(figure(v) + " " + spelt)
}
