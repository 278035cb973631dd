package device_test

import (
	"bytes"
	"encoding/json"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"freshet.example/server/servertest"
	"freshet.example/store/storetest"
)

func TestMain(m *testing.M) { os.Exit(storetest.Run(m)) }

// A history is a file of testdata/sync; see clients/README.md.
type history struct {
	Story string           `json:"story"`
	Steps []step           `json:"steps"`
	Ends  map[string]sight `json:"ends"`
}

// A step names who takes it by the key that says what it is.
type step struct {
	servertest.HostStep
	Join     string          `json:"join,omitempty"`
	By       string          `json:"by,omitempty"`
	Role     string          `json:"role,omitempty"`
	Is       string          `json:"is,omitempty"`
	Install  string          `json:"install,omitempty"`
	Revoke   string          `json:"revoke,omitempty"`
	Note     string          `json:"note,omitempty"`
	Set      string          `json:"set,omitempty"`
	Remove   string          `json:"remove,omitempty"`
	Together string          `json:"together,omitempty"`
	Entries  []step          `json:"entries,omitempty"`
	As       string          `json:"as,omitempty"`
	Event    json.RawMessage `json:"event,omitempty"`
	More     string          `json:"more,omitempty"`
	Edit     json.RawMessage `json:"edit,omitempty"`
	Record   string          `json:"record,omitempty"`
	Times    int             `json:"times,omitempty"`
	Every    string          `json:"every,omitempty"`
	Sync     string          `json:"sync,omitempty"`
	Fails    string          `json:"fails,omitempty"`
	Network  string          `json:"network,omitempty"`
	Cut      []string        `json:"cut,omitempty"`
	Lose     []string        `json:"lose,omitempty"`
	Double   []string        `json:"double,omitempty"`
	Break    int             `json:"break,omitempty"`
	Clock    string          `json:"clock,omitempty"`
	Off      string          `json:"off,omitempty"`
	Reboot   bool            `json:"reboot,omitempty"`
	WallOnly bool            `json:"wall_only,omitempty"`
	Restart  string          `json:"restart,omitempty"`
	Look     string          `json:"look,omitempty"`
	Sees     *sight          `json:"sees,omitempty"`
}

// A sight is what a person reads on a device. Keys that are left out are not
// looked at.
type sight struct {
	Entries     []string                   `json:"entries,omitempty"`
	As          map[string]json.RawMessage `json:"as,omitempty"`
	More        map[string]string          `json:"more,omitempty"`
	Entered     map[string]string          `json:"entered,omitempty"`
	Records     map[string]json.RawMessage `json:"records,omitempty"`
	Removed     []string                   `json:"removed,omitempty"`
	Alive       map[string]int             `json:"alive,omitempty"`
	Unexplained map[string]int             `json:"unexplained,omitempty"`
	Left        map[string]string          `json:"left,omitempty"`
	Waiting     *int                       `json:"waiting,omitempty"`
}

const historyFolder = "../../testdata/sync"

// ground is what every history begins with.
const ground = "ground.json"

func readHistory(t *testing.T, name string) history {
	t.Helper()
	raw, err := os.ReadFile(filepath.Join(historyFolder, name))
	if err != nil {
		t.Fatal(err)
	}
	var h history
	d := json.NewDecoder(bytes.NewReader(raw))
	d.DisallowUnknownFields()
	if err := d.Decode(&h); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return h
}

// TestHistories plays every history of testdata/sync on real devices against a
// real server.
func TestHistories(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(historyFolder, "*.json"))
	if err != nil || len(files) < 10 {
		t.Fatalf("%d histories in %s, %v", len(files), historyFolder, err)
	}
	host := servertest.NewHost(storetest.URL(t))
	t.Cleanup(func() {
		if err := host.Close(); err != nil {
			t.Error(err)
		}
	})
	first := readHistory(t, ground)
	for _, file := range files {
		name := filepath.Base(file)
		if name == ground {
			continue
		}
		t.Run(strings.TrimSuffix(name, ".json"), func(t *testing.T) {
			h := readHistory(t, name)
			p := newPlayer(t, host)
			for _, s := range slices.Concat(first.Steps, h.Steps) {
				p.take(s)
			}
			p.end(first.Ends, h.Ends)
		})
	}
}

var several = regexp.MustCompile(`^(.*?)(\d+)\.\.(\d+)$`)

// spread spells out "p1..12" as p1 to p12.
func spread(labels []string) []string {
	var all []string
	for _, label := range labels {
		found := several.FindStringSubmatch(label)
		if found == nil {
			all = append(all, label)
			continue
		}
		from, _ := strconv.Atoi(found[2]) // digits, by the expression
		to, _ := strconv.Atoi(found[3])
		for n := from; n <= to; n++ {
			all = append(all, found[1]+strconv.Itoa(n))
		}
	}
	return all
}

// over lays what a history says over what holds for all, key by key.
func (s sight) over(base sight) sight {
	if s.Entries == nil {
		s.Entries = base.Entries
	}
	if s.Alive == nil {
		s.Alive = base.Alive
	}
	if s.Unexplained == nil {
		s.Unexplained = base.Unexplained
	}
	if s.Left == nil {
		s.Left = base.Left
	}
	if s.Waiting == nil {
		s.Waiting = base.Waiting
	}
	s.Removed = append(slices.Clip(s.Removed), base.Removed...)
	s.As, s.More, s.Entered = merged(base.As, s.As), merged(base.More, s.More), merged(base.Entered, s.Entered)
	s.Records = merged(base.Records, s.Records)
	return s
}

func merged[V any](base, over map[string]V) map[string]V {
	if base == nil {
		return over
	}
	both := maps.Clone(base)
	maps.Copy(both, over)
	return both
}
