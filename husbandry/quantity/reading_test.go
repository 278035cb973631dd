package quantity

import (
	"errors"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
)

// Each line: quantity, lowest and highest plausible, usual from and to,
// canonical unit and basis. The bounds are our own choice; this pins them.
const boundsPinned = `
water_temperature -2 50 4 34 degC
air_temperature -60 65 -15 45 degC
ph 2 13 5.5 8.6 pH
total_ammonia 0 200 0 3 mg/L N
nitrite 0 100 0 2 mg/L N
nitrate 0 1000 0 150 mg/L N
dissolved_oxygen 0 40 4 15 mg/L O2
oxygen_saturation 0 400 50 120 %
alkalinity 0 2000 20 300 mg/L CaCO3
hardness 0 7000 20 500 mg/L CaCO3
conductivity 0 70000 50 4000 uS/cm
salinity 0 40 0 5 g/kg
carbon_dioxide 0 500 0 40 mg/L CO2
iron 0 100 0 5 mg/L Fe
phosphate 0 300 0 30 mg/L P
potassium 0 2000 0 300 mg/L K
calcium 0 1500 5 250 mg/L Ca
magnesium 0 2500 1 100 mg/L Mg
chlorine 0 20 0 4 mg/L Cl2
chloride 0 25000 5 500 mg/L Cl
flow 0 1000000 20 50000 L/h
level 0 20 0.02 3 m
light 0 3000 0 2200 umol/m2/s
humidity 0 100 15 100 %
pressure 500 1100 650 1050 hPa
appetite 0 4 2 4 rank
clarity 0 4 2 4 rank
`

func TestQuantities(t *testing.T) {
	lines := strings.Split(strings.TrimSpace(boundsPinned), "\n")
	if len(lines) != len(Quantities()) {
		t.Fatalf("%d quantities, %d pinned", len(Quantities()), len(lines))
	}
	for _, line := range lines {
		f := strings.Fields(line + " ")
		q, err := ParseQuantity(f[0])
		if err != nil {
			t.Fatal(err)
		}
		low, high := q.Plausible()
		usualLow, usualHigh := q.Usual()
		for i, v := range []float64{low, high, usualLow, usualHigh} {
			if want, _ := strconv.ParseFloat(f[i+1], 64); v != want {
				t.Errorf("%s: bound %d is %v, want %v", q, i, v, want)
			}
		}
		if want := strings.Join(f[5:], " "); strings.TrimSpace(q.Unit().String()+" "+q.Basis().String()) != want {
			t.Errorf("%s: kept in %s %s, want %s", q, q.Unit(), q.Basis(), want)
		}
		checkQuantity(t, q)
	}
}

func checkQuantity(t *testing.T, q Quantity) {
	t.Helper()
	low, high := q.Plausible()
	refuses(t, q.String(), low, high, func(v float64) error { _, err := Express(q, v, q.Unit(), q.Basis()); return err })
	usualLow, usualHigh := q.Usual()
	if q.Unusual(usualLow) || q.Unusual(usualHigh) || !q.Unusual(usualLow-1e-9) || !q.Unusual(usualHigh+1e-9) || !q.Unusual(math.NaN()) {
		t.Errorf("%s: usual range not kept", q)
	}
	if low > usualLow || high < usualHigh {
		t.Errorf("%s: usual range wider than plausible", q)
	}
	middle := math.Trunc((usualLow + usualHigh) / 2)
	if v, err := Canonical(q, middle, q.Unit(), q.Basis()); err != nil || v != middle {
		t.Errorf("%s: %v in its own unit becomes %v (%v)", q, middle, v, err)
	}
	if q.Title() == "" {
		t.Errorf("%s has no title", q)
	}
}

// Each line: quantity, value and unit as typed, canonical value. Worked out by
// hand from atomic weights and definitions; light from Thimijan & Heins 1983.
const typed = `
water_temperature | 77 F | 25
water_temperature | 300 K | 26.85
air_temperature | -40 F | -40
ph | 7.5 | 7.5
ph | 7.5 pH | 7.5
total_ammonia | 1.4 mg/L as N | 1.4
total_ammonia | 1.7031 ppm NH3 | 1.4007
total_ammonia | 1803.9 ug/L NH4 | 1.4007
total_ammonia | 0.1 mmol/L | 1.4007
total_ammonia | 100 umol/L as N | 1.4007
nitrite | 4.6005 mg/L NO2 | 1.4007
nitrite | 1.5 ppm NO2-N | 1.5
nitrite | 0.1 mmol/L | 1.4007
nitrate | 62.004 mg/L NO3 | 14.007
nitrate | 15 mg/L NO3-N | 15
nitrate | 1 mmol/L | 14.007
dissolved_oxygen | 7 ppm | 7
dissolved_oxygen | 0.25 mmol/L | 7.9995
oxygen_saturation | 95 % | 95
alkalinity | 4 dKH | 71.3918
alkalinity | 80 ppm CaCO3 | 80
alkalinity | 2 meq/L | 100.086
alkalinity | 61.016 mg/L HCO3 | 50.043
alkalinity | 10 fH | 100
alkalinity | 5 gpg | 85.5903
hardness | 10 dGH | 178.4796
hardness | 1 mmol/L | 100.086
hardness | 2 meq/L | 100.086
hardness | 100 mg/L as CaCO3 | 100
hardness | 10 Clark | 142.5377
conductivity | 1.2 mS/cm | 1200
conductivity | 600 ppm TDS500 | 1200
conductivity | 700 ppm TDS700 | 1000
salinity | 2 ppt | 2
salinity | 1.02637295 SG | 35
carbon_dioxide | 12 mg/L | 12
carbon_dioxide | 0.5 mmol/L | 22.0045
iron | 2 ppm | 2
iron | 0.01 mmol/L | 0.55845
phosphate | 3.0974 mg/L as P | 3.0974
phosphate | 9.497 mg/L PO4 | 3.0974
phosphate | 0.1 mmol/L | 3.0974
potassium | 80 ppm | 80
potassium | 1 mmol/L | 39.098
calcium | 60 ppm | 60
calcium | 60 ppm Ca | 60
calcium | 100.086 ppm CaCO3 | 40.078
calcium | 1 mmol/L | 40.078
magnesium | 20 ppm | 20
magnesium | 100.086 ppm CaCO3 | 24.305
magnesium | 1 mmol/L | 24.305
chlorine | 0.5 ppm | 0.5
chloride | 100 ppm | 100
chloride | 2 mmol/L | 70.9
flow | 5 gpm | 1135.6235
flow | 2 m3/h | 2000
level | 12 in | 0.3048
light | 500 umol/m2/s | 500
light | 54000 lux | 1000
light | 54000 lux sun | 1000
light | 74000 lux fluorescent | 1000
light | 71000 lux halide | 1000
light | 82000 lux sodium | 1000
light | 5016.76 fc sun | 1000
humidity | 60 % | 60
pressure | 29.92 inHg | 1013.2075
pressure | 1 atm | 1013.25
appetite | 3 rank | 3
clarity | 0 rank | 0
`

func TestCanonical(t *testing.T) {
	for line := range strings.Lines(strings.TrimSpace(typed)) {
		f := strings.Split(line, "|")
		q, err := ParseQuantity(strings.TrimSpace(f[0]))
		if err != nil {
			t.Fatal(err)
		}
		m, err := ParseMeasure(strings.TrimSpace(f[1]))
		if err != nil {
			t.Fatal(err)
		}
		want, _ := strconv.ParseFloat(strings.TrimSpace(f[2]), 64)
		got, err := m.Canonical(q)
		if err != nil || !(math.Abs(got-want) <= 2e-6*math.Max(1, math.Abs(want))) {
			t.Errorf("%s %s: got %v (%v), want %v", q, m, got, err, want)
		}
		if back, err := Express(q, got, m.Unit, m.Basis); err != nil || !(math.Abs(back-m.Value()) <= 1e-7*math.Max(1, m.Value())) {
			t.Errorf("%s %s came back as %v (%v)", q, m, back, err)
		}
	}
}

// TestEveryFormIsPinned makes sure that the lines above leave out no way in
// which a quantity may be given.
func TestEveryFormIsPinned(t *testing.T) {
	pinned := map[string]bool{}
	for line := range strings.Lines(typed) {
		name, rest, ok := strings.Cut(line, "|")
		if !ok {
			continue
		}
		q, _ := ParseQuantity(strings.TrimSpace(name))
		m, _ := ParseMeasure(strings.TrimSpace(strings.Split(rest, "|")[0]))
		form, err := accept(q, m.Unit, m.Basis)
		if err != nil {
			t.Fatal(err)
		}
		pinned[q.String()+strconv.Itoa(int(form.kind))+form.basis.String()] = true
	}
	for _, q := range Quantities() {
		for _, a := range q.row().accepts {
			if !pinned[q.String()+strconv.Itoa(int(a.kind))+a.basis.String()] {
				t.Errorf("%s: kind %d %s is not pinned", q, a.kind, a.basis)
			}
		}
	}
}

func TestCanonicalRefuses(t *testing.T) {
	for _, c := range []struct {
		q    Quantity
		text string
		want string
	}{
		{TotalAmmonia, "1 ppm", `total ammonia in ppm needs a basis; say which of N, NH3, NH4 the kit or meter reads`},
		{TotalAmmonia, "1 ppm NO3", `basis "NO3" does not fit total ammonia in ppm; use N, NH3, NH4`},
		{TotalAmmonia, "1", `unit "" does not fit total ammonia; use mg/L, ppm, ug/L, ppb, g/L, mmol/L, umol/L`},
		{Alkalinity, "4 dGH", `unit "dGH" does not fit alkalinity; use mg/L, ppm, ug/L, ppb, g/L, meq/L, dKH, degfH, degClark, gpg`},
		{Hardness, "4 dKH", `unit "dKH" does not fit hardness; use mg/L, ppm, ug/L, ppb, g/L, mmol/L, umol/L, meq/L, dGH, degfH, degClark, gpg`},
		{Nitrate, "5 mg/L", `nitrate in mg/L needs a basis; say which of N, NO3 the kit or meter reads`},
		{Phosphate, "5 mg/L", `phosphate in mg/L needs a basis; say which of P, PO4 the kit or meter reads`},
		{Conductivity, "500 ppm", `conductivity at 25 degC in ppm needs a basis; say which of TDS500, TDS700 the kit or meter reads`},
		{DissolvedOxygen, "90 %", `unit "%" does not fit dissolved oxygen; use mg/L, ppm, ug/L, ppb, g/L, mmol/L, umol/L`},
		{Acidity, "75", `pH 75 is outside 2 to 13 (plausible readings)`},
		{Appetite, "2.5 rank", `"2.5" is no word for appetite; use refuse, slow, usual, keen, boiling`},
		{UnknownQuantity, "1", `quantity "unknown quantity" is not known`},
		{quantityCount, "1", `quantity "unknown quantity" is not known`},
	} {
		m, err := ParseMeasure(c.text)
		if err != nil {
			t.Fatal(err)
		}
		v, err := m.Canonical(c.q)
		if err == nil || err.Error() != c.want || !math.IsNaN(v) {
			t.Errorf("%s %s: %v, %v", c.q, c.text, v, err)
		}
	}
	_, err := Canonical(Alkalinity, 4, UnitDKH, AsCaCO3)
	if err == nil || err.Error() != `basis "CaCO3" does not fit alkalinity in dKH, which takes none` {
		t.Error(err)
	}
	if _, err := Canonical(Flow, 1, unitCount, NoBasis); err == nil {
		t.Error("an unknown unit is taken")
	}
	if _, err := Canonical(Nitrate, 1, UnitPpm, basisCount); err == nil {
		t.Error("an unknown basis is taken")
	}
	if v, err := Canonical(SaltContent, 0.99, UnitSpecificGravity, NoBasis); err == nil || !math.IsNaN(v) {
		t.Error("water lighter than fresh has a salinity")
	}
	if _, err := Express(Nitrate, 1, UnitPpm, NoBasis); err == nil {
		t.Error("nitrate is expressed without a basis")
	}
}

func TestCanonicalRoundTrip(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 8))
	for range 1000 {
		q := Quantities()[random.IntN(len(Quantities()))]
		low, high := q.Plausible()
		v := low + (high-low)*random.Float64()
		if q.Words() != nil {
			v = math.Trunc(v)
		}
		units := q.Units()
		u := units[random.IntN(len(units))]
		b := NoBasis
		if fit := q.Bases(u); len(fit) > 0 {
			b = fit[random.IntN(len(fit))]
		}
		shown, err := Express(q, v, u, b)
		if err != nil {
			t.Fatalf("%s in %s %s: %v", q, u, b, err)
		}
		back, err := Canonical(q, shown, u, b)
		if err != nil || !(math.Abs(back-v) <= 1e-7*math.Max(1, math.Abs(v))) {
			t.Fatalf("%s: %v by way of %v %s %s came back as %v (%v)", q, v, shown, u, b, back, err)
		}
	}
}

func TestWords(t *testing.T) {
	for q, words := range map[Quantity]string{Appetite: "refuse slow usual keen boiling", Clarity: "opaque murky cloudy clear bright"} {
		if got := strings.Join(q.Words(), " "); got != words {
			t.Errorf("%s: %s", q, got)
		}
		for i, w := range q.Words() {
			if v, err := q.Rank(" " + strings.ToUpper(w)); err != nil || v != float64(i) {
				t.Errorf("%s %s: %v, %v", q, w, v, err)
			}
		}
	}
	var wrong *QuantityError
	if v, err := Clarity.Rank("milky"); !errors.As(err, &wrong) || !math.IsNaN(v) {
		t.Errorf("milky: %v, %v", v, err)
	}
	if _, err := ParseQuantity("smell"); err == nil || err.Error() != `quantity "smell" is not known` {
		t.Error(err)
	}
	if Flow.Words() != nil || Flow.Bases(UnitGallonPerMin) != nil || Flow.Bases(unitCount) != nil {
		t.Error("flow has words or bases")
	}
}
