package analysis

import (
	"context"
	"strings"
	"time"

	"github.com/google/uuid"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/fish"
	"freshet.example/husbandry/quantity"
	"freshet.example/husbandry/water"
	"freshet.example/store"
)

// site is a place with its records.
type site struct {
	*store.Picture
	store *store.Store
	zone  *time.Location
}

// loop is one system of a site.
type loop struct {
	*site
	store.System
}

// loop reads a system by its id as typed, with its site.
func (s *Service) loop(ctx context.Context, systemID string) (*loop, error) {
	id, err := parseID("system_id", systemID)
	if err != nil {
		return nil, err
	}
	siteID, err := s.store.SiteOfSystem(ctx, id)
	if err != nil {
		return nil, err
	}
	place, err := s.site(ctx, siteID)
	if err != nil {
		return nil, err
	}
	for _, system := range place.Systems {
		if system.ID == id {
			return &loop{place, system}, nil
		}
	}
	return nil, store.ErrUnknown
}

// places are where the loop's water is read: its vessels and beds, and readings without a place.
func (l *loop) places() []uuid.UUID {
	list := []uuid.UUID{uuid.Nil}
	for _, v := range l.vessels() {
		list = append(list, v.ID)
	}
	for _, b := range l.loopBeds() {
		list = append(list, b.ID)
	}
	return list
}

func (l *loop) vessels() []store.Vessel {
	var list []store.Vessel
	for _, v := range l.Vessels {
		if v.SystemID == l.ID {
			list = append(list, v)
		}
	}
	return list
}

func (l *loop) loopBeds() []store.Bed {
	var list []store.Bed
	for _, b := range l.Beds {
		if b.SystemID == l.ID {
			list = append(list, b)
		}
	}
	return list
}

func (l *loop) cohorts() []store.Cohort {
	var list []store.Cohort
	for _, c := range l.Cohorts {
		if c.SystemID == l.ID {
			list = append(list, c)
		}
	}
	return list
}

// litres is all water of the loop.
func (l *loop) litres() float64 {
	sum := 0.0
	for _, v := range l.vessels() {
		sum += v.VolumeL
	}
	return sum
}

// tanks are the vessels in which fish live.
func (l *loop) tanks() []store.Vessel {
	var list []store.Vessel
	for _, v := range l.vessels() {
		if v.Kind == int16(freshetv1.VesselKind_VESSEL_KIND_FISH_TANK) {
			list = append(list, v)
		}
	}
	return list
}

// tank is the first of them; its zero where there is none.
func (l *loop) tank() store.Vessel {
	for _, v := range l.tanks() {
		return v
	}
	return store.Vessel{}
}

// tankLitres is the water in which fish live.
func (l *loop) tankLitres() float64 {
	sum := 0.0
	for _, v := range l.tanks() {
		sum += v.VolumeL
	}
	return sum
}

func (s *site) placeName(id uuid.UUID) string {
	for _, v := range s.Vessels {
		if v.ID == id {
			return v.Name
		}
	}
	return s.bed(id).Name
}

func (s *site) bed(id uuid.UUID) store.Bed {
	for _, b := range s.Beds {
		if b.ID == id {
			return b
		}
	}
	return store.Bed{}
}

func (s *site) planting(id uuid.UUID) store.Planting {
	for _, p := range s.Plantings {
		if p.ID == id {
			return p
		}
	}
	return store.Planting{}
}

func (s *site) cohort(id uuid.UUID) store.Cohort {
	for _, c := range s.Cohorts {
		if c.ID == id {
			return c
		}
	}
	return store.Cohort{}
}

// speciesOf looks a fish up in the species table.
func speciesOf(name string) (fish.Species, error) {
	return fish.SpeciesByName(strings.ReplaceAll(name, "_", " "))
}

// pressure is the site's air pressure by its height.
func (s *site) pressure() quantity.Atmospheres {
	p, err := water.PressureAtElevation(quantity.Metres(s.Site.ElevationM))
	if err != nil {
		return 1
	}
	return p
}

// observed is the newest reading of each quantity.
type observed map[freshetv1.Quantity]store.Reading

// observe reads the newest readings at or before a moment.
func (l *loop) observe(ctx context.Context, at time.Time) (observed, error) {
	readings, err := l.store.Latest(ctx, l.Site.ID, l.places(), at)
	seen := observed{}
	for _, r := range readings {
		seen[freshetv1.Quantity(r.Quantity)] = r
	}
	return seen, err
}

// value gives the canonical value of a quantity; ok is false where it was never read.
func (o observed) value(q freshetv1.Quantity) (float64, bool) {
	r, ok := o[q]
	return r.Value(), ok
}

// used makes the input of an answer.
func (l *loop) used(o observed, q freshetv1.Quantity, name, unit string) *freshetv1.InputUsed {
	r := o[q]
	from := l.placeName(r.PlaceID)
	if from == "" {
		from = l.Site.Name
	}
	return input(name, r.Value(), unit, r.OccurredAt, from)
}
