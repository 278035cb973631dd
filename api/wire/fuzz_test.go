package wire

import (
	"math/rand/v2"
	"slices"
	"testing"

	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
)

// Whatever bytes say as columns is refused, or says the same after it was
// written again.
func FuzzReadingColumns(f *testing.F) {
	r := rand.New(rand.NewPCG(5, 6))
	for n := range 6 {
		raw, err := proto.Marshal(EncodeReadings(randomReadings(r, 1+n*7), &freshetv1.Noted{WallMs: 1}))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(raw)
		f.Add(raw[:len(raw)/2])
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		c := &freshetv1.ReadingColumns{}
		if proto.Unmarshal(raw, c) != nil {
			return
		}
		var rows, again []ReadingRow
		if EachReading(c, func(row *ReadingRow) error { rows = append(rows, *row); return nil }) != nil {
			return
		}
		if len(rows) != int(c.GetCount()) {
			t.Fatalf("%d rows of %d", len(rows), c.GetCount())
		}
		err := EachReading(EncodeReadings(rows, nil), func(row *ReadingRow) error { again = append(again, *row); return nil })
		if err != nil || !slices.Equal(rows, again) {
			t.Fatalf("%v\nread    %v\nre-read %v", err, rows, again)
		}
	})
}

// Whatever bytes say as dense readings is refused, or says the same after it
// was made plain and dense again.
func FuzzDenseReadings(f *testing.F) {
	r := rand.New(rand.NewPCG(7, 8))
	for n := range 6 {
		raw, err := proto.Marshal(Dense(EncodeReadings(randomReadings(r, 1+n*7), &freshetv1.Noted{WallMs: 1})))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(raw)
		f.Add(raw[:len(raw)/2])
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		c := &freshetv1.ReadingColumns{}
		if proto.Unmarshal(raw, c) != nil {
			return
		}
		plain, err := Plain(c)
		if err != nil || !readingColumnsFit(plain, int(plain.GetCount())) {
			return
		}
		if again, err := Plain(Dense(plain)); err != nil || !proto.Equal(plain, again) {
			t.Fatalf("%v\nplain   %v\nagain   %v", err, plain, again)
		}
	})
}

func FuzzFeedingColumns(f *testing.F) {
	for n := range 4 {
		rows := make([]FeedingRow, 1+n*5)
		for i := range rows {
			rows[i] = FeedingRow{Number: 1 + uint64(i), Site: "s", Vessel: "v", Feed: "f", OccurredMs: int64(i) * 1000, EnteredMs: int64(i) * 1001, MassG: float64(i)}
		}
		raw, err := proto.Marshal(EncodeFeedings(rows, nil))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(raw)
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		c := &freshetv1.FeedingColumns{}
		if proto.Unmarshal(raw, c) != nil {
			return
		}
		n := 0
		if err := EachFeeding(c, func(*FeedingRow) error { n++; return nil }); err == nil && n != int(c.GetCount()) {
			t.Fatalf("%d rows of %d", n, c.GetCount())
		}
	})
}
