package wire_test

import (
	"errors"
	"math/rand/v2"
	"testing"

	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
)

// Dense times come back as what they were made of, bit for bit, whatever the
// clocks said.
func TestDenseTimesComeBackAsTheyWere(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for range 1000 {
		step, once := []int64{1, 7, 1000, 60_000, 3_600_000, 86_400_000}[r.IntN(6)], r.IntN(2) == 0
		rows := make([]wire.ReadingRow, 1+r.IntN(40))
		entered := r.Int64N(2_000_000_000_000)
		for i := range rows {
			if !once {
				entered += r.Int64N(100_000) - 20_000
			}
			rows[i] = wire.ReadingRow{Number: uint64(5 + i), Site: "a", OccurredMs: step * (r.Int64N(2_000_000_000_000/step) - 1000), EnteredMs: entered, Digits: r.Int64N(99)}
		}
		plain := wire.EncodeReadings(rows, &freshetv1.Noted{WallMs: 3})
		back, err := wire.Plain(wire.Dense(plain))
		if err != nil || !proto.Equal(back, plain) {
			t.Fatalf("%v came back as %v, %v", plain, back, err)
		}
	}
}

func TestDenseTimesOfADayByHandAreAThirdShorter(t *testing.T) {
	var rows []wire.ReadingRow
	for i := range 18 {
		rows = append(rows, wire.ReadingRow{Number: uint64(1 + i), Site: "5b6d5f6a-90ab-8cd0-8000-000000000001",
			OccurredMs: 1_772_438_400_000 + int64(i*i%13)*3_660_000, EnteredMs: 1_772_499_999_999, Quantity: freshetv1.Quantity(1 + i%4), Digits: int64(700 + i)})
	}
	plain := wire.EncodeReadings(rows, nil)
	if before, after := proto.Size(plain), proto.Size(wire.Dense(plain)); 3*after > 2*before {
		t.Errorf("%d bytes became %d", before, after)
	}
}

func TestDenseTimesThatDoNotFitAreRefused(t *testing.T) {
	good := func() *freshetv1.ReadingColumns {
		return wire.Dense(wire.EncodeReadings([]wire.ReadingRow{{Number: 1, Site: "a", OccurredMs: 60_000, EnteredMs: 9}, {Number: 2, Site: "a", OccurredMs: 120_000, EnteredMs: 12}}, nil))
	}
	if _, err := wire.Plain(good()); err != nil {
		t.Fatal(err)
	}
	for name, spoil := range map[string]func(*freshetv1.ReadingColumns){
		"no step":         func(c *freshetv1.ReadingColumns) { c.StepMs = 0 },
		"a step of weeks": func(c *freshetv1.ReadingColumns) { c.StepMs = 1_000_000_000 },
		"a time too few":  func(c *freshetv1.ReadingColumns) { c.OccurredMs = c.OccurredMs[:1] },
		"no entry times":  func(c *freshetv1.ReadingColumns) { c.EnteredMs = nil },
		"one too many":    func(c *freshetv1.ReadingColumns) { c.EnteredMs = append(c.EnteredMs, 1) },
		"both times":      func(c *freshetv1.ReadingColumns) { c.EnteredAfterMs = []int64{1, 1} },
		"no rows":         func(c *freshetv1.ReadingColumns) { c.Count = 0 },
		"rows without end": func(c *freshetv1.ReadingColumns) {
			c.Count = 1 << 30
		},
	} {
		c := good()
		spoil(c)
		if _, err := wire.Plain(c); !errors.Is(err, wire.ErrColumns) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
