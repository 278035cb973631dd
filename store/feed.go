package store

import (
	"time"

	"github.com/google/uuid"
)

// Install names one installation of a client; its operations are numbered from
// 1 without gaps.
type Install [8]byte

// PushedBy is who pushes, and what must hold still meanwhile.
type PushedBy struct {
	Install Install
	// Mark is the push's own, and After that of the push before it, as the device
	// knows it. No mark: the device is of a release that made none.
	Mark, After []byte
	MemberID    uuid.UUID
	DeviceID    uuid.UUID
	// Sites are all sites the push may write to. Alone are those of them whose
	// earlier events it looks at or changes: no other push to them goes on
	// meanwhile. Made are those that the push makes, which nobody else can know.
	// A push that writes to a site not named in Sites is an error.
	Sites, Alone, Made []uuid.UUID
	// Others are sites that the push names and may not write to.
	Others []uuid.UUID
	// Scopes are those whose records the caller keeps in memory.
	Scopes []string
}

// Push is what an upload comes to, once it was looked at: everything here is
// stored in one transaction, or nothing.
type Push struct {
	// Through is the number of the last operation that has an outcome now.
	Through     uint64
	ReceivedAt  time.Time
	Readings    []ReadingRow
	Events      []EventRow
	Edits       []RecordEdit
	Removals    []RecordRemoval
	Corrections []Correction
	Outcomes    []Outcome
	Pages       []NewPage
}

// ReadingRow is a reading to store. Most rows are readings, so they have a form
// of their own that costs little.
type ReadingRow struct {
	ID          uuid.UUID
	SiteID      uuid.UUID
	OccurredMs  int64 // milliseconds since 1970 UTC
	EnteredMs   int64 // as settled
	Quantity    int16
	Digits      int64
	Decimals    int64
	Unit        int16
	Basis       int16
	Method      int16
	Censoring   int16
	PlaceID     uuid.UUID // nil uuid: none
	EquipmentID uuid.UUID // nil uuid: none
	ValueMicro  int64     // canonical value in millionths
}

// EventRow is an event of any other kind to store.
type EventRow struct {
	Noun       string // the contract's name: "feeding"
	ID         uuid.UUID
	SiteID     uuid.UUID
	OccurredAt time.Time
	EnteredAt  time.Time // as settled
	// Columns and Values are the kind's own fields. All rows of a noun have the
	// same columns in the same order.
	Columns []string
	Values  []any
}

// Correction voids an event, or puts another in its place.
type Correction struct {
	ID          uuid.UUID
	SiteID      uuid.UUID
	OccurredAt  time.Time
	EnteredAt   time.Time // as settled
	EventID     uuid.UUID
	Words       string
	Replacement *EventRow // nil: void. Its id is the correction's.
}

// Outcome is what became of an operation that was not stored.
type Outcome struct {
	Number    uint64
	Kind      int16 // the contract's OutcomeKind
	Reason    string
	Field     string
	Hint      string
	Operation []byte // as it came
	Scope     string
}

// NewPage is what a push changed in one scope.
type NewPage struct {
	Scope      string
	Block      []byte // as it is sent on
	Operations int
	Records    bool // it changes records, not only adds events
}

// Pushed is where the feed stands after a push.
type Pushed struct {
	Moved []Head
}

// Head is where a scope stands.
type Head struct {
	Scope      string
	Sequence   uint64
	Chain      []byte // rolling hash of all blocks up to Sequence; empty at 0
	Operations uint64
	id         int32
}
