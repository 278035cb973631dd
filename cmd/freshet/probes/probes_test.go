package probes_test

import (
	"bytes"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
	"time"

	"google.golang.org/protobuf/types/known/fieldmaskpb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/cmd/freshet/probes"
	"freshet.example/cmd/freshet/words"
)

var now = time.Date(2026, 3, 2, 8, 0, 0, 0, time.UTC)

const sheet = `name,quantity,at,unit
box/temp,water_temperature,Fish tank,
box/ph,ph,Fish tank,
box/o2,dissolved_oxygen,Fish tank,mg/L
box/ec,conductivity,,
air/temp,air_temperature,,
air/rh,humidity,,
air/p,pressure,,
`

// withTank is a device with a site and a tank, and its desk.
func withTank(t *testing.T) (*device.Device, words.Desk) {
	t.Helper()
	d, err := device.Open(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = d.Close() })
	site, err := d.Set(t.Context(), &freshetv1.Edit{Fields: &fieldmaskpb.FieldMask{Paths: []string{"name"}},
		Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{Name: "Barn"}}})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := d.Set(t.Context(), &freshetv1.Edit{SiteId: site, Fields: &fieldmaskpb.FieldMask{Paths: []string{"name"}},
		Record: &freshetv1.Edit_Vessel{Vessel: &freshetv1.Vessel{Name: "Fish tank"}}}); err != nil {
		t.Fatal(err)
	}
	records, err := d.Records(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return d, words.Desk{Book: words.NewBook(records, nil), SiteID: site, Now: now}
}

func handler(t *testing.T, key string) (*device.Device, http.Handler, *[]string) {
	t.Helper()
	d, _ := withTank(t)
	unknown := &[]string{}
	return d, over(t, d, key, unknown), unknown
}

// over is a gateway's handler over a device.
func over(t *testing.T, d *device.Device, key string, unknown *[]string) http.Handler {
	t.Helper()
	records, err := d.Records(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	book := words.NewBook(records, nil)
	known, err := probes.Read(strings.NewReader(sheet), words.Desk{Book: book, SiteID: book.Of("", "site")[0].ID, Now: now})
	if err != nil {
		t.Fatal(err)
	}
	g, err := probes.New(t.Context(), d, known, func() time.Time { return now })
	if err != nil {
		t.Fatal(err)
	}
	return g.Handler(key, func(names []string) { *unknown = append(*unknown, names...) })
}

func post(h http.Handler, media string, body io.Reader) *httptest.ResponseRecorder {
	r := httptest.NewRequest(http.MethodPost, "/", body)
	r.Header.Set("Content-Type", media)
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

func read(t *testing.T, d *device.Device) []string {
	t.Helper()
	entries, err := d.Entries(t.Context(), device.Want{Kinds: []string{"reading"}})
	if err != nil {
		t.Fatal(err)
	}
	var list []string
	for _, e := range entries {
		r := e.Event.GetReading()
		list = append(list, fmt.Sprint(words.QuantityName(r.GetQuantity()), " ", r.GetDigits(), "e-", r.GetDecimals(), " ",
			r.GetUnit(), " ", e.Event.GetOccurredAt().AsTime().Format("15:04:05"), " ", r.GetPlaceId() != "", " ", r.GetMethod()))
	}
	slices.Sort(list)
	return list
}

const list = `[{"bn":"box/","bt":1772438100,"n":"temp","u":"Cel","v":23.10},{"n":"ph","u":"pH","v":7.2},{"n":"o2","u":"mg/l","v":6.5},
	{"n":"ec","u":"S/m","v":0.08},{"n":"lid","vb":true},{"n":"ph","u":"pH","v":71},{"n":"ph","vs":"dry"},{"n":"temp","u":"furlong","v":20},
	{"n":"temp","u":"Cel","v":24,"t":90000},
	{"bn":"air/","n":"temp","u":"K","v":295.5},{"n":"rh","u":"%RH","v":61,"t":-1},{"n":"p","u":"Pa","v":101325}]`

var noted = []string{
	"air_temperature 2955e-1 UNIT_KELVIN 07:55:00 false METHOD_PROBE",
	"conductivity 8e-1 UNIT_MS_PER_CM 07:55:00 false METHOD_PROBE",
	"dissolved_oxygen 65e-1 UNIT_MG_PER_L 07:55:00 true METHOD_PROBE",
	"humidity 61e-0 UNIT_PERCENT 07:54:59 false METHOD_PROBE",
	"ph 72e-1 UNIT_NONE 07:55:00 true METHOD_PROBE",
	"pressure 101325e-2 UNIT_HPA 07:55:00 false METHOD_PROBE",
	"water_temperature 2310e-2 UNIT_CELSIUS 07:55:00 true METHOD_PROBE",
}

// What is known is noted, in the digits it was sent in; the rest is told. Sent
// again, nothing is noted twice, also by a gateway that was started anew.
func TestWhatProbesSendIsNoted(t *testing.T) {
	d, h, unknown := handler(t, "")
	for _, want := range []struct{ noted, again int }{{7, 0}, {0, 7}} {
		w := post(h, "application/senml+json", strings.NewReader(list))
		var told probes.Taken
		if err := json.Unmarshal(w.Body.Bytes(), &told); err != nil || w.Code != http.StatusOK {
			t.Fatalf("%d %s %v", w.Code, w.Body, err)
		}
		if told.Noted != want.noted || told.Again != want.again || !slices.Equal(told.Unknown, []string{"box/lid"}) || len(told.NotTaken) != 4 {
			t.Errorf("%s", w.Body)
		}
		if got := read(t, d); !slices.Equal(got, noted) {
			t.Errorf("noted\n%s", strings.Join(got, "\n"))
		}
		h = over(t, d, "", unknown)
	}
	if !slices.Equal(*unknown, []string{"box/lid", "box/lid"}) {
		t.Errorf("heeded: %v", *unknown)
	}
}

func TestAListInCBOR(t *testing.T) {
	d, h, _ := handler(t, "")
	// [{n: "box/ph", v: 4([-2, 720]), t: 1772438100}]
	raw, err := hex.DecodeString("81a3" + "00" + "66626f782f7068" + "02" + "c482211902d0" + "06" + "1a69a54254")
	if err != nil {
		t.Fatal(err)
	}
	w := post(h, "application/senml+cbor", bytes.NewReader(raw))
	if got := read(t, d); w.Code != http.StatusOK || !slices.Equal(got, []string{"ph 720e-2 UNIT_NONE 07:55:00 true METHOD_PROBE"}) {
		t.Errorf("%d %s %v", w.Code, w.Body, got)
	}
}

func TestWhatCannotBeTakenIsAnswered(t *testing.T) {
	d, h, _ := handler(t, "")
	good := `[{"n":"box/ph","v":7.2}]`
	for _, c := range []struct {
		media, body string
		want        int
	}{
		{"application/senml+json", "[", http.StatusBadRequest}, {"text/plain", good, http.StatusUnsupportedMediaType}, {"", good, http.StatusUnsupportedMediaType},
		{"application/senml+cbor", good, http.StatusBadRequest}, {"application/senml+json", `[{"n":"box/ph","v":99}]`, http.StatusUnprocessableEntity},
		{"application/senml+json", `[{"n":"nobody","v":9}]`, http.StatusUnprocessableEntity}, {"application/senml+json", `[]`, http.StatusOK},
		{"application/senml+json", "[" + strings.Repeat(" ", 1<<20) + "]", http.StatusRequestEntityTooLarge},
		{"application/json; charset=utf-8", good, http.StatusOK},
	} {
		if w := post(h, c.media, strings.NewReader(c.body)); w.Code != c.want {
			t.Errorf("%s %.40q: %d %s, want %d", c.media, c.body, w.Code, w.Body, c.want)
		}
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest(http.MethodGet, "/", nil))
	if w.Code != http.StatusMethodNotAllowed {
		t.Errorf("GET: %d", w.Code)
	}
	if err := d.Close(); err != nil {
		t.Fatal(err)
	}
	if w := post(h, "application/senml+json", strings.NewReader(`[{"n":"box/ph","v":7.3}]`)); w.Code != http.StatusServiceUnavailable {
		t.Errorf("nothing can be kept: %d %s", w.Code, w.Body)
	}
}

func TestStrangersAndTheHastyAreSentAway(t *testing.T) {
	d, h, _ := handler(t, "a key of the grower's")
	if w := post(h, "application/senml+json", strings.NewReader(`[{"n":"box/ph","v":7.2}]`)); w.Code != http.StatusUnauthorized || len(read(t, d)) != 0 {
		t.Errorf("without the key: %d", w.Code)
	}
	r := httptest.NewRequest(http.MethodPost, "/", strings.NewReader(`[{"n":"box/ph","v":7.2}]`))
	r.Header.Set("Content-Type", "application/senml+json")
	r.Header.Set("Authorization", "Bearer a key of the grower's")
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	if w.Code != http.StatusOK || len(read(t, d)) != 1 {
		t.Errorf("with the key: %d %s", w.Code, w.Body)
	}
	_, h, _ = handler(t, "")
	for range 2000 { // a minute and a half's worth
		if post(h, "text/plain", strings.NewReader("")).Code == http.StatusTooManyRequests {
			return
		}
	}
	t.Error("nobody is told to wait")
}

func TestASheetThatCannotBeUsedNamesTheLine(t *testing.T) {
	_, desk := withTank(t)
	for text, says := range map[string]string{
		"": "EOF", "name,quantity,colour\n": "colour", "quantity\nph\n": "first line", "name,name\n": "each once",
		"name,quantity\na,ph\na,ph\n": "line 3", "name,quantity\n,ph\n": "line 2", "name,quantity\na,clouds\n": "clouds",
		"name,quantity,unit\na,ph,furlong\n": "furlong", "name,quantity,at\na,ph,Pond\n": "Pond", "name,quantity\na,ph,x\n": "wrong number",
	} {
		if known, err := probes.Read(strings.NewReader(text), desk); !errors.Is(err, probes.ErrSheet) || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v, %v", text, known, err)
		}
	}
	desk.SiteID = ""
	if _, err := probes.Read(strings.NewReader("name,quantity\na,ph\n"), desk); !errors.Is(err, probes.ErrSheet) {
		t.Errorf("of many sites none is meant: %v", err)
	}
}
