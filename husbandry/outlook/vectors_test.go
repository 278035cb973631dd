package outlook

import (
	"encoding/json"
	"flag"
	"math"
	"os"
	"testing"

	"freshet.example/husbandry/quantity"
)

var writeVectors = flag.Bool("write", false, "write testdata/vectors/outlook.json anew")

const vectorsFile = "../../testdata/vectors/outlook.json"

// vectors are a loop's past and what is told of its days to come. The app's module
// of the same source answers the same, as its own tests see.
type vectors struct {
	Loop      [6]float64   `json:"loop"`
	Hours     [][8]float64 `json:"hours"` // air, sun, feed, fish, changed, base, still, cleaned
	Tests     [][4]float64 `json:"tests"` // hour, figure, value, below
	Rest      int          `json:"rest"`
	Otherwise struct {
		FeedShare     quantity.Fraction  `json:"feedShare"`
		UnfedDays     int                `json:"unfedDays"`
		AddedFishKg   quantity.Kilograms `json:"addedFishKg"`
		StillHours    int                `json:"stillHours"`
		AirWarmerK    float64            `json:"airWarmerK"`
		ReplacedShare quantity.Fraction  `json:"replacedShare"`
	} `json:"otherwise"`
	Records [readable][2]int  `json:"records"` // held, asked
	Usual   [Figures][3]daily `json:"usual"`   // mean of each figure on three days
	Other   [Figures][3]daily `json:"other"`
}

// daily is low, middle and high at 8 in 10, and the chance to pass the middle of the first day.
type daily [4]float64

func TestVectors(t *testing.T) {
	v, want := readVectors(t), readVectors(t)
	v.answer(t)
	if *writeVectors {
		text, err := json.Marshal(v)
		if err == nil {
			err = os.WriteFile(vectorsFile, append(text, '\n'), 0o600)
		}
		if err != nil {
			t.Fatal(err)
		}
		return
	}
	if v.Records != want.Records {
		t.Errorf("records %v, kept are %v", v.Records, want.Records)
	}
	for f := range Figures {
		for day := range 3 {
			for i := range len(daily{}) {
				for _, pair := range [][2]float64{{v.Usual[f][day][i], want.Usual[f][day][i]}, {v.Other[f][day][i], want.Other[f][day][i]}} {
					if !(math.Abs(pair[0]-pair[1]) <= 1e-6*math.Max(1, math.Abs(pair[1]))) {
						t.Errorf("figure %d, day %d, number %d: %v, kept is %v", f, day, i, pair[0], pair[1])
					}
				}
			}
		}
	}
}

func readVectors(t *testing.T) *vectors {
	t.Helper()
	v := &vectors{}
	text, err := os.ReadFile(vectorsFile)
	if err == nil {
		err = json.Unmarshal(text, v)
	}
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func (v *vectors) answer(t *testing.T) {
	t.Helper()
	var past []Hour
	for _, h := range v.Hours {
		past = append(past, Hour{Air: h[0], Sun: h[1], Feed: h[2], Fish: h[3], Changed: h[4], Base: h[5], Still: h[6] == 1, Cleaned: h[7] == 1})
	}
	var readings []Reading
	for _, r := range v.Tests {
		readings = append(readings, Reading{int(r[0]), Figure(r[1]), r[2], r[3] == 1})
	}
	l := Loop{quantity.Litres(v.Loop[0]), quantity.SquareMetres(v.Loop[1]), quantity.SquareMetres(v.Loop[2]), quantity.Atmospheres(v.Loop[3]), quantity.AlkalinityCaCO3(v.Loop[4]), quantity.NitrateN(v.Loop[5])}
	o, err := Learn(l, past, readings, 1)
	if err != nil {
		t.Fatal(err)
	}
	for f := range readable {
		v.Records[f][0], v.Records[f][1] = o.Held(f)
	}
	w := v.Otherwise
	other := Otherwise{w.FeedShare, w.UnfedDays, w.AddedFishKg, w.StillHours, w.AirWarmerK, w.ReplacedShare}
	v.Usual = v.tell(t, o, l, Otherwise{FeedShare: 1})
	v.Other = v.tell(t, o, l, other)
}

func (v *vectors) tell(t *testing.T, o *Outlook, l Loop, otherwise Otherwise) (told [Figures][3]daily) {
	t.Helper()
	plan, err := otherwise.Plan(o.Usual(v.Rest+3*24), v.Rest, l.Litres)
	if err != nil {
		t.Fatal(err)
	}
	a, err := o.Ahead(plan, v.Rest)
	if err != nil {
		t.Fatal(err)
	}
	for f := range Figures {
		limit := 0.0
		for day := range 3 {
			fan, err := a.Fan(f, Mean, day, 0.8)
			if day == 0 {
				limit = fan.Middle
			}
			passes, other := a.Past(f, day, limit, true)
			if err != nil || other != nil {
				t.Fatal(err, other)
			}
			told[f][day] = daily{fan.Low, fan.Middle, fan.High, float64(passes)}
		}
	}
	return told
}
