package simulation

import (
	"context"
	"errors"
	"os"
	"path/filepath"

	"google.golang.org/protobuf/encoding/protowire"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
)

// pageBytes is what a database grows by.
const pageBytes = 4096

// full fills the disk, or makes room again. Its owner goes on noting until the
// app says that there is no room. The app is begun anew, as it is when a phone
// is short of room.
func full(ctx context.Context, w *world, p *party, s Step) error {
	if err := p.dev.Close(); err != nil { // which writes the log into the database
		return err
	}
	p.room = 0
	if s.A%3 > 0 {
		info, err := os.Stat(filepath.Join(w.folder(p.index), "device.db"))
		if err != nil {
			return err
		}
		p.room = int(info.Size()/pageBytes) + s.B%4
	}
	if err := p.restart(ctx); err != nil || p.room == 0 {
		return err
	}
	p.refused = false
	for n := 0; !p.refused && w.found == nil; n++ { // each takes a page
		if n > 32 {
			w.broken("I1", "the disk of device %d is full, and it goes on noting", p.index)
		}
		e := dead(w.site(s.A), 1)
		e.ProtoReflect().SetUnknown(protowire.AppendBytes(protowire.AppendTag(nil, 9999, protowire.BytesType), make([]byte, pageBytes*3/4)))
		if err := p.enter(ctx, w.site(s.A), e); err != nil {
			return err
		}
	}
	return nil
}

// noRoom tells whether an error says that a full disk is full.
func (p *party) noRoom(err error) bool {
	var t *device.Trouble
	return p.room > 0 && errors.As(err, &t) && t.Reason == "STORAGE_FULL"
}

// keptNone is what must hold when there was no room to note something: nothing
// of it is there.
func (p *party) keptNone(ctx context.Context, events []*freshetv1.Event) error {
	p.refused = true
	visible, err := p.visible(ctx)
	if err != nil {
		return err
	}
	for _, e := range events {
		if visible[keyOf(e)].Event != nil {
			p.world.broken("I13", "device %d said that it had no room for entry %s, and shows it", p.index, p.world.name(keyOf(e)))
		}
	}
	return p.look(ctx)
}

// app gives a device the app of release 1, which knows no marks and no
// backups; or brings it up to date.
func app(_ context.Context, _ *world, p *party, s Step) error {
	p.old = s.A%2 == 0 && !p.marked // nobody goes back to an earlier release
	return nil
}

// asOld takes from a push what release 1 does not say.
func asOld(in *freshetv1.PushRequest) *freshetv1.PushRequest {
	in.Mark, in.AfterMark = nil, nil
	return in
}

// heardByOld is Hello's answer as release 1 reads it.
func heardByOld(out *freshetv1.HelloResponse) *freshetv1.HelloResponse {
	heard := proto.CloneOf(out)
	heard.Mark, heard.BackedUpNumber, heard.Schema = nil, 0, 1
	return heard
}
