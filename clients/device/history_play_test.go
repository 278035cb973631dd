package device_test

import (
	"context"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"path/filepath"
	"regexp"
	"testing"
	"time"

	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
	"freshet.example/clients/device"
	"freshet.example/server/servertest"
)

// A player takes a history's steps.
type player struct {
	t       *testing.T
	ctx     context.Context
	host    *servertest.Host
	code    string // of the first invitation
	parties map[string]*party
	ids     map[string]string           // by label
	noted   map[string]*freshetv1.Event // by label, as it was entered
}

// A party is one device of a history.
type party struct {
	*device.Device
	player   *player
	dir      string
	network  network
	clock    partyClock
	install  string
	numbers  map[uint64]string // labels of its operations
	lastUsed uint64
}

func newPlayer(t *testing.T, host *servertest.Host) *player {
	t.Helper()
	code, err := host.New(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return &player{t: t, ctx: t.Context(), host: host, code: code, parties: map[string]*party{}, ids: map[string]string{},
		noted: map[string]*freshetv1.Event{}}
}

func (p *player) take(s step) {
	p.t.Helper()
	switch {
	case s.Server != "" || s.Wait != "":
		p.must(s, p.host.Do(p.ctx, s.HostStep))
	case s.Join != "":
		p.join(s)
	case s.Role != "":
		p.role(s)
	case s.Revoke != "":
		p.revoke(s)
	case s.Note != "" || s.Set != "" || s.Remove != "" || s.Together != "":
		p.enter(s)
	case s.Sync != "":
		p.sync(s)
	case s.Network != "":
		p.of(s.Network).network.set(s)
	case s.Clock != "":
		p.must(s, p.of(s.Clock).clock.set(s))
	case s.Restart != "":
		p.of(s.Restart).reopen()
	case s.Look != "":
		p.of(s.Look).sees(*s.Sees)
	default:
		p.must(s, errors.New("no such step"))
	}
}

func (p *player) must(s step, err error) {
	p.t.Helper()
	if err != nil {
		said, _ := json.Marshal(s)
		p.t.Fatalf("%s: %v", said, err)
	}
}

// of is a device, made at its first mention.
func (p *player) of(name string) *party {
	p.t.Helper()
	if p.parties[name] == nil {
		d := &party{player: p, dir: filepath.Join(p.t.TempDir(), name), numbers: map[uint64]string{}}
		d.clock.host = p.host
		d.clock.booted = servertest.Began.Add(-time.Hour)
		p.parties[name] = d
	}
	return p.parties[name]
}

// opened is a device's own, opened when it is first used.
func (d *party) opened() *device.Device {
	d.player.t.Helper()
	if d.Device != nil {
		return d.Device
	}
	settings := []device.Setting{
		device.WithClock(d.clock.read), device.WithDialling(d.network.dialling()...),
		device.WithPause(func(context.Context, time.Duration) {}),
	}
	if d.install != "" {
		raw, err := hex.DecodeString(d.install)
		if err != nil {
			d.player.t.Fatal(err)
		}
		settings = append(settings, device.WithInstall(wire.Install(raw)))
	}
	opened, err := device.Open(d.dir, settings...)
	if err != nil {
		d.player.t.Fatal(err)
	}
	d.Device = opened
	d.player.t.Cleanup(func() { _ = opened.Close() })
	return opened
}

func (d *party) reopen() {
	if d.Device != nil {
		_ = d.Close() // it is used no more
		d.Device = nil
	}
	d.opened()
}

var reference = regexp.MustCompile(`"\$([a-z][a-z0-9_]*)"`)

// named puts ids in the place of "$label".
func (p *player) named(raw json.RawMessage) []byte {
	p.t.Helper()
	return reference.ReplaceAllFunc(raw, func(found []byte) []byte {
		id, known := p.ids[string(found[2:len(found)-1])]
		if !known {
			p.t.Fatalf("%s is not known yet", found)
		}
		return []byte(`"` + id + `"`)
	})
}

func (p *player) read(raw json.RawMessage, into proto.Message) {
	p.t.Helper()
	if err := protojson.Unmarshal(p.named(raw), into); err != nil {
		p.t.Fatalf("%s: %v", raw, err)
	}
}

// enter takes note, set, remove and together.
func (p *player) enter(s step) {
	p.t.Helper()
	name := s.Note + s.Set + s.Remove + s.Together
	d := p.of(name)
	d.opened()
	p.must(s, d.Enter(p.ctx, func(draft *device.Draft) error {
		if s.Together == "" {
			return d.one(draft, s)
		}
		return draft.Together(func() error {
			for _, e := range s.Entries {
				if err := d.one(draft, e); err != nil {
					return err
				}
			}
			return nil
		})
	}))
}

// one drafts one entry, or one many times.
func (d *party) one(draft *device.Draft, s step) error {
	p := d.player
	switch {
	case s.Event != nil:
		for n := range max(1, s.Times) {
			if err := d.note(draft, s, n); err != nil {
				return err
			}
		}
		return nil
	case s.Edit != nil:
		e := &freshetv1.Edit{}
		p.read(s.Edit, e)
		if e.GetSite() == nil && e.GetSiteId() == "" && p.ids["site"] != "" && e.GetMember() == nil {
			e.SiteId = p.ids["site"]
		}
		id, err := draft.Set(e)
		d.used(s.As)
		p.ids[s.As] = id
		return err
	case s.Record != "":
		records, err := d.Records(p.ctx)
		if err != nil {
			return err
		}
		for _, r := range records {
			if r.ID == p.ids[s.Record] {
				d.used(s.As)
				return draft.Remove(r)
			}
		}
		return fmt.Errorf("there is no record %s", s.Record)
	}
	return errors.New("nothing is entered")
}

func (d *party) note(draft *device.Draft, s step, n int) error {
	p, label := d.player, s.As
	e := &freshetv1.Event{}
	p.read(s.Event, e)
	if e.GetSiteId() == "" {
		e.SiteId = p.ids["site"]
	}
	if e.GetOccurredAt() == nil {
		e.OccurredAt = timestamppb.New(p.host.Now())
	}
	if s.Times > 0 {
		every, err := servertest.Span(s.Every)
		if err != nil {
			return err
		}
		label = fmt.Sprint(s.As, n+1)
		e.OccurredAt = timestamppb.New(e.GetOccurredAt().AsTime().Add(time.Duration(n) * every))
	}
	more, err := hex.DecodeString(s.More)
	if err != nil {
		return err
	}
	if err := (proto.UnmarshalOptions{Merge: true}).Unmarshal(more, e); err != nil {
		return err
	}
	id, err := draft.Note(e)
	d.used(label)
	p.ids[label], p.noted[label] = id, proto.CloneOf(e)
	return err
}

// used gives the device's next number to a label.
func (d *party) used(label string) {
	d.lastUsed++
	d.numbers[d.lastUsed] = label
}

// sync must bring everything to and fro, or fail as the step says.
func (p *player) sync(s step) {
	p.t.Helper()
	progress, err := p.of(s.Sync).opened().Sync(p.ctx)
	if got := failure(err); got != s.Fails {
		p.must(s, fmt.Errorf("it ended with %q (%w)", got, err))
	}
	if err == nil && (!progress.CaughtUp || progress.Waiting > 0) {
		p.must(s, fmt.Errorf("caught up %v, %d wait", progress.CaughtUp, progress.Waiting))
	}
}

// failure is an error's name in histories.
func failure(err error) string {
	var trouble *device.Trouble
	switch {
	case err == nil:
		return ""
	case errors.As(err, &trouble) && trouble.Reason != "":
		return trouble.Reason
	case errors.As(err, &trouble) && trouble.NoSignal:
		return "NO_SIGNAL"
	}
	return err.Error()
}
