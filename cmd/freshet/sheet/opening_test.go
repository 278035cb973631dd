package sheet

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"

	"freshet.example/cmd/freshet/words"
)

// Sheets as spreadsheets of several countries and probes save them: what each
// column is taken for, and the line and cells of the last row.
func TestSheetsOfManyShapes(t *testing.T) {
	western := "Datum;Temp [°C];NO3-N mg/L\r\n20.11.2025 07:12;22,5;12,4\r\n21.11.2025 07:15;22,8;13\r\n"
	utf16, err := unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewEncoder().String(western)
	latin, other := charmap.Windows1252.NewEncoder().String(western)
	if err != nil || other != nil {
		t.Fatal(err, other)
	}
	for name, c := range map[string]struct {
		text, says string
		line       int
	}{
		"semicolons and decimal commas":    {western, "when; water temperature in °C; nitrate in mg/L as N", 3},
		"mark of UTF-8":                    {"\xef\xbb\xbf" + western, "when; water temperature in °C; nitrate in mg/L as N", 3},
		"UTF-16":                           {utf16, "when; water temperature in °C; nitrate in mg/L as N", 3},
		"Windows-1252":                     {latin, "when; water temperature in °C; nitrate in mg/L as N", 3},
		"separator named":                  {"sep=;\ndate;ph\n11/20/2025 7:12 AM;7,1\n", "when; pH", 3},
		"title above":                      {"Barn log,,\n,,\nDate,Time,Temp (C)\n2025-11-20,07:12,22.1\n", "when; time of day; water temperature in °C", 4},
		"units below":                      {"Timestamp\tWater temp\tDO\n\t°C\tmg/L\n2025-11-20T07:12:00+01:00\t22.1\t7.4\n", "when; water temperature in °C; dissolved oxygen in mg/L", 3},
		"days by their look":               {"Päivä,ph\nFri 20 Nov 2025,7.2\nSat 21 Nov 2025,7.3\n", "when; pH", 3},
		"one column of days among numbers": {"Nr,Tag,ph\n1,1.11.2025,7.2\n2,2.11.2025,7.3\n", "left out; when; pH", 3},
		"zones told":                       {"created_at,ph,DO (g/ml)\n2021-06-19 00:00:05 CET,7.2,4.5\n2021-06-19 00:01:02+02:00,7.2,4.5\n", `when; pH; left out: "g/ml" is no unit of dissolved oxygen known here; --unit says which`, 3},
		"in Spanish":                       {"Fecha;Hora;Temperatura del agua (°C);Nitratos (mg/L como N);Oxígeno disuelto mg/L;Alimento (g)\n15/03/2025;08:15;24,5;40;6,2;120\n", "when; time of day; water temperature in °C; nitrate in mg/L as N; dissolved oxygen in mg/L; feeding in g", 2},
		"a remark in brackets":             {"date,pH (probe 2),turbidity (NTU)\n2025-03-15,7.2,100\n", "when; pH; left out", 2},
		"quoted":                           {"date,ph\n20/11/25,\"7,2\"\n", "when; pH", 2},
	} {
		file := filepath.Join(t.TempDir(), "sheet.csv")
		if err := os.WriteFile(file, []byte(c.text), 0o600); err != nil {
			t.Fatal(err)
		}
		plan, err := NewPlan(file, Wishes{}, words.Desk{Now: time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		var says []string
		for _, column := range plan.Columns {
			says = append(says, column.Says())
		}
		if got := strings.Join(says, "; "); got != c.says {
			t.Errorf("%s: %s", name, got)
		}
		last := 0
		err = Each(file, len(plan.Columns), func(r Row, bad *Bad) error {
			if last = r.Line; bad != nil {
				t.Errorf("%s, line %d: %s", name, r.Line, bad.Words)
			}
			return nil
		})
		if err != nil || last != c.line {
			t.Errorf("%s ends on line %d: %v", name, last, err)
		}
	}
}

// A sheet without days, and one without anything, say what is missing.
func TestSheetsThatCannotBe(t *testing.T) {
	for text, want := range map[string]string{"": "the file is empty", "ph,temp\n7,20\n": "no column tells when", "Barn log\n": "no column tells when"} {
		file := filepath.Join(t.TempDir(), "sheet.csv")
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := NewPlan(file, Wishes{}, words.Desk{}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v", text, err)
		}
	}
}
