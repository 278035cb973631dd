package server

import (
	"compress/gzip"
	"errors"
	"io"
	"strings"

	"connectrpc.com/connect"
	"connectrpc.com/vanguard"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	freshetv1 "freshet.example/api/freshet/v1"
)

// readJSON says that JSON which cannot be read is the caller's mistake; the
// transcoder by itself takes it for the server's.
type readJSON struct{ *vanguard.JSONCodec }

// Unmarshal reads a message.
func (c readJSON) Unmarshal(data []byte, message proto.Message) error {
	if len(data) > maxJSONBytes {
		return mistake(freshetv1.ErrorReason_ERROR_REASON_TOO_LARGE, meanings[freshetv1.ErrorReason_ERROR_REASON_TOO_LARGE].words)
	}
	return callersMistake(c.JSONCodec.Unmarshal(data, message))
}

// UnmarshalField reads one field.
func (c readJSON) UnmarshalField(data []byte, message proto.Message, field protoreflect.FieldDescriptor) error {
	return callersMistake(c.JSONCodec.UnmarshalField(data, message, field))
}

// writeProto does the same for what comes in a path: text that is not UTF-8 is
// noticed only when the request is written for the gRPC server.
type writeProto struct{ *vanguard.ProtoCodec }

// MarshalAppend writes a message.
func (c writeProto) MarshalAppend(base []byte, message proto.Message) ([]byte, error) {
	out, err := c.ProtoCodec.MarshalAppend(base, message)
	return out, callersMistake(err)
}

func callersMistake(err error) error {
	if err == nil {
		return nil
	}
	return mistake(freshetv1.ErrorReason_ERROR_REASON_MALFORMED, "the request cannot be read: "+strings.ToValidUTF8(err.Error(), "?"))
}

// mistake is the transcoder's error with a reason of the contract.
func mistake(reason freshetv1.ErrorReason, words string) error {
	e := connect.NewError(connect.CodeInvalidArgument, errors.New(words))
	detail, failed := connect.NewErrorDetail(&errdetails.ErrorInfo{Reason: reasonName(reason), Domain: errorDomain, Metadata: map[string]string{"hint": meanings[reason].hint}})
	if failed == nil {
		e.AddDetail(detail)
	}
	return e
}

func newPacker() connect.Compressor { return gzip.NewWriter(io.Discard) }

func newUnpacker() connect.Decompressor { return &unpacker{} }

// An unpacker stops where a request would grow larger than one may be; the
// transcoder bounds only what comes over the wire, a thousandth of it.
type unpacker struct {
	gzip.Reader
	left int
}

// Reset begins another request.
func (u *unpacker) Reset(from io.Reader) error {
	u.left = maxJSONBytes
	return callersMistake(u.Reader.Reset(from))
}

// Read unpacks.
func (u *unpacker) Read(p []byte) (int, error) {
	if u.left <= 0 {
		return 0, mistake(freshetv1.ErrorReason_ERROR_REASON_TOO_LARGE, "the request is too large once it is unpacked")
	}
	n, err := u.Reader.Read(p[:min(len(p), u.left)])
	u.left -= n
	if err != nil && !errors.Is(err, io.EOF) {
		err = callersMistake(err)
	}
	return n, err
}
