package store

import (
	"context"
	"errors"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// Picture is all records of one site, as merged, with the cooperative's own.
// Enums are the contract's numbers.
type Picture struct {
	Site      Site
	Systems   []System
	Vessels   []Vessel
	Beds      []Bed
	Equipment []Equipment
	Cohorts   []Cohort
	Plantings []Planting
	Feeds     map[uuid.UUID]Feed
	Species   []SpeciesHere
	Crops     []CropHere
}

// Site is the record "site".
type Site struct {
	ID              uuid.UUID `db:"id"`
	Name            string    `db:"name"`
	Latitude        *float64  `db:"latitude_degrees"`
	Longitude       *float64  `db:"longitude_degrees"`
	ElevationM      float64   `db:"elevation_m"`
	TimeZone        string    `db:"time_zone"`
	LastFrost       string    `db:"last_frost"`
	FirstFrost      string    `db:"first_frost"`
	SourceAlk       *float64  `db:"source_alkalinity_mg_per_l"`
	SourceNitrate   float64   `db:"source_nitrate_mg_per_l"`
	Disinfectant    int16     `db:"source_disinfectant"`
	HouseholdPeople int64     `db:"household_people"`
}

// System is the record "system".
type System struct {
	ID              uuid.UUID `db:"id"`
	Name            string    `db:"name"`
	StartedOn       Moment    `db:"started_on"`
	EndedOn         Moment    `db:"ended_on"`
	Growing         int16     `db:"growing"`
	TemperatureLow  *float64  `db:"target_temperature_low_celsius"`
	TemperatureHigh *float64  `db:"target_temperature_high_celsius"`
	PHLow           *float64  `db:"target_ph_low"`
	PHHigh          *float64  `db:"target_ph_high"`
	OxygenLow       *float64  `db:"target_oxygen_low_mg_per_l"`
	UnionizedHigh   *float64  `db:"target_unionized_ammonia_high_mg_per_l"`
}

// Vessel is the record "vessel".
type Vessel struct {
	ID            uuid.UUID   `db:"id"`
	SystemID      uuid.UUID   `db:"system_id"`
	Name          string      `db:"name"`
	Kind          int16       `db:"kind"`
	VolumeL       float64     `db:"volume_l"`
	SurfaceM2     float64     `db:"surface_m2"`
	Media         string      `db:"media"`
	MediaVolumeL  float64     `db:"media_volume_l"`
	MediaSpecific float64     `db:"media_specific_surface_m2_per_m3"`
	FlowsTo       []uuid.UUID `db:"flows_to"`
	FlowLPerH     float64     `db:"flow_l_per_h"`
}

// Bed is the record "bed".
type Bed struct {
	ID       uuid.UUID `db:"id"`
	Name     string    `db:"name"`
	Kind     int16     `db:"kind"`
	AreaM2   float64   `db:"area_m2"`
	SystemID uuid.UUID `db:"system_id"`
	VesselID uuid.UUID `db:"vessel_id"`
	Covered  bool      `db:"covered"`
}

// Equipment is the record "equipment".
type Equipment struct {
	ID        uuid.UUID `db:"id"`
	Name      string    `db:"name"`
	Kind      int16     `db:"kind"`
	SystemID  uuid.UUID `db:"system_id"`
	VesselID  uuid.UUID `db:"vessel_id"`
	PowerW    float64   `db:"power_w"`
	FlowLPerH float64   `db:"flow_l_per_h"`
	OnBackup  bool      `db:"on_backup"`
}

// Cohort is the record "cohort".
type Cohort struct {
	ID            uuid.UUID `db:"id"`
	Name          string    `db:"name"`
	Species       string    `db:"species"`
	SystemID      uuid.UUID `db:"system_id"`
	VesselID      uuid.UUID `db:"vessel_id"`
	Purpose       int16     `db:"purpose"`
	TargetWeightG float64   `db:"target_weight_g"`
	WantedBy      Moment    `db:"wanted_by"`
}

// Planting is the record "planting".
type Planting struct {
	ID             uuid.UUID `db:"id"`
	Crop           string    `db:"crop"`
	Variety        string    `db:"variety"`
	BedID          uuid.UUID `db:"bed_id"`
	AreaM2         float64   `db:"area_m2"`
	PlantsCount    int64     `db:"plants_count"`
	Method         int16     `db:"method"`
	HandPollinated bool      `db:"hand_pollinated"`
}

// Feed is the record "feed".
type Feed struct {
	ID             uuid.UUID `db:"id"`
	Name           string    `db:"name"`
	ProteinPercent float64   `db:"protein_percent"`
}

// SpeciesHere is the record "species": what differs from the table.
type SpeciesHere struct {
	Species           string  `db:"species"`
	GrowthCoefficient float64 `db:"thermal_growth_coefficient_x1000"`
}

// CropHere is the record "crop": what differs from the table, and what is used.
type CropHere struct {
	Crop          string  `db:"crop"`
	DaysToBearing float64 `db:"days_to_bearing"`
	BearingDays   float64 `db:"bearing_days"`
	YieldKgPerM2  float64 `db:"yield_kg_per_m2"`
	UseKgPerWeek  float64 `db:"use_kg_per_week"`
}

// Trial is the record "trial".
type Trial struct {
	ID                uuid.UUID `db:"id"`
	SiteID            uuid.UUID `db:"site_id"`
	Question          string    `db:"question"`
	Measure           int16     `db:"measure"`
	Arms              []byte    `db:"arms"`
	FromOn            Moment    `db:"from_on"`
	ToOn              Moment    `db:"to_on"`
	StoppingRule      string    `db:"stopping_rule"`
	WorthwhilePercent float64   `db:"worthwhile_percent"`
}

// Picture reads a site's records. Removed ones are left out.
func (s *Store) Picture(ctx context.Context, site uuid.UUID) (*Picture, error) {
	found, err := rows[Site](ctx, s, "sites WHERE id = $1 AND removed_at IS NULL", site)
	if err != nil {
		return nil, err
	}
	if len(found) == 0 {
		return nil, ErrUnknown
	}
	p := &Picture{Site: found[0], Feeds: map[uuid.UUID]Feed{}}
	for _, read := range []func() error{
		func() (err error) { p.Systems, err = ofSite[System](ctx, s, "systems", site); return },
		func() (err error) { p.Vessels, err = ofSite[Vessel](ctx, s, "vessels", site); return },
		func() (err error) { p.Beds, err = ofSite[Bed](ctx, s, "beds", site); return },
		func() (err error) { p.Equipment, err = ofSite[Equipment](ctx, s, "equipment", site); return },
		func() (err error) { p.Cohorts, err = ofSite[Cohort](ctx, s, "cohorts", site); return },
		func() (err error) { p.Plantings, err = ofSite[Planting](ctx, s, "plantings", site); return },
		func() (err error) { p.Species, err = ofSite[SpeciesHere](ctx, s, "species", site); return },
		func() (err error) { p.Crops, err = ofSite[CropHere](ctx, s, "crops", site); return },
		func() error { return s.feeds(ctx, site, p.Feeds) },
	} {
		if err := read(); err != nil {
			return nil, err
		}
	}
	return p, nil
}

// ofSite reads a site's own records and the cooperative's, the cooperative's first, each in the order they were made.
func ofSite[T any](ctx context.Context, s *Store, table string, site uuid.UUID) ([]T, error) {
	return rows[T](ctx, s, table+" WHERE (site_id = $1 OR site_id IS NULL) AND removed_at IS NULL ORDER BY site_id NULLS FIRST, id", site)
}

func (s *Store) feeds(ctx context.Context, site uuid.UUID, into map[uuid.UUID]Feed) error {
	found, err := ofSite[Feed](ctx, s, "feeds", site)
	for _, f := range found {
		into[f.ID] = f
	}
	return err
}

// SiteOfSystem names the site a loop belongs to.
func (s *Store) SiteOfSystem(ctx context.Context, system uuid.UUID) (uuid.UUID, error) {
	return s.siteOf(ctx, "SELECT site_id FROM systems WHERE id = $1 AND removed_at IS NULL", system)
}

// Trial reads one trial.
func (s *Store) Trial(ctx context.Context, id uuid.UUID) (*Trial, error) {
	found, err := rows[Trial](ctx, s, "trials WHERE id = $1 AND removed_at IS NULL", id)
	if err == nil && len(found) == 0 {
		err = ErrUnknown
	}
	if err != nil {
		return nil, err
	}
	return &found[0], nil
}

// TrialsAsking reads the trials that put the same question, whatever its
// capitals, to the same measure.
func (s *Store) TrialsAsking(ctx context.Context, question string, measure int16) ([]Trial, error) {
	return rows[Trial](ctx, s, "trials WHERE lower(trim(question)) = lower(trim($1)) AND measure = $2 AND removed_at IS NULL ORDER BY site_id, id", question, measure)
}

func (s *Store) siteOf(ctx context.Context, sql string, id uuid.UUID) (uuid.UUID, error) {
	var site uuid.UUID
	err := s.queryRow(ctx, sql, id).Scan(&site)
	if errors.Is(err, pgx.ErrNoRows) {
		return site, ErrUnknown
	}
	return site, err
}
