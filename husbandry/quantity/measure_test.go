package quantity

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
)

func TestParseMeasure(t *testing.T) {
	for text, want := range map[string]Measure{
		"7,5":              {75, 1, Exact, NoUnit, NoBasis},
		"7.50":             {750, 2, Exact, NoUnit, NoBasis},
		"<0.25 ppm":        {25, 2, Less, UnitPpm, NoBasis},
		"\u2264 0.25 ppm":  {25, 2, Less, UnitPpm, NoBasis},
		"<= 1":             {1, 0, Less, NoUnit, NoBasis},
		"less than 5 mg/L": {5, 0, Less, UnitMgPerL, NoBasis},
		"under 5":          {5, 0, Less, NoUnit, NoBasis},
		"Below 5":          {5, 0, Less, NoUnit, NoBasis},
		">160 ppm as NO3":  {160, 0, More, UnitPpm, AsNO3},
		">= 8":             {8, 0, More, NoUnit, NoBasis},
		"\u2265 8":         {8, 0, More, NoUnit, NoBasis},
		"more than 8":      {8, 0, More, NoUnit, NoBasis},
		"over 8":           {8, 0, More, NoUnit, NoBasis},
		"above 8":          {8, 0, More, NoUnit, NoBasis},
		"78F":              {78, 0, Exact, UnitFahrenheit, NoBasis},
		"1 1/2 gal":        {15, 1, Exact, UnitGallon, NoBasis},
		"1\u00bd gal":      {15, 1, Exact, UnitGallon, NoBasis},
		"\u00bc cup":       {25, 2, Exact, UnitCup, NoBasis},
		"2\u00be lb":       {275, 2, Exact, UnitPound, NoBasis},
		"\u215b":           {125, 3, Exact, NoUnit, NoBasis},
		"\u215c":           {375, 3, Exact, NoUnit, NoBasis},
		"\u215d":           {625, 3, Exact, NoUnit, NoBasis},
		"\u215e":           {875, 3, Exact, NoUnit, NoBasis},
		"3/4 lb":           {75, 2, Exact, UnitPound, NoBasis},
		"6/2":              {3, 0, Exact, NoUnit, NoBasis},
		"1/64 in":          {15625, 6, Exact, UnitInch, NoBasis},
		"9999 9999/1000":   {10008999, 3, Exact, NoUnit, NoBasis},
		"123456 1/2":       {1234565, 1, Exact, NoUnit, NoBasis},
		"4 dKH":            {4, 0, Exact, UnitDKH, NoBasis},
		"-3 C":             {-3, 0, Exact, UnitCelsius, NoBasis},
		"\u22120.5 C":      {-5, 1, Exact, UnitCelsius, NoBasis},
		"1,250.5 L":        {12505, 1, Exact, UnitLitre, NoBasis},
		"1.250,5 L":        {12505, 1, Exact, UnitLitre, NoBasis},
		"1,250,000 g":      {1250000, 0, Exact, UnitGram, NoBasis},
		"1.250.000 g":      {1250000, 0, Exact, UnitGram, NoBasis},
		"12,345,678.9":     {123456789, 1, Exact, NoUnit, NoBasis},
		"0,250":            {250, 3, Exact, NoUnit, NoBasis},
		"1234,500":         {1234500, 3, Exact, NoUnit, NoBasis},
		"1,25":             {125, 2, Exact, NoUnit, NoBasis},
		".5":               {5, 1, Exact, NoUnit, NoBasis},
		",500":             {500, 3, Exact, NoUnit, NoBasis},
		"1.250":            {1250, 3, Exact, NoUnit, NoBasis},
		"007":              {7, 0, Exact, NoUnit, NoBasis},
		"999999999999999":  {999999999999999, 0, Exact, NoUnit, NoBasis},
		"0.00000000000001": {1, 14, Exact, NoUnit, NoBasis},
		" 12 mg/L NO3-N ":  {12, 0, Exact, UnitMgPerL, AsN},
		"1200 \u00b5S/cm":  {1200, 0, Exact, UnitUSPerCm, NoBasis},
		"22.5 \u00b0C":     {225, 1, Exact, UnitCelsius, NoBasis},
		"0.1 mmol/L as N":  {1, 1, Exact, UnitMmolPerL, AsN},
		"1/2 oz":           {5, 1, Exact, UnitOunce, NoBasis},
		"100000/2":         {0, 0, Exact, NoUnit, NoBasis}, // refused below: too long a fraction
		"30.1 \"Hg":        {301, 1, Exact, UnitInHg, NoBasis},
		"8 fl oz":          {8, 0, Exact, UnitFluidOunce, NoBasis},
		"500 lux sun":      {500, 0, Exact, UnitLux, UnderSun},
		"0":                {0, 0, Exact, NoUnit, NoBasis},
		"0.0 ppm":          {0, 1, Exact, UnitPpm, NoBasis},
		"1.2E-03 mg/L":     {12, 4, Exact, UnitMgPerL, NoBasis},
		"-1.25e1":          {-125, 1, Exact, NoUnit, NoBasis},
		"1,2e+3 L":         {1200, 0, Exact, UnitLitre, NoBasis},
		"12e0":             {12, 0, Exact, NoUnit, NoBasis},
	} {
		got, err := ParseMeasure(text)
		if text == "100000/2" {
			if err == nil {
				t.Errorf("%q reads as %v", text, got)
			}
			continue
		}
		if err != nil || got != want {
			t.Errorf("%q reads as %+v (%v), want %+v", text, got, err, want)
		}
	}
}

func TestParseMeasureRefuses(t *testing.T) {
	for text, want := range map[string]string{
		"":                      `"" does not begin with a number; write it like 7.5 or <0.25`,
		"ppm":                   `"ppm" does not begin with a number; write it like 7.5 or <0.25`,
		"<":                     `"<" does not begin with a number; write it like 7.5 or <0.25`,
		"--1":                   `"--1" does not begin with a number; write it like 7.5 or <0.25`,
		"1,250":                 `"1,250" can be read in two ways; write 1250 or 1.250`,
		"125,250 L":             `"125,250 L" can be read in two ways; write 125250 or 125.250`,
		"7.":                    `"7." ends its number with a point or comma`,
		"7,":                    `"7," ends its number with a point or comma`,
		"1..2":                  `"1..2" groups its digits oddly`,
		"1,2,3":                 `"1,2,3" groups its digits oddly`,
		"1,23,456":              `"1,23,456" groups its digits oddly`,
		"1234,567,890":          `"1234,567,890" groups its digits oddly`,
		",234,567":              `",234,567" groups its digits oddly`,
		"1,25.5":                `"1,25.5" groups its digits oddly`,
		"1,250.5,5.5":           `"1,250.5,5.5" has several points and commas`,
		"1/3 cup":               `"1/3 cup" has a fraction that is no exact decimal; write it as a decimal`,
		"1/128":                 `"1/128" has a fraction that is no exact decimal; write it as a decimal`,
		"1/0":                   `"1/0" has a fraction that is no exact decimal; write it as a decimal`,
		"1000000000000000":      `"1000000000000000" has more digits than can be kept; write at most 15`,
		"0.0000000000000000001": `"0.0000000000000000001" has more digits than can be kept; write at most 15`,
		"1.5 1/2":               `unit "1/2" is not known`,
		"1234567 1/2":           `unit "1/2" is not known`,
		"1 12345/2":             `unit "12345/2" is not known`,
		"1 1/12345":             `unit "1/12345" is not known`,
		"5 / L":                 `unit "/ L" is not known`,
		"1.5/2":                 `unit "/2" is not known`,
		"1e":                    `unit "e" is not known`,
		"1e--5":                 `unit "e--5" is not known`,
		"1e15":                  `"1e15" has more digits than can be kept; write at most 15`,
		"1e308":                 `unit "e308" is not known`,
		"1e-308":                `unit "e-308" is not known`,
		"7-8":                   `unit "-8" is not known`,
		"5 furlongs":            `unit "furlongs" is not known`,
	} {
		m, err := ParseMeasure(text)
		if err == nil || err.Error() != want || m != (Measure{}) {
			t.Errorf("%q: %+v, %v", text, m, err)
		}
		var notNumber *ParseError
		var notUnit *UnitError
		if !errors.As(err, &notNumber) && !errors.As(err, &notUnit) {
			t.Errorf("%q: %T", text, err)
		}
	}
}

func TestMeasureRoundTrip(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 10))
	for range 1000 {
		m := Measure{Digits: random.Int64N(2e9) - 1e9, Decimals: random.IntN(12), Censored: Censored(random.IntN(3)), Unit: Unit(random.IntN(int(unitCount)))}
		if takesBasis(units[m.Unit].kind) {
			m.Basis = Basis(random.IntN(int(basisCount)))
		}
		back, err := ParseMeasure(m.String())
		if err != nil || back != m {
			t.Fatalf("%+v writes %q and reads %+v (%v)", m, m, back, err)
		}
		if want := float64(m.Digits) * math.Pow10(-m.Decimals); !(math.Abs(m.Value()-want) <= 1e-12*math.Abs(want)) {
			t.Fatalf("%s is %v", m, m.Value())
		}
	}
}

func TestMeasureValue(t *testing.T) {
	if v := (Measure{Digits: 1, Decimals: 1}).Value(); v != 0.1 {
		t.Error(v) // the nearest float64 to a tenth
	}
	for _, m := range []Measure{
		{Digits: 1_000_000_000_000_000}, {Digits: -1_000_000_000_000_000}, {Digits: 1, Decimals: 16}, {Digits: 1, Decimals: -1},
	} {
		if !math.IsNaN(m.Value()) {
			t.Errorf("%+v is %v", m, m.Value())
		}
	}
	for m, want := range map[Measure]float64{
		{Digits: 999_999_999_999_999}: 999_999_999_999_999, {Digits: -999_999_999_999_999}: -999_999_999_999_999, {Digits: 5, Decimals: 15}: 5e-15,
	} {
		if m.Value() != want {
			t.Errorf("%+v is %v", m, m.Value())
		}
	}
	for m, want := range map[Measure]string{
		{Digits: -5, Decimals: 2}: "-0.05", {Digits: 0, Decimals: 1}: "0.0", {Digits: 123, Decimals: 3}: "0.123", {Digits: 1234, Decimals: 3}: "1.234",
		{Digits: 5, Decimals: -2}: "5", {Digits: 25, Decimals: 2, Censored: Less, Unit: UnitPpm, Basis: AsNH3}: "<0.25 ppm as NH3",
		{Digits: 8, Censored: More}: ">8", {Digits: 80, Unit: UnitPercent}: "80 %",
	} {
		if m.String() != want {
			t.Errorf("%+v writes %q", m, m)
		}
	}
}

func TestShow(t *testing.T) {
	for _, c := range []struct {
		v       float64
		figures int
		want    string
	}{
		{0.05364, 2, "0.054"}, {1234.5, 2, "1234"}, {1235.5, 2, "1236"}, {7.456, 2, "7.5"}, {7, 2, "7.0"}, {-0.0123, 1, "-0.01"},
		{0, 3, "0"}, {99.96, 3, "100.0"}, {1e6, 1, "1000000"}, {0.5, 0, "0.5"}, {0.123456789012345678, 20, "0.123456789012346"},
		{math.NaN(), 2, "NaN"}, {math.Inf(1), 2, "+Inf"}, {math.Copysign(0, -1), 2, "0"}, {25, -3, "25"},
	} {
		if got := Show(c.v, c.figures); got != c.want {
			t.Errorf("Show(%v, %d) is %q, want %q", c.v, c.figures, got, c.want)
		}
	}
}

func TestShowChangeTellsApart(t *testing.T) {
	for _, c := range []struct {
		from, to   float64
		figures    int
		want, then string
	}{{25.6, 25.8, 2, "25.6", "25.8"}, {7.72, 7.74, 2, "7.72", "7.74"}, {0.12, 3.3, 2, "0.12", "3.3"}, {5, 5, 2, "5.0", "5.0"}, {1.00001, 1.00002, 2, "1.000", "1.000"}, {1.234, 1.2349, 2, "1.234", "1.235"}} {
		a, b := ShowChange(c.from, c.to, c.figures)
		if a != c.want || b != c.then {
			t.Errorf("ShowChange(%v, %v, %d) is %q, %q", c.from, c.to, c.figures, a, b)
		}
	}
}
