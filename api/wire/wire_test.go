package wire

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/uuid"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
)

func TestIDSplitsBack(t *testing.T) {
	install := NewInstall()
	for _, number := range []uint64{1, 2, 499, 1 << 40, MaxNumber} {
		id := ID(install, number)
		if id.Version() != 8 || id.Variant() != uuid.RFC4122 {
			t.Errorf("%s: version %d, variant %s", id, id.Version(), id.Variant())
		}
		if i, n, ok := Split(id); !ok || i != install || n != number {
			t.Errorf("%s splits into %x, %d, %t", id, i, n, ok)
		}
	}
}

func TestForeignIDsDoNotSplit(t *testing.T) {
	for _, id := range []uuid.UUID{uuid.Nil, uuid.New(), ID(NewInstall(), 0)} {
		if _, _, ok := Split(id); ok {
			t.Errorf("%s splits", id)
		}
	}
	for _, b := range [][]byte{nil, make([]byte, 8), make([]byte, 9)} {
		if _, err := ParseInstall(b); err == nil {
			t.Errorf("%x is taken for an install", b)
		}
	}
}

func randomReadings(r *rand.Rand, n int) []ReadingRow {
	rows := make([]ReadingRow, n)
	places := []string{"", "p1", "p2"}
	for i := range rows {
		occurred := r.Int64N(1 << 41)
		rows[i] = ReadingRow{
			Number: 7 + uint64(i), Site: "s", Place: places[r.IntN(3)], Equipment: places[r.IntN(2)],
			OccurredMs: occurred, EnteredMs: occurred + r.Int64N(1000), Quantity: freshetv1.Quantity(1 + r.IntN(3)),
			Digits: r.Int64N(2000) - 1000, Decimals: uint32(r.IntN(3)), Unit: freshetv1.Unit(r.IntN(4)),
			Basis: freshetv1.Basis(r.IntN(2)), Method: freshetv1.Method(r.IntN(2)), Censoring: freshetv1.Censoring(r.IntN(3)),
		}
	}
	return rows
}

func TestReadingsComeBackAsTheyWent(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		rows := randomReadings(r, 1+r.IntN(20))
		var back []ReadingRow
		err := EachReading(EncodeReadings(rows, nil), func(row *ReadingRow) error { back = append(back, *row); return nil })
		if err != nil || !slices.Equal(rows, back) {
			t.Fatalf("%v\nwent as %v\ncame as %v", err, rows, back)
		}
	}
}

func TestFeedingsComeBackAsTheyWent(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 200 {
		rows := make([]FeedingRow, 1+r.IntN(20))
		for i := range rows {
			occurred := r.Int64N(1 << 41)
			rows[i] = FeedingRow{
				Number: 3 + uint64(i), Site: "s", Vessel: []string{"", "v"}[r.IntN(2)], Cohort: []string{"", "c"}[r.IntN(2)],
				Feed: "f", OccurredMs: occurred, EnteredMs: occurred + r.Int64N(9), MassG: float64(r.IntN(3)) * 0.5,
			}
		}
		var back []FeedingRow
		err := EachFeeding(EncodeFeedings(rows, nil), func(row *FeedingRow) error { back = append(back, *row); return nil })
		if err != nil || !slices.Equal(rows, back) {
			t.Fatalf("%v\nwent as %v\ncame as %v", err, rows, back)
		}
	}
}

// A probe's hours are the bulk of all traffic: four series, hourly, small steps.
func TestHourlyProbesTakeFewBytes(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	site, tank := ID(NewInstall(), 1).String(), ID(NewInstall(), 2).String()
	var rows []ReadingRow
	value := []int64{245, 702, 68, 1830}
	for hour := range int64(125) {
		for q := range value {
			value[q] += r.Int64N(5) - 2
			ms := 1_760_000_000_000 + hour*3_600_000
			rows = append(rows, ReadingRow{
				Number: uint64(len(rows)) + 1, Site: site, Place: tank, OccurredMs: ms, EnteredMs: ms,
				Quantity: freshetv1.Quantity(q + 1), Digits: value[q], Decimals: 1, Unit: freshetv1.Unit(q + 1),
			})
		}
	}
	bytes := proto.Size(EncodeReadings(rows, nil))
	if perRow := float64(bytes) / float64(len(rows)); perRow > 10 {
		t.Errorf("%.1f bytes a reading", perRow)
	}
}

// spoiled are ways in which a column message of ten rows cannot be read.
var spoiled = map[string]func(*freshetv1.ReadingColumns){
	"no rows":           func(c *freshetv1.ReadingColumns) { c.Count = 0 },
	"too many rows":     func(c *freshetv1.ReadingColumns) { c.Count = MaxRows + 1 },
	"number zero":       func(c *freshetv1.ReadingColumns) { c.FirstNumber = 0 },
	"number too great":  func(c *freshetv1.ReadingColumns) { c.FirstNumber = MaxNumber },
	"short column":      func(c *freshetv1.ReadingColumns) { c.Digits = c.Digits[:5] },
	"folded difference": func(c *freshetv1.ReadingColumns) { c.OccurredMs = c.OccurredMs[:1] },
	"id out of range":   func(c *freshetv1.ReadingColumns) { c.Sites = []uint32{99} },
	"id overflows":      func(c *freshetv1.ReadingColumns) { c.Places = []uint32{1<<32 - 1} },
}

func TestColumnsThatDoNotFitAreRefused(t *testing.T) {
	good := func() *freshetv1.ReadingColumns {
		return EncodeReadings(randomReadings(rand.New(rand.NewPCG(7, 8)), 10), nil)
	}
	for name, spoil := range spoiled {
		c := good()
		spoil(c)
		if err := EachReading(c, func(*ReadingRow) error { return nil }); err == nil {
			t.Errorf("%s is taken", name)
		}
	}
}
