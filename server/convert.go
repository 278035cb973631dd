package server

import (
	"strings"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5/pgtype"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/types/known/timestamppb"
)

// A message's fields are its table's columns, by name and in order, so one
// converter serves every noun. A field that holds a message of our own becomes
// JSON under the contract's names; the one of a correction that holds an event
// is left out.

// columnNames lists the columns of a message.
func columnNames(m protoreflect.MessageDescriptor) []string {
	fields := m.Fields()
	names := make([]string, 0, fields.Len())
	for i := range fields.Len() {
		names = append(names, string(fields.Get(i).Name()))
	}
	return names
}

// columnValues gives the columns' values. The message was validated.
func columnValues(m protoreflect.Message) []any {
	fields := m.Descriptor().Fields()
	values := make([]any, 0, fields.Len())
	for i := range fields.Len() {
		values = append(values, columnValue(m, fields.Get(i)))
	}
	return values
}

// columnValue is one field as Postgres takes it.
func columnValue(m protoreflect.Message, field protoreflect.FieldDescriptor) any {
	value := m.Get(field)
	if field.IsList() {
		return listValue(field, value.List())
	}
	switch field.Kind() {
	case protoreflect.MessageKind:
		return messageValue(m, field)
	case protoreflect.StringKind:
		return textValue(field, value.String())
	case protoreflect.EnumKind:
		return int16(value.Enum()) // #nosec G115 -- the contract's numbers are small
	case protoreflect.Uint32Kind, protoreflect.Uint64Kind:
		return int64(value.Uint()) // #nosec G115 -- validated against the field's limits
	}
	return value.Interface()
}

// textValue is a text, an id where the field refers to a record, or a date.
// Empty ids and dates are NULL.
func textValue(field protoreflect.FieldDescriptor, text string) any {
	limits := limitsOf(field)
	if limits.GetRefersTo() == "" && !limits.GetDate() {
		return text
	}
	if limits.GetDate() {
		d, err := time.Parse(time.DateOnly, text)
		if err != nil {
			return nil
		}
		return d
	}
	id, err := uuid.Parse(text)
	return pgtype.UUID{Bytes: id, Valid: err == nil}
}

func messageValue(m protoreflect.Message, field protoreflect.FieldDescriptor) any {
	if !m.Has(field) {
		return nil
	}
	inner := m.Get(field).Message()
	if t, ok := inner.Interface().(*timestamppb.Timestamp); ok {
		return t.AsTime()
	}
	return json(inner)
}

func listValue(field protoreflect.FieldDescriptor, list protoreflect.List) any {
	if field.Kind() == protoreflect.MessageKind {
		parts := make([]string, list.Len())
		for i := range parts {
			parts[i] = json(list.Get(i).Message())
		}
		return "[" + strings.Join(parts, ",") + "]"
	}
	if limitsOf(field).GetRefersTo() != "" {
		ids := make([]uuid.UUID, 0, list.Len())
		for i := range list.Len() {
			if id, err := uuid.Parse(list.Get(i).String()); err == nil {
				ids = append(ids, id)
			}
		}
		return ids
	}
	texts := make([]string, list.Len())
	for i := range texts {
		texts[i] = list.Get(i).String()
	}
	return texts
}

// json writes a message under the contract's field names.
func json(m protoreflect.Message) string {
	text, err := protojson.MarshalOptions{UseProtoNames: true}.Marshal(m.Interface())
	if err != nil {
		return "null"
	}
	return string(text)
}
