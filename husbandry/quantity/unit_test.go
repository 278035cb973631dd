package quantity

import (
	"errors"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
)

// Each line: unit, a value in it, the unit it is compared in, the value there.
// The values are by definition, or worked out apart from NIST SP 811.
const unitValues = `
degF 212 degC 100
degF 32 degC 0
K 273.15 degC 0
pH 7 pH 7
ppm 7 mg/L 7
ug/L 1500 mg/L 1.5
ppb 1500 mg/L 1.5
g/L 2 mg/L 2000
umol/L 1500 mmol/L 1.5
meq/L 3 meq/L 3
dKH 1 dKH 1
dGH 1 dGH 1
degfH 1.7848 degClark 1.252160
gpg 1 degfH 1.71181
degClark 1 degfH 1.42538
ppt 35 g/kg 35
psu 35 g/kg 35
SG 1.02 SG 1.02
% 50 % 50
mS/cm 1.5 uS/cm 1500
dS/m 1.5 uS/cm 1500
CF 15 uS/cm 1500
L/min 2 L/h 120
L/s 2 L/h 7200
L/d 48 L/h 2
m3/h 2 L/h 2000
gpm 1 L/h 227.12470704
gph 1 L/h 3.785411784
gpd 24 L/h 3.785411784
cm 150 m 1.5
mm 1500 m 1.5
ft 10 m 3.048
in 10 m 0.254
umol/m2/s 5 umol/m2/s 5
fc 1 lux 10.763910417
mbar 1000 hPa 1000
kPa 100 hPa 1000
Pa 100000 hPa 1000
bar 1 hPa 1000
atm 1 hPa 1013.25
mmHg 760 hPa 1013.25
inHg 1 hPa 33.86388640
psi 1 hPa 68.947572932
mL 1500 L 1.5
m3 2 L 2000
gal 1 L 3.785411784
qt 4 L 3.785411784
pt 8 L 3.785411784
cup 16 L 3.785411784
floz 128 L 3.785411784
ft3 1 L 28.316846592
acre-ft 1 L 1233481.83754752
impgal 1 L 4.54609
ha 2 m2 20000
ft2 1 m2 0.09290304
acre 1 m2 4046.8564224
mg 1500 g 1.5
kg 1.5 g 1500
t 2 kg 2000
lb 1 g 453.59237
oz 16 g 453.59237
shortton 1 kg 907.18474
kg/m2 2 g/m2 2000
t/ha 50 kg/m2 5
lb/ft2 1 g/m2 4882.427636383
shortton/acre 1 g/m2 224.170231
rank 3 rank 3
`

func TestUnitsConvert(t *testing.T) {
	seen := map[Unit]bool{}
	for line := range strings.Lines(strings.TrimSpace(unitValues)) {
		f := strings.Fields(line)
		from, to := unit(t, f[0]), unit(t, f[2])
		seen[from], seen[to] = true, true
		value, _ := strconv.ParseFloat(f[1], 64)
		want, _ := strconv.ParseFloat(f[3], 64)
		got, err := Convert(value, from, to)
		if err != nil || got-want > 2e-6*(1+want) || want-got > 2e-6*(1+want) {
			t.Errorf("%v %v: got %v %v (%v), want %v", value, from, got, to, err, want)
		}
		back, err := Convert(got, to, from)
		if err != nil || !close9(back, value) {
			t.Errorf("%v %v came back as %v (%v)", value, from, back, err)
		}
	}
	for _, u := range Units() {
		if !seen[u] {
			t.Errorf("%v is not pinned", u)
		}
	}
	if len(Units()) != int(unitCount)-1 {
		t.Errorf("%d units listed", len(Units()))
	}
}

func unit(t *testing.T, text string) Unit {
	t.Helper()
	u, basis, err := ParseUnit(text)
	if err != nil || basis != NoBasis || u.String() != text {
		t.Fatalf("%q reads as %v %v (%v)", text, u, basis, err)
	}
	return u
}

func TestUnitsRoundTrip(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	for range 1000 {
		v := 1000 * random.Float64()
		from := Unit(1 + random.IntN(int(unitCount)-1))
		to := Unit(1 + random.IntN(int(unitCount)-1))
		there, err := Convert(v, from, to)
		if units[from].kind != units[to].kind {
			var wrong *UnitError
			if !errors.As(err, &wrong) {
				t.Fatalf("%v turned into %v", from, to)
			}
			continue
		}
		back, err2 := Convert(there, to, from)
		if err != nil || err2 != nil || !close9(back, v) {
			t.Fatalf("%v %v by way of %v came back as %v", v, from, to, back)
		}
	}
}

func TestConvertRefuses(t *testing.T) {
	for _, c := range []struct{ from, to Unit }{{UnitGallon, UnitPound}, {unitCount, UnitLitre}, {UnitLitre, unitCount}} {
		if _, err := Convert(1, c.from, c.to); err == nil {
			t.Errorf("%v turned into %v", c.from, c.to)
		}
	}
	_, err := Convert(1, UnitPound, UnitHectare)
	if err == nil || err.Error() != `unit "lb" does not fit ha; use m2, ha, ft2, acre` {
		t.Error(err)
	}
	if got := unitCount.String(); got != "unknown unit" {
		t.Error(got)
	}
	if symbolsOf(unitCount) != nil {
		t.Error("an unknown unit has companions")
	}
}

// TestSpellings pins how people write units and bases, from labels of kits,
// meters and bags.
func TestSpellings(t *testing.T) {
	for text, want := range map[string]string{
		"": " ", "F": "degF ", "\u00b0F": "degF ", "\u00ba C": "degC ", "degrees C": "degC ", "celsius": "degC ", "kelvin": "K ",
		"fahrenheit": "degF ", "PH": "pH ", "mg / L": "mg/L ", "milligrams per litre": "mg/L ", "mcg/L": "ug/L ", "\u00b5g/L": "ug/L ",
		"g/liter": "g/L ", "millimolar": "mmol/L ", "micromolar": "umol/L ", "meq": "meq/L ", "kh": "dKH ", "GH": "dGH ",
		"\u00b0fH": "degfH ", "Clark degrees": "degClark ", "grains/gal": "gpg ", "\u2030": "ppt ", "specific gravity": "SG ",
		"percent": "% ", "% RH": "% ", "uS": "uS/cm ", "EC": "mS/cm ", "lph": "L/h ", "lpm": "L/min ", "l/sec": "L/s ", "L/day": "L/d ",
		"m\u00b3/h": "m3/h ", "gal/min": "gpm ", "gal/hour": "gph ", "gal/day": "gpd ", "meters": "m ", "centimeters": "cm ",
		"millimeters": "mm ", "feet": "ft ", "inches": "in ", "\u00b5mol m\u207b\u00b2 s\u207b\u00b9": "umol/m2/s ", "PPFD": "umol/m2/s ",
		"lx": "lux ", "foot-candles": "fc ", "mb": "mbar ", "torr": "mmHg ", "\"Hg": "inHg ", "liters": "L ", "milliliters": "mL ",
		"cubic meters": "m3 ", "US gallons": "gal ", "quarts": "qt ", "pints": "pt ", "cups": "cup ", "fl. oz.": "floz ", "fl oz": "floz ",
		"cu ft": "ft3 ", "acre-feet": "acre-ft ", "UK gal": "impgal ", "sq m": "m2 ", "hectares": "ha ", "sq ft": "ft2 ", "acres": "acre ",
		"grams": "g ", "milligrams": "mg ", "kilos": "kg ", "tonnes": "t ", "lbs": "lb ", "ounces": "oz ", "short tons": "shortton ",
		"lbs/sqft": "lb/ft2 ", "short tons/acre": "shortton/acre ",
		"mg/L as N": "mg/L N", "ppm NH3-N": "ppm N", "ppm (NH3)": "ppm NH3", "mg/L NO\u2083\u207b": "mg/L NO3", "ppm as NH4+": "ppm NH4",
		"mg/L nitrite": "mg/L NO2", "mg/L-N": "mg/L N", "ppm, CaCO3": "ppm CaCO3", "mg/l bicarbonate": "mg/L HCO3", "ppm calcium": "ppm Ca",
		"ppm magnesium": "ppm Mg", "mg/L PO4-P": "mg/L P", "ppm phosphate": "ppm PO4", "ppm K": "ppm K", "ppm iron": "ppm Fe",
		"ppm chloride": "ppm Cl", "ppm chlorine": "ppm Cl2", "mg/L O2": "mg/L O2", "mg/L CO2": "mg/L CO2", "ppm 500 scale": "ppm TDS500",
		"ppm TDS700": "ppm TDS700", "lux sun": "lux sun", "fc HPS": "fc sodium", "lux halide": "lux halide", "lux cool white": "lux fluorescent",
	} {
		u, b, err := ParseUnit(text)
		if got := u.String() + " " + b.String(); err != nil || got != want {
			t.Errorf("%q reads as %q (%v), want %q", text, got, err, want)
		}
	}
	for _, text := range []string{"furlong", "cl", "mg/L as X", "gallons of", "f k", "N"} {
		var wrong *UnitError
		if u, b, err := ParseUnit(text); !errors.As(err, &wrong) || u != NoUnit || b != NoBasis {
			t.Errorf("%q reads as %v %v (%v)", text, u, b, err)
		}
	}
}

func TestNoSpellingTwice(t *testing.T) {
	seen := map[string]Unit{}
	for u := range unitCount {
		for _, word := range append(strings.Fields(units[u].spelt), strings.ToLower(units[u].symbol)) {
			if other, taken := seen[word]; taken {
				t.Errorf("%q is both %v and %v", word, other, u)
			}
			if squeeze(word) != word {
				t.Errorf("%q can never be met", word)
			}
			seen[word] = u
		}
	}
	bySpelling := map[string]Basis{}
	for b := range basisCount {
		for _, word := range append(strings.Fields(bases[b].spelt), strings.ToLower(bases[b].symbol)) {
			if other, taken := bySpelling[word]; taken {
				t.Errorf("%q is both %v and %v", word, other, b)
			}
			bySpelling[word] = b
		}
	}
}

func TestBasisReads(t *testing.T) {
	if b, err := ParseBasis("as NO3"); b != AsNO3 || err != nil {
		t.Error(b, err)
	}
	if b, err := ParseBasis(""); b != NoBasis || err != nil {
		t.Error(b, err)
	}
	_, err := ParseBasis("gold")
	if err == nil || err.Error() != `basis "gold" is not known` {
		t.Error(err)
	}
	if got := basisCount.String(); got != "unknown basis" {
		t.Error(got)
	}
}
