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
	mistake := connect.NewError(connect.CodeInvalidArgument, errors.New("the request cannot be read: "+strings.ToValidUTF8(err.Error(), "?")))
	reason := reasonName(freshetv1.ErrorReason_ERROR_REASON_MALFORMED)
	hint := meanings[freshetv1.ErrorReason_ERROR_REASON_MALFORMED].hint
	detail, failed := connect.NewErrorDetail(&errdetails.ErrorInfo{Reason: reason, Domain: errorDomain, Metadata: map[string]string{"hint": hint}})
	if failed == nil {
		mistake.AddDetail(detail)
	}
	return mistake
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
		return 0, connect.NewError(connect.CodeResourceExhausted, tooLarge)
	}
	n, err := u.Reader.Read(p[:min(len(p), u.left)])
	u.left -= n
	if err != nil && !errors.Is(err, io.EOF) {
		err = callersMistake(err)
	}
	return n, err
}
