package server

import (
	"fmt"

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
	} else if c.CodecV2.Unmarshal(data, l.message) != nil {
		l.wrong = refuse(freshetv1.ErrorReason_ERROR_REASON_MALFORMED, "", "the message cannot be read", "")
	}
	return nil
}
