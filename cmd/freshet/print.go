package main

import (
	"encoding/json"
	"io"

	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"
)

// printJSON writes any plain value as indented JSON.
func printJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

// protoJSON is a message by the contract's own names.
func protoJSON(m proto.Message) (json.RawMessage, error) {
	return protojson.MarshalOptions{UseProtoNames: true, EmitUnpopulated: false}.Marshal(m)
}

// printMessage writes a message of the contract as JSON, by the contract's names.
func printMessage(w io.Writer, m proto.Message) error {
	raw, err := protoJSON(m)
	if err != nil {
		return err
	}
	return printJSON(w, raw)
}
