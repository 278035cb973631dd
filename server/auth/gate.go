package auth

import (
	"context"
	"errors"

	"github.com/google/uuid"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
)

// Why a call is refused before any service sees it.
var (
	ErrNoToken  = errors.New("the call carries no token that this server knows")
	ErrRevoked  = errors.New("the device's token was ended")
	ErrRole     = errors.New("the caller's role does not allow the call")
	ErrNotYours = errors.New("it is another member's and not shared this far")
	ErrMissing  = errors.New("it must be given")
	ErrBadID    = errors.New("it is not an id")
	ErrUnknown  = errors.New("there is none with this id")
)

// A FieldError says which field of the request a refusal is about.
type FieldError struct {
	Field string // "site_id"
	Err   error  // one of the errors above
}

// Error reads as one sentence.
func (e *FieldError) Error() string { return e.Field + ": " + e.Err.Error() }

// Unwrap returns the reason.
func (e *FieldError) Unwrap() error { return e.Err }

// A Gate lets calls in by the policy. Its functions ask the database; each
// answers anew at every call, so that a device ended or a site closed is so at
// once.
type Gate struct {
	// Find returns who a token belongs to, by its hash; ErrNoToken, ErrRevoked.
	Find func(ctx context.Context, tokenHash []byte) (Caller, error)
	// SiteOf returns the site of a "site", "system" or "trial"; the nil id where
	// it is the cooperative's; ErrUnknown.
	SiteOf func(ctx context.Context, noun string, id uuid.UUID) (uuid.UUID, error)
	// Open reports whether a site's records are open to all members.
	Open func(ctx context.Context, site uuid.UUID) (bool, error)
	// OwnerOf returns the member whose device it is; ErrUnknown.
	OwnerOf func(ctx context.Context, device uuid.UUID) (uuid.UUID, error)
	// OpenReflection lets reflection in without a token.
	OpenReflection bool
}

// identify finds out who calls and whether their role may make this call.
func (g *Gate) identify(ctx context.Context, method string) (context.Context, error) {
	row, ok := Policy(method)
	if !ok {
		return nil, ErrRole
	}
	if row.Anyone || g.OpenReflection && reflection[method] {
		return ctx, nil
	}
	hash, ok := tokenHash(ctx)
	if !ok {
		return nil, ErrNoToken
	}
	caller, err := g.Find(ctx, hash)
	if err != nil {
		return nil, err
	}
	if !caller.Is(row.Roles...) {
		return nil, ErrRole
	}
	return WithCaller(ctx, caller), nil
}

// permit checks what the request names against what its row needs.
func (g *Gate) permit(ctx context.Context, method string, request proto.Message) error {
	row, ok := Policy(method)
	if !ok {
		return ErrRole
	}
	if row.Needs == NothingNamed {
		return nil
	}
	id, err := named(request, row)
	if err != nil || id == uuid.Nil {
		return err
	}
	caller, ok := CallerFrom(ctx)
	if !ok {
		return ErrNoToken
	}
	if row.Needs == OwnDevice {
		return g.permitDevice(ctx, caller, row, id)
	}
	return g.permitSite(ctx, caller, row, id)
}

// named reads the id that the row's field holds; the nil id where it may be
// empty and is.
func named(request proto.Message, row Row) (uuid.UUID, error) {
	message := request.ProtoReflect()
	field := message.Descriptor().Fields().ByName(protoreflect.Name(row.Field))
	text := message.Get(field).String()
	if text == "" {
		if row.Optional {
			return uuid.Nil, nil
		}
		return uuid.Nil, &FieldError{row.Field, ErrMissing}
	}
	id, err := uuid.Parse(text)
	if err != nil || id == uuid.Nil {
		return uuid.Nil, &FieldError{row.Field, ErrBadID}
	}
	return id, nil
}

func (g *Gate) permitDevice(ctx context.Context, caller Caller, row Row, device uuid.UUID) error {
	owner, err := g.OwnerOf(ctx, device)
	if err != nil {
		return aboutField(row.Field, err)
	}
	if owner != caller.MemberID && !caller.Is(stewards...) {
		return &FieldError{row.Field, ErrNotYours}
	}
	return nil
}

func (g *Gate) permitSite(ctx context.Context, caller Caller, row Row, id uuid.UUID) error {
	site, err := g.SiteOf(ctx, row.Noun, id)
	if err != nil {
		return aboutField(row.Field, err)
	}
	ok := false
	switch row.Needs {
	case ReadsSite:
		if ok = site == uuid.Nil || caller.At(site); !ok {
			ok, err = g.Open(ctx, site)
		}
	case OwnSite:
		ok = caller.At(site)
	case KeepsSite:
		ok = caller.Keeps(site)
	}
	if err == nil && !ok {
		err = &FieldError{row.Field, ErrNotYours}
	}
	return err
}

func aboutField(field string, err error) error {
	if errors.Is(err, ErrUnknown) {
		return &FieldError{field, ErrUnknown}
	}
	return err
}
