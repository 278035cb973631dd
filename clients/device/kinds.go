package device

import (
	"google.golang.org/protobuf/reflect/protoreflect"

	freshetv1 "freshet.example/api/freshet/v1"
)

var (
	eventOneof  = (&freshetv1.Event{}).ProtoReflect().Descriptor().Oneofs().ByName("kind")
	recordOneof = (&freshetv1.Edit{}).ProtoReflect().Descriptor().Oneofs().ByName("record")
)

// EventKinds lists the kinds of events by their names in the contract, in its
// order: "reading", "feeding".
func EventKinds() []string { return names(eventOneof) }

// RecordKinds lists the kinds of records by their names in the contract, in
// its order: "cooperative", "member", "site".
func RecordKinds() []string { return names(recordOneof) }

func names(of protoreflect.OneofDescriptor) []string {
	fields := of.Fields()
	list := make([]string, fields.Len())
	for i := range list {
		list[i] = string(fields.Get(i).Name())
	}
	return list
}

// EventKind names the kind of an event; empty where it is of a later release.
func EventKind(e *freshetv1.Event) string { return chosen(e.ProtoReflect(), eventOneof) }

// EventBody is what an event holds: its Reading, its Feeding; nil where it is
// of a later release.
func EventBody(e *freshetv1.Event) protoreflect.Message { return body(e.ProtoReflect(), eventOneof) }

// RecordKind names the kind of record that an edit sets.
func RecordKind(e *freshetv1.Edit) string { return chosen(e.ProtoReflect(), recordOneof) }

// NewEvent makes an empty event of a kind and gives its body to fill; nil where
// there is no such kind.
func NewEvent(kind string) (*freshetv1.Event, protoreflect.Message) {
	e := &freshetv1.Event{}
	return e, fresh(e.ProtoReflect(), eventOneof, kind)
}

// NewEdit makes an empty edit of a record of a kind and gives the record to
// fill; nil where there is no such kind.
func NewEdit(kind string) (*freshetv1.Edit, protoreflect.Message) {
	e := &freshetv1.Edit{}
	return e, fresh(e.ProtoReflect(), recordOneof, kind)
}

func fresh(m protoreflect.Message, of protoreflect.OneofDescriptor, kind string) protoreflect.Message {
	field := of.Fields().ByName(protoreflect.Name(kind))
	if field == nil {
		return nil
	}
	return m.Mutable(field).Message()
}

func chosen(m protoreflect.Message, of protoreflect.OneofDescriptor) string {
	field := m.WhichOneof(of)
	if field == nil {
		return ""
	}
	return string(field.Name())
}

func body(m protoreflect.Message, of protoreflect.OneofDescriptor) protoreflect.Message {
	field := m.WhichOneof(of)
	if field == nil {
		return nil
	}
	return m.Get(field).Message()
}

// kindNumber is the contract's field number of what is chosen; 0 none.
func kindNumber(m protoreflect.Message, of protoreflect.OneofDescriptor) int {
	field := m.WhichOneof(of)
	if field == nil {
		return 0
	}
	return int(field.Number())
}

// Scopes by name, as the server names them.
const (
	scopeCoop   = "coop"
	scopeSite   = "site:"
	scopeHouse  = "house:"
	scopeMember = "member:"
)

// privateKinds go to a site's house scope.
var privateKinds = map[string]bool{"labour": true, "expense": true, "note": true, "photo": true}

// scopeOfEvent is where the server keeps an event. A correction goes where
// what it corrects is: the caller says which kind that was.
func scopeOfEvent(e *freshetv1.Event, corrects string) string {
	kind := EventKind(e)
	if kind == "correction" {
		kind = corrects
	}
	if privateKinds[kind] {
		return scopeHouse + e.GetSiteId()
	}
	return scopeSite + e.GetSiteId()
}

// scopeOfRecord is where the server keeps a record of a kind.
func scopeOfRecord(kind, siteID, member string) string {
	switch {
	case kind == "member":
		return scopeMember + member
	case siteID == "":
		return scopeCoop
	}
	return scopeSite + siteID
}
