package sheet

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"google.golang.org/protobuf/proto"

	"freshet.example/cmd/freshet/words"
)

// Whatever a file holds, it is refused in words, or each of its rows becomes
// entries that can be sent, or is told with its line and why.
func FuzzSheet(f *testing.F) {
	for _, text := range []string{
		"Datum;Temp [°C];NO3-N mg/L\r\n20.11.2025 07:12;22,5;12,4\r\n",
		"\xff\xfed\x00a\x00t\x00e\x00,\x00p\x00h\x00\n\x00",
		"Datum;Temp [\xb0C]\n20.11.2025;22,5\n",
		"sep=;\ndate;ph\n11/20/2025 7:12 AM;7,1\n",
		"Barn log,,\n,,\nDate,Time,Temp (C)\n2025-11-20,07:12,22.1\n",
		"Timestamp\tWater temp\tDO\n\t°C\tmg/L\n2025-11-20T07:12:00+01:00\t22.1\t7.4\n",
		"when,parameter,result,units,basis\n2025-11-20,nitrate,12,mg/L,NO3\n2025-11-20,pH,\"7,2\",,\n",
		"date,feed g,dead,labour min\n2025-11-20,850,0,20\n2025-11-21,=1+1,2,\n",
		"date,ph\n20/11/25,\"7\n",
		"date,ph\n20/11/25,1e999\n31/02/25,NaN\n", "", "\"", "a,b\n\x00,\x00\n",
	} {
		f.Add([]byte(text))
	}
	file := filepath.Join(f.TempDir(), "sheet.csv")
	desk := words.Desk{Book: words.NewBook(nil, nil), SiteID: "00000000-0000-8000-8000-000000000001", Now: time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)}
	f.Fuzz(func(t *testing.T, text []byte) {
		if err := os.WriteFile(file, text, 0o600); err != nil {
			t.Fatal(err)
		}
		plan, err := NewPlan(file, Wishes{}, desk)
		if err != nil {
			return
		}
		_, _ = plan.Missing()
		reader, last := plan.Reader(), 0
		_ = Each(file, len(plan.Columns), func(row Row, bad *Bad) error {
			line := row.Line
			if bad == nil {
				bad = events(t, reader, row)
			} else {
				line = bad.Line
			}
			if bad != nil && (bad.Words == "" || bad.Reason == "") {
				t.Errorf("line %d is bad without a word: %+v", line, bad)
			}
			if line <= last {
				t.Errorf("line %d follows line %d", line, last)
			}
			last = line
			return nil
		})
	})
}

// events reads a row whose entries must be fit to be sent.
func events(t *testing.T, reader *Reader, row Row) *Bad {
	t.Helper()
	made, bad := reader.Events(row)
	for _, e := range made {
		if _, err := proto.Marshal(e); err != nil || e.GetSiteId() == "" || !e.GetOccurredAt().IsValid() {
			t.Errorf("line %d becomes %v: %v", row.Line, e, err)
		}
	}
	return bad
}
