package server

import (
	"fmt"
	"regexp"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/encoding"
	_ "google.golang.org/grpc/encoding/proto" // letterCodec asks for it
	"google.golang.org/grpc/mem"
	"google.golang.org/grpc/status"

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
	} else if err := c.CodecV2.Unmarshal(data, l.message); err != nil {
		l.wrong = unreadable(err)
	}
	return nil
}

// badText finds which field holds text that is not UTF-8, as the library says it.
var badText = regexp.MustCompile(`field freshet\.v1\.([\w.]+) contains invalid UTF-8`)

// unreadable says why a message cannot be read: text that is not UTF-8 by the
// name of its field, anything else without one.
func unreadable(err error) error {
	if m := badText.FindStringSubmatch(err.Error()); m != nil {
		return refuse(freshetv1.ErrorReason_ERROR_REASON_BAD_TEXT, m[1], "it is not UTF-8 text", "")
	}
	return refuse(freshetv1.ErrorReason_ERROR_REASON_MALFORMED, "", "the message cannot be read", "")
}
