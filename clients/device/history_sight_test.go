package device_test

import (
	"encoding/hex"
	"maps"
	"slices"
	"strings"

	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/husbandry/fish"
)

// end lets every device that is not said to be apart sync until nothing is
// new, and one that joins last, and looks at what each reads.
func (p *player) end(ground, ends map[string]sight) {
	p.t.Helper()
	all := ends["all"].over(ground["all"])
	p.take(step{Join: "last", By: "ana"})
	for range 2 {
		for _, name := range slices.Sorted(maps.Keys(p.parties)) {
			if !isApart(ends, name) {
				p.take(step{Sync: name})
			}
		}
	}
	for _, name := range slices.Sorted(maps.Keys(p.parties)) {
		p.of(name).sees(ends[name].over(all))
	}
}

// isApart tells whether a device reads less than all: what it reads is said in full.
func isApart(ends map[string]sight, name string) bool {
	own, said := ends[name]
	return said && own.Entries != nil
}

// sees compares what a person reads on the device with what a history says.
func (d *party) sees(want sight) {
	p := d.player
	p.t.Helper()
	entries, err := d.opened().Entries(p.ctx, device.Want{})
	if err != nil {
		p.t.Fatal(err)
	}
	if want.Entries != nil {
		d.seesEntries(want, entries)
	}
	if want.Records != nil {
		d.seesRecords(want)
	}
	for cohort, alive := range want.Alive {
		tally := p.alive(entries, p.ids[cohort])
		if tally.Alive != alive || tally.Unexplained != want.Unexplained[cohort] {
			p.t.Errorf("%s: %s has %d alive, %d unexplained; want %d and %d", d.name(), cohort, tally.Alive, tally.Unexplained, alive, want.Unexplained[cohort])
		}
	}
	d.seesLeft(want)
}

func (d *party) name() string {
	for name, other := range d.player.parties {
		if other == d {
			return name
		}
	}
	return "?"
}

func (d *party) seesEntries(want sight, entries []device.Entry) {
	p := d.player
	p.t.Helper()
	found := map[string]device.Entry{}
	for _, e := range entries {
		found[e.ID] = e
	}
	var got []string
	for label := range p.noted {
		if _, there := found[p.ids[label]]; there {
			got = append(got, label)
		}
	}
	slices.Sort(got)
	wanted := slices.Sorted(slices.Values(spread(want.Entries)))
	if !slices.Equal(got, wanted) || len(entries) != len(got) {
		p.t.Errorf("%s reads %d entries, named %v; want %v", d.name(), len(entries), got, wanted)
		return
	}
	for _, label := range got {
		d.seesEntry(label, want, found[p.ids[label]])
	}
}

func (d *party) seesEntry(label string, want sight, e device.Entry) {
	p := d.player
	p.t.Helper()
	event := p.noted[label]
	if as, said := want.As[label]; said {
		event = &freshetv1.Event{}
		p.read(as, event)
		if event.GetSiteId() == "" {
			event.SiteId = p.ids["site"]
		}
		if event.GetOccurredAt() == nil {
			event.OccurredAt = p.noted[label].GetOccurredAt()
		}
	}
	if !proto.Equal(e.Event, event) {
		p.t.Errorf("%s reads %s as %v, want %v", d.name(), label, e.Event, event)
	}
	if at, said := want.Entered[label]; said && e.Entered().UTC().Format("2006-01-02T15:04:05Z") != at {
		p.t.Errorf("%s: %s was entered %v, want %s", d.name(), label, e.Entered().UTC(), at)
	}
	if more, said := want.More[label]; said && !strings.Contains(hex.EncodeToString(e.Event.ProtoReflect().GetUnknown()), more) {
		p.t.Errorf("%s: %s has lost what a later release added", d.name(), label)
	}
}

func (d *party) seesRecords(want sight) {
	p := d.player
	p.t.Helper()
	records, err := d.opened().Records(p.ctx)
	if err != nil {
		p.t.Fatal(err)
	}
	found := map[string]protoreflect.Message{}
	for _, r := range records {
		found[r.ID] = r.Message
	}
	for label, said := range want.Records {
		record, there := found[p.ids[label]]
		delete(found, p.ids[label])
		if gone := slices.Contains(want.Removed, label); gone || !there {
			if gone == there {
				p.t.Errorf("%s: record %s is there: %v", d.name(), label, there)
			}
			continue
		}
		wanted := record.New().Interface()
		p.read(said, wanted)
		if !proto.Equal(record.Interface(), wanted) {
			text, _ := protojson.Marshal(record.Interface())
			p.t.Errorf("%s reads %s as %s, want %s", d.name(), label, text, said)
		}
	}
	if len(found) > 0 {
		p.t.Errorf("%s reads records that nobody expects: %v", d.name(), found)
	}
}

func (d *party) seesLeft(want sight) {
	p := d.player
	p.t.Helper()
	status, err := d.Status(p.ctx)
	if err != nil {
		p.t.Fatal(err)
	}
	if want.Waiting != nil && status.Waiting != *want.Waiting {
		p.t.Errorf("%s: %d wait, want %d", d.name(), status.Waiting, *want.Waiting)
	}
	if want.Left == nil {
		return
	}
	left, err := d.Left(p.ctx)
	if err != nil {
		p.t.Fatal(err)
	}
	got := map[string]string{}
	for _, l := range left {
		verdict := "refused "
		if l.Held {
			verdict = "held "
		}
		got[d.numbers[l.Number]] = verdict + l.Reason
	}
	if !maps.Equal(got, want.Left) {
		p.t.Errorf("%s: not stored are %v, want %v", d.name(), got, want.Left)
	}
}

// alive counts a cohort's fish from what a device reads.
func (p *player) alive(entries []device.Entry, cohort string) fish.Tally {
	p.t.Helper()
	var events []fish.Event
	add := func(e device.Entry, kind fish.Kind, of string, count uint32) {
		if of == cohort {
			events = append(events, fish.Event{At: e.Event.GetOccurredAt().GetSeconds(), Kind: kind, Fish: int(count)})
		}
	}
	for _, e := range entries {
		switch k := e.Event.GetKind().(type) {
		case *freshetv1.Event_Stocking:
			add(e, fish.Stocked, k.Stocking.GetCohortId(), k.Stocking.GetCount())
		case *freshetv1.Event_Death:
			add(e, fish.Died, k.Death.GetCohortId(), k.Death.GetCount())
		case *freshetv1.Event_FishHarvest:
			add(e, fish.Harvested, k.FishHarvest.GetCohortId(), k.FishHarvest.GetCount())
		case *freshetv1.Event_Count:
			add(e, fish.Counted, k.Count.GetCohortId(), k.Count.GetCount())
		case *freshetv1.Event_Move:
			add(e, fish.MovedOut, k.Move.GetCohortId(), k.Move.GetCount())
			add(e, fish.MovedIn, k.Move.GetToCohortId(), k.Move.GetCount())
		}
	}
	tally, err := fish.Alive(events, p.host.Now().Unix())
	if err != nil {
		p.t.Fatal(err)
	}
	return tally
}
