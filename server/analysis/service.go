package analysis

import (
	"context"
	"fmt"
	"time"

	"github.com/google/uuid"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/store"
)

// Service is the AnalysisService of the contract.
type Service struct {
	freshetv1.UnimplementedAnalysisServiceServer
	store *store.Store
	now   func() time.Time
}

// New makes the service over a store, by a clock.
func New(s *store.Store, now func() time.Time) *Service { return &Service{store: s, now: now} }

// TooLittleError says what must be recorded before there is an answer.
type TooLittleError struct {
	What string // "no weighing of Autumn tilapia"
	Hint string // "weigh about twenty fish"
}

// Error reads as a sentence.
func (e *TooLittleError) Error() string { return e.What }

// FieldError says that a field of the request cannot be used.
type FieldError struct {
	Field string
	What  string
}

// Error reads as a sentence.
func (e *FieldError) Error() string { return e.Field + ": " + e.What }

// at is the moment asked about: now where none is given.
func (s *Service) at(asked *timestamppb.Timestamp) time.Time {
	if asked == nil {
		return s.now()
	}
	return asked.AsTime()
}

func parseID(field, text string) (uuid.UUID, error) {
	id, err := uuid.Parse(text)
	if err != nil {
		return id, &FieldError{field, "is not an id"}
	}
	return id, nil
}

// days reads an inclusive span of days in a zone: by default so many days that end yesterday.
func (s *Service) days(fromOn, toOn string, zone *time.Location, usual int) (from, to time.Time, err error) {
	today := midnight(s.now(), zone)
	to = today.AddDate(0, 0, -1)
	if toOn != "" {
		if to, err = day("to_on", toOn, zone); err != nil {
			return from, to, err
		}
	}
	from = to.AddDate(0, 0, 1-usual)
	if fromOn != "" {
		if from, err = day("from_on", fromOn, zone); err != nil {
			return from, to, err
		}
	}
	if from.After(to) {
		return from, to, &FieldError{"from_on", "lies after to_on"}
	}
	return from, to, nil
}

func day(field, text string, zone *time.Location) (time.Time, error) {
	t, err := time.ParseInLocation(time.DateOnly, text, zone)
	if err != nil {
		return t, &FieldError{field, fmt.Sprintf("%q is not a day; write it as 2026-05-31", text)}
	}
	return t, nil
}

func midnight(t time.Time, zone *time.Location) time.Time {
	y, m, d := t.In(zone).Date()
	return time.Date(y, m, d, 0, 0, 0, 0, zone)
}

// picture reads a site by its id as typed.
func (s *Service) picture(ctx context.Context, siteID string) (*site, error) {
	id, err := parseID("site_id", siteID)
	if err != nil {
		return nil, err
	}
	return s.site(ctx, id)
}

func (s *Service) site(ctx context.Context, id uuid.UUID) (*site, error) {
	p, err := s.store.Picture(ctx, id)
	if err != nil {
		return nil, err
	}
	zone, err := time.LoadLocation(p.Site.TimeZone)
	if err != nil {
		zone = time.UTC
	}
	return &site{Picture: p, store: s.store, zone: zone}, nil
}
