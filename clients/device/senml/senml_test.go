package senml_test

import (
	"encoding/hex"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"freshet.example/clients/device/senml"
)

var now = time.Date(2026, 3, 2, 8, 0, 0, 0, time.UTC)

func told(list []senml.Measurement) string {
	var b strings.Builder
	for _, m := range list {
		fmt.Fprintf(&b, "%s %s %s %s\n", m.Name, m.Value, m.Unit, m.At.UTC().Format(time.RFC3339Nano))
	}
	return b.String()
}

// RFC 8428, section 5.1.2, the second example, from memory; the times are its resolved ones.
const printed = `[
  {"bn":"urn:dev:ow:10e2073a0108006:","bt":1.276020076001e+09,"bu":"A","bver":5,"n":"voltage","u":"V","v":120.1},
  {"n":"current","t":-5,"v":1.2},
  {"n":"current","t":-4,"v":1.3},
  {"n":"current","v":1.7}
]`

const printedSays = `urn:dev:ow:10e2073a0108006:voltage 120.1 V 2010-06-08T18:01:16.001Z
urn:dev:ow:10e2073a0108006:current 1.2 A 2010-06-08T18:01:11.001Z
urn:dev:ow:10e2073a0108006:current 1.3 A 2010-06-08T18:01:12.001Z
urn:dev:ow:10e2073a0108006:current 1.7 A 2010-06-08T18:01:16.001Z
`

// The same list as section 6 encodes it, cut to as many records.
const printedCBOR = "84" +
	"a7" + "21" + "781b75726e3a6465763a6f773a3130653230373361303130383030363a" + "22" + "fb41d303a15b001062" + "23" + "6141" + "20" + "05" +
	"00" + "67766f6c74616765" + "01" + "6156" + "02" + "fb405e066666666666" +
	"a3" + "00" + "6763757272656e74" + "06" + "24" + "02" + "fb3ff3333333333333" +
	"a3" + "00" + "6763757272656e74" + "06" + "23" + "02" + "fb3ff4cccccccccccd" +
	"a2" + "00" + "6763757272656e74" + "02" + "fb3ffb333333333333"

func TestThePrintedExampleInBothEncodings(t *testing.T) {
	list, err := senml.JSON([]byte(printed), now)
	if err != nil || told(list) != printedSays {
		t.Errorf("JSON: %v\n%s", err, told(list))
	}
	raw, err := hex.DecodeString(printedCBOR)
	if err != nil {
		t.Fatal(err)
	}
	list, err = senml.CBOR(raw, now)
	if err != nil || told(list) != printedSays {
		t.Errorf("CBOR: %v\n%s", err, told(list))
	}
}

func TestNumbersKeepTheirDigits(t *testing.T) {
	for sent, want := range map[string]string{
		`"v":7.50`: "7.50", `"v":-0.5`: "-0.5", `"v":2.31e1`: "23.1", `"v":5e-3`: "0.005", `"v":12E2`: "1200", `"v":0`: "0",
		`"bv":20,"v":3.10`: "23.10", `"bv":-1.5,"v":1.25`: "-0.25", `"vs":"on"`: "", `"vb":true`: "", `"s":12`: "",
	} {
		list, err := senml.JSON([]byte(`[{"n":"a",`+sent+`}]`), now)
		if err != nil || len(list) != 1 || list[0].Value != want {
			t.Errorf("%s: %v, %v, want %q", sent, list, err, want)
		}
	}
	for sent, want := range map[string]string{
		"fa41b8cccd": "23.1", "f94d90": "22.25", "1907d0": "2000", "3907cf": "-2000", "c48221190fcd": "40.45", "c48201190fcd": "40450",
	} {
		raw, _ := hex.DecodeString("81a2006161" + "02" + sent)
		list, err := senml.CBOR(raw, now)
		if err != nil || len(list) != 1 || list[0].Value != want {
			t.Errorf("%s: %v, %v, want %q", sent, list, err, want)
		}
	}
}

func TestTimesBelowABoundCountFromNow(t *testing.T) {
	for sent, want := range map[string]string{
		``: "2026-03-02T08:00:00Z", `,"t":-60`: "2026-03-02T07:59:00Z", `,"bt":-60,"t":0.5`: "2026-03-02T07:59:00.5Z",
		`,"t":268435455`: "2034-09-03T05:24:15Z", `,"t":268435456`: "1978-07-04T21:24:16Z", `,"bt":1772438400,"t":-1`: "2026-03-02T07:59:59Z",
	} {
		list, err := senml.JSON([]byte(`[{"n":"a","v":1`+sent+`}]`), now)
		if err != nil || len(list) != 1 || list[0].At.UTC().Format(time.RFC3339Nano) != want {
			t.Errorf("%q: %v, %v, want %s", sent, list, err, want)
		}
	}
}

func TestWhatIsNoListIsRefusedWhole(t *testing.T) {
	good := `{"n":"a","v":1}`
	for _, sent := range []string{
		``, `{}`, `[`, `[1]`, `[` + good + `] x`, `[{"v":1}]`, `[{"n":"-a","v":1}]`, `[{"n":"a b","v":1}]`, `[{"n":7,"v":1}]`, `[{"n":"a","v":"1"}]`,
		`[{"n":"a","v":1e99}]`, `[{"n":"a","v":1,"bver":11}]`, `[{"n":"a","v":1,"t":"x"}]`, `[{"n":"a","v":1,"t":1e40}]`, `[` + good + `,{"n":"a","v":1,"urgent_":2}]`,
		`[` + strings.Repeat(good+`,`, senml.MaxRecords) + good + `]`, `[{"n":"` + strings.Repeat("a", 256) + `","v":1}]`,
	} {
		if list, err := senml.JSON([]byte(sent), now); !errors.Is(err, senml.ErrPack) || list != nil {
			t.Errorf("%.60s: %v, %v", sent, list, err)
		}
	}
	for _, sent := range []string{"", "00", "a0", "8100", "81a2006161021b8000000000000000", "81a200616102f97e00", "81a200616102c249010000000000000000", "81a30061610201006162", "81a200616102a0", "81a26161" + "5f01" + "00f6", "81"} {
		raw, _ := hex.DecodeString(sent)
		if list, err := senml.CBOR(raw, now); !errors.Is(err, senml.ErrPack) || list != nil {
			t.Errorf("%s: %v, %v", sent, list, err)
		}
	}
	if list, err := senml.JSON([]byte(`[{"bn":"a/","bu":"Cel"},{"n":"b","v":2,"x":{"y":1}}]`), now); err != nil || told(list) != "a/b 2 Cel 2026-03-02T08:00:00Z\n" {
		t.Errorf("bases alone, and a field that may be left out: %v, %q", err, told(list))
	}
}

func FuzzJSON(f *testing.F) {
	f.Add([]byte(printed))
	f.Add([]byte(`[{"bn":"a","bv":1e-3,"v":-7.5e2,"t":-3}]`))
	f.Fuzz(func(t *testing.T, raw []byte) { sound(t, raw, senml.JSON) })
}

func FuzzCBOR(f *testing.F) {
	raw, _ := hex.DecodeString(printedCBOR)
	f.Add(raw)
	f.Fuzz(func(t *testing.T, raw []byte) { sound(t, raw, senml.CBOR) })
}

// sound holds what is read to what a measurement can be.
func sound(t *testing.T, raw []byte, read func([]byte, time.Time) ([]senml.Measurement, error)) {
	list, err := read(raw, now)
	if err != nil && (list != nil || !errors.Is(err, senml.ErrPack)) {
		t.Fatalf("%v with %v", err, list)
	}
	for _, m := range list {
		if m.Name == "" || m.At.IsZero() || strings.ContainsAny(m.Value, "eE+ ") {
			t.Fatalf("%+v", m)
		}
	}
}
