package probes

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"sync"
	"time"

	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/clients/device/senml"
	"freshet.example/cmd/freshet/words"
	"freshet.example/husbandry/quantity"
)

// A Gateway notes on a device what probes send.
type Gateway struct {
	device *device.Device
	probes map[string]Probe
	now    func() time.Time

	mu    sync.Mutex
	known map[[16]byte]bool // what was noted before
}

// New makes a gateway over a device.
func New(ctx context.Context, d *device.Device, probes map[string]Probe, now func() time.Time) (*Gateway, error) {
	known, err := d.Imported(ctx)
	return &Gateway{device: d, probes: probes, now: now, known: known}, err
}

// Taken is what became of a list. What was noted is on the device's disk.
type Taken struct {
	Noted    int       `json:"noted"`
	Again    int       `json:"again"`               // the same name, moment and value had been noted before
	Unknown  []string  `json:"unknown,omitempty"`   // names that are not in the sheet
	NotTaken []Refused `json:"not_taken,omitempty"` // what cannot be a reading
}

// Refused is a measurement that was not noted, and why.
type Refused struct {
	Name string `json:"name"`
	Why  string `json:"why"`
}

// Take notes the measurements whose names are known. An error says that the
// device could not keep them, and none was noted: send them again.
func (g *Gateway) Take(ctx context.Context, list []senml.Measurement) (Taken, error) {
	var told Taken
	var events []*freshetv1.Event
	var hashes [][16]byte
	g.mu.Lock()
	defer g.mu.Unlock()
	here := map[[16]byte]bool{}
	for _, m := range list {
		probe, known := g.probes[m.Name]
		if !known {
			told.Unknown = append(told.Unknown, m.Name)
			continue
		}
		hash := hashOf(m)
		if g.known[hash] || here[hash] {
			told.Again++
			continue
		}
		event, err := g.event(probe, m)
		if err != nil {
			told.NotTaken = append(told.NotTaken, Refused{m.Name, err.Error()})
			continue
		}
		here[hash] = true
		events, hashes = append(events, event), append(hashes, hash)
	}
	if len(events) == 0 {
		return told, nil
	}
	if err := g.keep(ctx, events, hashes); err != nil {
		return Taken{}, err
	}
	told.Noted = len(events)
	return told, nil
}

func (g *Gateway) keep(ctx context.Context, events []*freshetv1.Event, hashes [][16]byte) error {
	err := g.device.Enter(ctx, func(t *device.Draft) error {
		for i, e := range events {
			if _, err := t.Note(e); err != nil {
				return err
			}
			t.Remember(hashes[i])
		}
		return nil
	})
	if err != nil {
		return err
	}
	for _, hash := range hashes {
		g.known[hash] = true
	}
	return nil
}

// hashOf tells a measurement from others, so that a probe that got no answer
// may send it again. One without a time of its own is another each time.
func hashOf(m senml.Measurement) [16]byte {
	sum := sha256.Sum256(fmt.Appendf(nil, "%s\n%d\n%s\n%s", m.Name, m.At.UnixMicro(), m.Unit, m.Value))
	return [16]byte(sum[:16])
}

// Errors of one measurement.
var (
	errNoNumber = errors.New("it carries no number")
	errAhead    = errors.New("its time lies more than a day ahead; look at the probe's clock")
)

func (g *Gateway) event(p Probe, m senml.Measurement) (*freshetv1.Event, error) {
	if m.Value == "" {
		return nil, errNoNumber
	}
	if m.At.After(g.now().Add(24 * time.Hour)) {
		return nil, errAhead
	}
	kit, value := p.Kit, m.Value
	if kit.Unit == quantity.NoUnit {
		unit, shift, err := unitOf(m.Unit)
		if err != nil {
			return nil, err
		}
		shifted, ok := senml.Shift(value, shift)
		if !ok {
			return nil, errNoNumber
		}
		kit.Unit, value = unit, shifted
	}
	reading, err := words.Reading(p.Quantity, value, kit)
	if err != nil {
		return nil, err
	}
	reading.Method, reading.PlaceId = freshetv1.Method_METHOD_PROBE, p.PlaceID
	return &freshetv1.Event{SiteId: p.SiteID, OccurredAt: timestamppb.New(m.At), Kind: &freshetv1.Event_Reading{Reading: reading}}, nil
}

// spelt are units of the SenML registries (RFC 8428, section 12.1, and RFC
// 8798) that are spelt otherwise here, or a power of ten away.
var spelt = map[string]struct {
	as    string
	shift int // how far the point moves
}{"Cel": {"C", 0}, "%RH": {"%", 0}, "lx": {"lux", 0}, "S/m": {"mS/cm", 1}}

func unitOf(sent string) (unit quantity.Unit, shift int, err error) {
	text := sent
	if here, otherwise := spelt[sent]; otherwise {
		text, shift = here.as, here.shift
	}
	if unit, _, err = quantity.ParseUnit(text); err != nil {
		return quantity.NoUnit, 0, fmt.Errorf("the unit %.20q is not known; write one into the sheet", sent)
	}
	return unit, shift, nil
}
