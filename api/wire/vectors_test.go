package wire

import (
	"encoding/hex"
	"encoding/json"
	"flag"
	"math/rand/v2"
	"os"
	"reflect"
	"testing"

	"github.com/google/uuid"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
)

// The vectors are what clients in other languages test themselves against;
// `go test ./api/wire -write` makes them anew.
var writeVectors = flag.Bool("write", false, "write testdata/vectors anew")

const vectorsFile = "../../testdata/vectors/columns.json"

type vectors struct {
	IDs      []idVector             `json:"ids"`
	Readings []vector[ReadingRow]   `json:"readings"`
	Feedings []vector[FeedingRow]   `json:"feedings"`
	Dense    []denseVector          `json:"dense"`
	Refused  map[string]refusedBody `json:"refused"`
}

// A denseVector is one message with plain times and with dense ones.
type denseVector struct {
	Plain string `json:"plain"`
	Dense string `json:"dense"`
}

type idVector struct {
	Install string `json:"install"`
	Number  uint64 `json:"number"`
	ID      string `json:"id"`
}

// A vector is a column message in hexadecimal digits and the rows in it.
type vector[Row any] struct {
	Message string `json:"message"`
	Rows    []Row  `json:"rows"`
}

// refusedBody is a message of a kind that must not be read.
type refusedBody struct {
	Kind    string `json:"kind"`
	Message string `json:"message"`
}

func TestVectors(t *testing.T) {
	if *writeVectors {
		keepVectors(t)
	}
	raw, err := os.ReadFile(vectorsFile)
	if err != nil {
		t.Fatal(err)
	}
	var v vectors
	if err := json.Unmarshal(raw, &v); err != nil {
		t.Fatal(err)
	}
	for _, id := range v.IDs {
		install, err := hex.DecodeString(id.Install)
		if err != nil || ID(Install(install), id.Number).String() != id.ID {
			t.Errorf("%s %d: %s, %v", id.Install, id.Number, id.ID, err)
		}
	}
	checkVectors(t, v.Readings, func(rows []ReadingRow) proto.Message { return EncodeReadings(rows, nil) }, readReadings)
	checkVectors(t, v.Feedings, func(rows []FeedingRow) proto.Message { return EncodeFeedings(rows, nil) }, readFeedings)
	for _, d := range v.Dense {
		checkDense(t, d)
	}
	for name, r := range v.Refused {
		if err := readRefused(t, r); err == nil {
			t.Errorf("%s is read", name)
		}
	}
}

func checkDense(t *testing.T, d denseVector) {
	t.Helper()
	plain, dense := &freshetv1.ReadingColumns{}, &freshetv1.ReadingColumns{}
	fromHex(t, d.Plain, plain)
	fromHex(t, d.Dense, dense)
	if made := inHex(t, Dense(plain)); made != d.Dense {
		t.Errorf("%s is made dense as %s", d.Plain, made)
	}
	if back, err := Plain(dense); err != nil || inHex(t, back) != d.Plain {
		t.Errorf("%s is made plain as %v, %v", d.Dense, back, err)
	}
}

func readRefused(t *testing.T, r refusedBody) error {
	if r.Kind == "reading" {
		_, err := readReadings(t, r.Message)
		return err
	}
	_, err := readFeedings(t, r.Message)
	return err
}

func checkVectors[Row any](t *testing.T, list []vector[Row], encode func([]Row) proto.Message, read func(*testing.T, string) ([]Row, error)) {
	t.Helper()
	for i, v := range list {
		rows, err := read(t, v.Message)
		if err != nil || !reflect.DeepEqual(rows, v.Rows) {
			t.Errorf("message %d is read as %v, %v", i, rows, err)
		}
		if again := inHex(t, encode(v.Rows)); again != v.Message {
			t.Errorf("rows %d are written as %s", i, again)
		}
	}
}

func readReadings(t *testing.T, message string) (rows []ReadingRow, err error) {
	c := &freshetv1.ReadingColumns{}
	fromHex(t, message, c)
	return rows, EachReading(c, func(r *ReadingRow) error { rows = append(rows, *r); return nil })
}

func readFeedings(t *testing.T, message string) (rows []FeedingRow, err error) {
	c := &freshetv1.FeedingColumns{}
	fromHex(t, message, c)
	return rows, EachFeeding(c, func(r *FeedingRow) error { rows = append(rows, *r); return nil })
}

func fromHex(t *testing.T, digits string, m proto.Message) {
	t.Helper()
	raw, err := hex.DecodeString(digits)
	if err == nil {
		err = proto.Unmarshal(raw, m)
	}
	if err != nil {
		t.Fatal(err)
	}
}

func inHex(t *testing.T, m proto.Message) string {
	t.Helper()
	raw, err := proto.MarshalOptions{Deterministic: true}.Marshal(m)
	if err != nil {
		t.Fatal(err)
	}
	return hex.EncodeToString(raw)
}

func keepVectors(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	v := vectors{Refused: map[string]refusedBody{}}
	install := Install{0xfe, 1, 2, 3, 4, 5, 0x8a, 0x7f}
	for _, number := range []uint64{1, 2, 499, 1 << 40, 1<<53 - 1} {
		v.IDs = append(v.IDs, idVector{hex.EncodeToString(install[:]), number, ID(install, number).String()})
	}
	for _, n := range []int{1, 2, 7, 30} {
		rows := randomReadings(r, n)
		v.Readings = append(v.Readings, vector[ReadingRow]{inHex(t, EncodeReadings(rows, nil)), rows})
	}
	for i, n := range []int{1, 5, 12} {
		rows := make([]FeedingRow, n)
		for j := range rows {
			ms := int64(1_770_000_000_000 + i*j*61_000)
			rows[j] = FeedingRow{
				Number: 40 + uint64(j), Site: uuid.Nil.String(), Vessel: []string{"", "v"}[r.IntN(2)], Cohort: "c",
				OccurredMs: ms, EnteredMs: ms + r.Int64N(9e6), MassG: float64(r.IntN(9)) * 12.5,
			}
		}
		v.Feedings = append(v.Feedings, vector[FeedingRow]{inHex(t, EncodeFeedings(rows, nil)), rows})
	}
	for _, step := range []int64{0, 1, 1000, 60_000, 3_600_000} {
		rows := randomReadings(r, 9)
		for i := range rows {
			rows[i].OccurredMs = step * int64(500_000+i*i)
			rows[i].EnteredMs = 1_770_000_000_000 + step%7*int64(i)
		}
		plain := EncodeReadings(rows, nil)
		v.Dense = append(v.Dense, denseVector{inHex(t, plain), inHex(t, Dense(plain))})
	}
	for name, spoil := range spoiled {
		c := EncodeReadings(randomReadings(r, 10), nil)
		spoil(c)
		v.Refused[name] = refusedBody{"reading", inHex(t, c)}
	}
	v.Refused["feeding without rows"] = refusedBody{"feeding", inHex(t, &freshetv1.FeedingColumns{FirstNumber: 1})}
	raw, err := json.MarshalIndent(v, "", " ")
	if err == nil {
		err = os.WriteFile(vectorsFile, append(raw, '\n'), 0o600)
	}
	if err != nil {
		t.Fatal(err)
	}
}
