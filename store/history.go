package store

import (
	"context"
	"time"

	"github.com/google/uuid"
)

// Header is what every event has.
type Header struct {
	ID         uuid.UUID `db:"id"`
	OccurredAt time.Time `db:"occurred_at"`
}

// Feeding is the event "feeding".
type Feeding struct {
	Header
	VesselID uuid.UUID `db:"vessel_id"`
	CohortID uuid.UUID `db:"cohort_id"`
	FeedID   uuid.UUID `db:"feed_id"`
	MassG    float64   `db:"mass_g"`
	LeftG    float64   `db:"left_g"`
}

// Stocking is the event "stocking".
type Stocking struct {
	Header
	CohortID uuid.UUID `db:"cohort_id"`
	Count    int64     `db:"count"`
	MassG    float64   `db:"mass_g"`
}

// Weighing is the event "weighing".
type Weighing struct {
	Header
	CohortID    uuid.UUID `db:"cohort_id"`
	SampleCount int64     `db:"sample_count"`
	MassG       float64   `db:"mass_g"`
	SDG         float64   `db:"sd_g"`
}

// Counting is the event "count".
type Counting struct {
	Header
	CohortID uuid.UUID `db:"cohort_id"`
	Count    int64     `db:"count"`
}

// Death is the event "death".
type Death struct {
	Header
	CohortID uuid.UUID `db:"cohort_id"`
	Count    int64     `db:"count"`
	Cause    int16     `db:"suspected_cause"`
}

// Move is the event "move".
type Move struct {
	Header
	CohortID   uuid.UUID `db:"cohort_id"`
	ToCohortID uuid.UUID `db:"to_cohort_id"`
	Count      int64     `db:"count"`
	MassG      float64   `db:"mass_g"`
}

// FishHarvest is the event "fish_harvest".
type FishHarvest struct {
	Header
	CohortID uuid.UUID `db:"cohort_id"`
	Count    int64     `db:"count"`
	MassG    float64   `db:"mass_g"`
	Form     int16     `db:"form"`
}

// Sowing is the event "sowing".
type Sowing struct {
	Header
	PlantingID uuid.UUID `db:"planting_id"`
}

// Transplanting is the event "transplanting".
type Transplanting struct {
	Header
	PlantingID uuid.UUID `db:"planting_id"`
	BedID      uuid.UUID `db:"bed_id"`
}

// BedHarvest is the event "bed_harvest".
type BedHarvest struct {
	Header
	PlantingID  uuid.UUID `db:"planting_id"`
	MassG       float64   `db:"mass_g"`
	PiecesCount int64     `db:"pieces_count"`
	Form        int16     `db:"form"`
}

// Pulling is the event "pulling".
type Pulling struct {
	Header
	PlantingID uuid.UUID `db:"planting_id"`
	MassG      float64   `db:"mass_g"`
}

// Dosing is the event "dosing".
type Dosing struct {
	Header
	VesselID  uuid.UUID `db:"vessel_id"`
	Substance int16     `db:"substance"`
	MassG     float64   `db:"mass_g"`
	VolumeML  float64   `db:"volume_ml"`
}

// WaterIn is the event "water_in".
type WaterIn struct {
	Header
	VesselID uuid.UUID `db:"vessel_id"`
	SystemID uuid.UUID `db:"system_id"`
	VolumeL  float64   `db:"volume_l"`
}

// WaterOut is the event "water_out".
type WaterOut struct {
	Header
	VesselID uuid.UUID `db:"vessel_id"`
	SystemID uuid.UUID `db:"system_id"`
	VolumeL  float64   `db:"volume_l"`
}

// SolidsOut is the event "solids_out".
type SolidsOut struct {
	Header
	VesselID uuid.UUID `db:"vessel_id"`
	VolumeL  float64   `db:"volume_l"`
	DryMassG float64   `db:"dry_mass_g"`
}

// Disposition is the event "disposition".
type Disposition struct {
	Header
	Crop        string  `db:"crop"`
	Species     string  `db:"species"`
	MassG       float64 `db:"mass_g"`
	Use         int16   `db:"use"`
	PiecesCount int64   `db:"pieces_count"`
	HadForIt    string  `db:"had_for_it"`
}

// Upkeep is the event "upkeep".
type Upkeep struct {
	Header
	Kind     int16     `db:"kind"`
	VesselID uuid.UUID `db:"vessel_id"`
	Words    string    `db:"words"`
}

// Incident is the event "incident".
type Incident struct {
	Header
	Kind     int16     `db:"kind"`
	EndedAt  Moment    `db:"ended_at"`
	VesselID uuid.UUID `db:"vessel_id"`
	Words    string    `db:"words"`
}

// table names the table of each event that is read whole.
func (Feeding) table() string       { return "feedings" }
func (Stocking) table() string      { return "stockings" }
func (Weighing) table() string      { return "weighings" }
func (Counting) table() string      { return "counts" }
func (Death) table() string         { return "deaths" }
func (Move) table() string          { return "moves" }
func (FishHarvest) table() string   { return "fish_harvests" }
func (Sowing) table() string        { return "sowings" }
func (Transplanting) table() string { return "transplantings" }
func (BedHarvest) table() string    { return "bed_harvests" }
func (Pulling) table() string       { return "pullings" }
func (Dosing) table() string        { return "dosings" }
func (WaterIn) table() string       { return "waters_in" }
func (WaterOut) table() string      { return "waters_out" }
func (SolidsOut) table() string     { return "solids_out" }
func (Disposition) table() string   { return "dispositions" }
func (Upkeep) table() string        { return "upkeep" }
func (Incident) table() string      { return "incidents" }

// Happened is an event that is read whole by History.
type Happened interface{ table() string }

// History reads a site's events of one kind with from <= occurred_at < to, in
// order of time, without those that a correction voided or replaced.
func History[T Happened](ctx context.Context, s *Store, site uuid.UUID, from, to time.Time) ([]T, error) {
	var kind T
	return rows[T](ctx, s, kind.table()+" WHERE site_id = $1 AND occurred_at >= $2 AND occurred_at < $3 AND corrected_by IS NULL ORDER BY occurred_at, id", site, from, to)
}
