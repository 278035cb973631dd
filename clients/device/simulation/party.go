package simulation

import (
	"context"
	"database/sql"
	"maps"
	"path/filepath"
	"slices"
	"sync/atomic"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
	"freshet.example/clients/device"
)

// A party is one device with its owner, its clock and its line.
type party struct {
	world   *world
	index   int
	member  string
	dev     *device.Device
	line    line
	late    []func() // requests that arrive when nobody waits for them any more
	ahead   int64    // of the wall clock, milliseconds
	boot    uint32
	booted  int64
	room    int  // pages that the disk has for the database; 0: enough
	refused bool // there was no room for what was noted last
	old     bool // the app is of release 1
	marked  bool // it has pushed as one of a later release

	own    map[int64]bool    // noted here, and shown as noted
	seen   map[int64]bool    // read here at the last look
	gone   map[string]bool   // scopes that were said to be gone
	sure   map[string]bool   // scopes whose loss was carried out
	reset  bool              // an announced reset is being made up for
	cursor map[string]uint64 // pages that came to this device
}

var invitation = device.Invitation{Code: "x", Address: "127.0.0.1:1"} // nothing is dialled: see line

func newParty(w *world, member string) *party {
	p := &party{world: w, index: len(w.parties), member: member, booted: began - 3_600_000, boot: 1,
		own: map[int64]bool{}, seen: map[int64]bool{}, gone: map[string]bool{}, sure: map[string]bool{}, cursor: map[string]uint64{}}
	w.parties = append(w.parties, p)
	return p
}

func (p *party) open(ctx context.Context) (err error) {
	install := wire.Install{0x5b, 0x6d, 0x5f, byte(p.index), 0x90, 0xab, 0x80, byte(p.index + 1)}
	p.dev, err = device.Open(p.world.folder(p.index), device.WithInstall(install), device.WithClock(p.clock), device.WithRoom(p.room),
		device.WithPause(func(context.Context, time.Duration) { p.world.now += 500 }), device.WithDialling(p.dialling()...))
	if err != nil {
		return err
	}
	return p.plant(ctx)
}

// restart is the end of the process, and a new one.
func (p *party) restart(ctx context.Context) error {
	p.cursor = map[string]uint64{}
	_ = p.dev.Close() // a process that is killed does not close what it holds
	return p.open(ctx)
}

func (p *party) clock() *freshetv1.Noted {
	return &freshetv1.Noted{WallMs: p.world.now + p.ahead, MonotonicMs: p.world.now - p.booted, BootId: p.boot}
}

// sync is the device's own, and what must hold after it.
func (p *party) sync(ctx context.Context) (device.Progress, error) {
	before, shared := p.line, p.sharesInstall()
	progress, err := p.dev.Sync(ctx)
	if err != nil {
		p.cursor = map[string]uint64{} // what came may not have been kept
	}
	if p.world.found != nil {
		return progress, err
	}
	if err := p.look(ctx); err != nil {
		return progress, err
	}
	if progress.CaughtUp {
		if err := p.checkCaughtUp(ctx, progress); err != nil {
			return progress, err
		}
	}
	if before.cuts("Push") && !before.cuts("Pull") && !before.cuts("Hello") && before.breakAfter == 0 && p.room == 0 && !progress.CaughtUp {
		p.world.broken("I10", "device %d does not pull while its pushes fail: %v", p.index, err)
	}
	if before.cuts("Pull") && !before.cuts("Push") && !before.cuts("Hello") && p.room == 0 && progress.Waiting > 0 && err != nil && !shared {
		p.world.broken("I10", "device %d does not push while its pulls fail: %v", p.index, err)
	}
	return progress, err
}

// sharesInstall tells whether this device and another push as one install: one
// of them is a copy, and must pull before it may push what the other has not.
func (p *party) sharesInstall() bool {
	return slices.ContainsFunc(p.world.parties, func(other *party) bool {
		return other != p && other.dev.Install() == p.dev.Install()
	})
}

// A dying context ends after so many looks at it: the process is killed
// between two statements.
type dying struct {
	context.Context
	kill context.CancelFunc
	left atomic.Int64 // database/sql looks from goroutines of its own
}

func (d *dying) Done() <-chan struct{} {
	if d.left.Add(-1) == 0 {
		d.kill()
	}
	return d.Context.Done()
}

func killedAfter(ctx context.Context, looks int) context.Context {
	inner, kill := context.WithCancel(ctx)
	d := &dying{Context: inner, kill: kill}
	d.left.Store(int64(looks))
	return d
}

// copyOf makes a device of another's folder, as a phone set up from a backup.
func (p *party) copyOf() *party {
	c := newParty(p.world, p.member)
	c.ahead, c.own, c.seen, c.gone, c.reset = p.ahead, maps.Clone(p.own), maps.Clone(p.seen), maps.Clone(p.gone), p.reset
	c.sure, c.cursor = maps.Clone(p.sure), maps.Clone(p.cursor)
	return c
}

// triggers are faults that a database can be made to have: code that moved the
// cursor without its rows, or took an answer for an echo, would leave the same.
var triggers = map[string]string{
	"I5": `CREATE TRIGGER IF NOT EXISTS fault AFTER INSERT ON events WHEN NEW.member_id <> (SELECT value FROM facts WHERE name = 'member_id')
		BEGIN DELETE FROM events WHERE id = NEW.id; END`,
	"I6": `CREATE TRIGGER IF NOT EXISTS fault AFTER UPDATE ON facts WHEN NEW.name = 'through_number'
		BEGIN UPDATE outbox SET echoed = 1 WHERE first_number + operations_count - 1 <= NEW.value; END`,
	"I7": `CREATE TRIGGER IF NOT EXISTS fault AFTER UPDATE ON cursors WHEN NEW.sequence % 3 = 0
		BEGIN DELETE FROM events WHERE scope = NEW.scope AND id IN (SELECT id FROM events WHERE scope = NEW.scope ORDER BY entered_ms LIMIT 1); END`,
	"I9": `CREATE TRIGGER IF NOT EXISTS fault BEFORE DELETE ON events BEGIN SELECT RAISE(IGNORE); END`,
}

// plant gives the device's database the fault that is asked for.
func (p *party) plant(ctx context.Context) error {
	statement := triggers[p.world.planted]
	if statement == "" {
		return nil
	}
	db, err := sql.Open("sqlite", "file:"+filepath.Join(p.world.folder(p.index), "device.db"))
	if err != nil {
		return err
	}
	defer db.Close() //nolint:errcheck // nothing waits to be written
	_, err = db.ExecContext(ctx, statement)
	return err
}
