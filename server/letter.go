package server

import (
	"fmt"
	"unicode/utf8"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/encoding"
	_ "google.golang.org/grpc/encoding/proto" // letterCodec asks for it
	"google.golang.org/grpc/mem"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/encoding/protowire"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	freshetv1 "freshet.example/api/freshet/v1"
)

// A letter is a message that is being read. What is wrong with it is kept for
// the call to answer: a codec's own error would be answered by grpc.
type letter struct {
	message any
	wrong   error
}

// readLetter reads a message by read, which is grpc's, and says in the
// contract's words why it cannot be read.
func readLetter(read func(any) error, message any) error {
	l := &letter{message: message}
	err := read(l)
	switch {
	case err == nil:
		return l.wrong
	case status.Code(err) == codes.ResourceExhausted:
		return tooLarge
	}
	return err
}

var tooLarge = refuse(freshetv1.ErrorReason_ERROR_REASON_TOO_LARGE, "", fmt.Sprintf("the message is larger than %d MiB", maxRequestBytes>>20), "")

// letterCodec is the proto codec, but for letters.
type letterCodec struct{ encoding.CodecV2 }

func newLetterCodec() letterCodec { return letterCodec{encoding.GetCodecV2("proto")} }

// Unmarshal reads a message, or a letter with one.
func (c letterCodec) Unmarshal(data mem.BufferSlice, into any) error {
	l, ok := into.(*letter)
	if !ok {
		return c.CodecV2.Unmarshal(data, into)
	}
	if data.Len() > maxRequestBytes {
		l.wrong = tooLarge
	} else if c.CodecV2.Unmarshal(data, l.message) != nil {
		l.wrong = unreadable(data.Materialize(), l.message)
	}
	return nil
}

// unreadable says why a message cannot be read: text that is not UTF-8 by the
// path of its field, anything else without one.
func unreadable(data []byte, message any) error {
	if m, ok := message.(proto.Message); ok {
		if path, found := badText(m.ProtoReflect().Descriptor(), data); found {
			return refuse(freshetv1.ErrorReason_ERROR_REASON_BAD_TEXT, path, "it is not UTF-8 text", "")
		}
	}
	return refuse(freshetv1.ErrorReason_ERROR_REASON_MALFORMED, "", "the message cannot be read", "")
}

// badText finds the first text of an encoded message that is not UTF-8. The
// library does not say which one it stumbled on.
func badText(of protoreflect.MessageDescriptor, data []byte) (path string, found bool) {
	seen := map[protowire.Number]int{}
	for len(data) > 0 {
		number, wiretype, tag := protowire.ConsumeTag(data)
		size := protowire.ConsumeFieldValue(number, wiretype, data[max(tag, 0):])
		if tag < 0 || size < 0 {
			return "", false
		}
		field := of.Fields().ByNumber(number)
		if value, length := protowire.ConsumeBytes(data[tag:]); wiretype == protowire.BytesType && length >= 0 && field != nil {
			if path, found := badTextOf(field, seen[number], value); found {
				return path, true
			}
		}
		seen[number]++
		data = data[tag+size:]
	}
	return "", false
}

// badTextOf looks into one value of a field, the nth where it is repeated.
func badTextOf(field protoreflect.FieldDescriptor, nth int, value []byte) (string, bool) {
	name := string(field.Name())
	if field.IsList() {
		name += fmt.Sprintf("[%d]", nth)
	}
	switch {
	case field.Kind() == protoreflect.StringKind:
		return name, !utf8.Valid(value)
	case field.Message() == nil:
		return "", false
	}
	inner, found := badText(field.Message(), value)
	return name + "." + inner, found
}
