package main

import (
	"google.golang.org/protobuf/reflect/protoreflect"

	"freshet.example/clients/device"
)

func fieldName(name string) protoreflect.Name { return protoreflect.Name(name) }

// refers tells whether a record's field holds an id; an empty one, that it
// holds none.
func refers(r device.Record, name, id string) bool {
	field := r.Message.Descriptor().Fields().ByName(fieldName(name))
	return field != nil && r.Message.Get(field).String() == id
}
