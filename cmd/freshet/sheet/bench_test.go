package sheet

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/cmd/freshet/words"
)

// desk is a site with one tank.
func desk(t testing.TB) words.Desk {
	t.Helper()
	site := device.Record{ID: "s", Kind: "site", SiteID: "s", Message: (&freshetv1.Site{Name: "Barn"}).ProtoReflect()}
	tank := device.Record{ID: "t", Kind: "vessel", SiteID: "s", Message: (&freshetv1.Vessel{Name: "Fish tank"}).ProtoReflect()}
	perch := device.Record{ID: "c", Kind: "cohort", SiteID: "s", Message: (&freshetv1.Cohort{Name: "Perch"}).ProtoReflect()}
	return words.Desk{
		Book: words.NewBook([]device.Record{site, tank, perch}, nil), SiteID: "s",
		Now: time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC),
	}
}

func BenchmarkLongSheet(b *testing.B) {
	const rows = 10_000
	lines := strings.Builder{}
	lines.WriteString("timestamp,place,parameter,value,unit\n")
	at := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := range rows {
		lines.WriteString(at.Add(time.Duration(i)*15*time.Minute).Format("2006-01-02 15:04") + ",Fish tank,nitrate," + strconv.Itoa(10+i%50) + ",ppm as NO3\n")
	}
	file := filepath.Join(b.TempDir(), "long.csv")
	if err := os.WriteFile(file, []byte(lines.String()), 0o600); err != nil {
		b.Fatal(err)
	}
	plan, err := NewPlan(file, Wishes{}, desk(b))
	if err != nil {
		b.Fatal(err)
	}
	if _, err := plan.Missing(); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		reader, good := plan.Reader(), 0
		err := Each(file, len(plan.Columns), func(row Row, _ *Bad) error {
			if _, bad := reader.Events(row); bad == nil {
				good++
			}
			return nil
		})
		if err != nil || good != rows {
			b.Fatalf("%d good rows, %v", good, err)
		}
	}
	b.ReportMetric(float64(rows*b.N)/b.Elapsed().Seconds(), "rows/s")
}
