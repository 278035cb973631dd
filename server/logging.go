package server

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"log/slog"
	"runtime/debug"
	"strings"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5/pgconn"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
)

const requestIDHeader = "x-request-id"

// errPanic stands for a panic that was survived; the log has its stack.
var errPanic = errors.New("the call panicked")

// ended logs how a call went and returns what the caller gets. A line of the
// log holds no name, token, code or position: what people enter is theirs.
func (s *Server) ended(ctx context.Context, c *call, panicked any, err error) error {
	if panicked != nil {
		err = errPanic
		s.log.LogAttrs(ctx, slog.LevelError, "panic", slog.String("request_id", c.id), slog.String("kind", fmt.Sprintf("%T", panicked)),
			slog.String("stack", string(debug.Stack())))
	}
	answer := status.New(codes.OK, "")
	if err != nil {
		answer = statusOf(err, c.id)
	}
	s.log.LogAttrs(ctx, levelOf(c.method, answer.Code()), "call", c.attributes(answer, err)...)
	return answer.Err()
}

func (c *call) attributes(answer *status.Status, err error) []slog.Attr {
	attributes := []slog.Attr{
		slog.String("method", strings.TrimPrefix(c.method, "/")),
		slog.String("code", answer.Code().String()),
		slog.Float64("ms", float64(time.Since(c.began).Microseconds())/1000),
		slog.String("request_id", c.id),
	}
	if c.device != "" {
		attributes = append(attributes, slog.String("device", c.device))
	}
	if reason := reasonOf(answer); reason != "" {
		attributes = append(attributes, slog.String("reason", reason))
	}
	if answer.Code() == codes.Internal || answer.Code() == codes.Unavailable {
		attributes = append(attributes, slog.String("error", unnamed(err)))
	}
	return attributes
}

func levelOf(method string, code codes.Code) slog.Level {
	switch {
	case code == codes.Internal:
		return slog.LevelError
	case code == codes.Unavailable:
		return slog.LevelWarn
	case strings.HasPrefix(method, "/grpc.health."):
		return slog.LevelDebug
	}
	return slog.LevelInfo
}

func reasonOf(answer *status.Status) string {
	for _, detail := range answer.Details() {
		if info, ok := detail.(*errdetails.ErrorInfo); ok {
			return info.GetReason()
		}
	}
	return ""
}

// unnamed describes what broke without the values that the database quotes in
// its messages.
func unnamed(err error) string {
	if answer, ok := errors.AsType[*pgconn.PgError](err); ok {
		return strings.TrimSpace("database: SQLSTATE " + answer.Code + " " + answer.TableName + " " + answer.ConstraintName)
	}
	return err.Error()
}

// shortHash tells devices apart in a log without naming them.
func shortHash(device uuid.UUID) string {
	sum := sha256.Sum256(device[:])
	return hex.EncodeToString(sum[:4])
}
