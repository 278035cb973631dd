package store_test

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"testing"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgtype"

	"freshet.example/store"
	"freshet.example/store/storetest"
)

// phone is one install of a member, pushing straight into the store.
type phone struct {
	t    testing.TB
	s    *store.Store
	who  store.PushedBy
	site uuid.UUID
	made []uuid.UUID // by the next push
	next uint64
}

// cooperative is a store with a steward, who keeps one site, and its database.
func cooperative(t testing.TB) (*phone, string) {
	t.Helper()
	url := storetest.URL(t)
	s, err := store.Open(context.Background(), url)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(s.Close)
	first := store.Invitation{CodeHash: hash(1), Role: store.RoleSteward, ExpiresAt: time.Now().Add(time.Hour)}
	if err := s.FoundCooperative(context.Background(), uuid.New(), first); err != nil {
		t.Fatal(err)
	}
	p := newPhone(t, s, join(t, s, hash(1), hash(100)), 1)
	p.settle()
	return p, url
}

// settle makes a site and stands there from now on.
func (p *phone) settle() {
	p.t.Helper()
	p.site = p.id()
	p.made = []uuid.UUID{p.site}
	p.push(func(push *store.Push) {
		push.Edits = append(push.Edits, store.RecordEdit{Noun: "site", ID: p.site, SiteID: p.site, New: true, EnteredMs: 1,
			Fields: []store.Field{{Column: "name", Value: "Barn"}, {Column: "time_zone", Value: "Europe/Lisbon"}}})
	})
	p.made = nil
}

// member is the phone's.
func (p *phone) member() store.Joined {
	return store.Joined{MemberID: p.who.MemberID, DeviceID: p.who.DeviceID}
}

// acting is the context of the phone's member.
func (p *phone) acting() context.Context { return as(p.t, p.s, p.member()) }

func newPhone(t testing.TB, s *store.Store, of store.Joined, number byte) *phone {
	install := store.Install{number, 0, 0, 0, 0, 0, 0x80, number}
	return &phone{t: t, s: s, who: store.PushedBy{Install: install, MemberID: of.MemberID, DeviceID: of.DeviceID}, next: 1}
}

// another phone of the same device's member at the same site.
func (p *phone) another(number byte) *phone {
	other := *p
	other.who.Install = store.Install{number, 0, 0, 0, 0, 0, 0x80, number}
	other.next = 1
	return &other
}

// id is what the next operation makes.
func (p *phone) id() uuid.UUID { return p.idOf(p.next) }

func (p *phone) idOf(number uint64) uuid.UUID {
	var id uuid.UUID
	copy(id[:], p.who.Install[:])
	binary.BigEndian.PutUint64(id[8:], number|1<<63)
	return id
}

// push sends one operation, alone at the site.
func (p *phone) push(fill func(*store.Push)) store.Pushed {
	p.t.Helper()
	pushed, err := p.try(fill)
	if err != nil {
		p.t.Fatal(err)
	}
	return pushed
}

func (p *phone) try(fill func(*store.Push)) (store.Pushed, error) {
	who := p.who
	who.Sites, who.Alone, who.Made = []uuid.UUID{p.site}, []uuid.UUID{p.site}, p.made
	number := p.next
	p.next++
	return p.s.Push(context.Background(), who, func(context.Context, *store.Pushing) (store.Push, error) {
		push := store.Push{Through: number, ReceivedAt: time.Now()}
		fill(&push)
		if push.Pages == nil {
			push.Pages = []store.NewPage{{Scope: "site:" + p.site.String(), Block: []byte{byte(number)}, Operations: 1}}
		}
		return push, nil
	})
}

// feeding is an event of mass at a time, made by the next operation.
func (p *phone) feeding(at time.Time, cohort uuid.UUID, mass float64) store.EventRow {
	return store.EventRow{Noun: "feeding", ID: p.id(), SiteID: p.site, OccurredAt: at, EnteredAt: at,
		Columns: []string{"vessel_id", "cohort_id", "feed_id", "mass_g", "left_g"},
		Values:  []any{pgtype.UUID{}, pgtype.UUID{Bytes: cohort, Valid: cohort != uuid.Nil}, pgtype.UUID{}, mass, 0.0}}
}

func query[T any](t testing.TB, url, sql string, arguments ...any) []T {
	t.Helper()
	conn, err := pgx.Connect(context.Background(), url)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close(context.Background())
	rows, err := conn.Query(context.Background(), sql, arguments...)
	if err != nil {
		t.Fatal(err)
	}
	values, err := pgx.CollectRows(rows, pgx.RowTo[T])
	if err != nil {
		t.Fatal(err)
	}
	return values
}

func TestAPushIsStoredOnce(t *testing.T) {
	p, url := cooperative(t)
	e := p.feeding(time.Now(), uuid.Nil, 20)
	p.push(func(push *store.Push) { push.Events = []store.EventRow{e} })
	p.next-- // the answer was lost: again
	again := p.push(func(push *store.Push) { push.Events = []store.EventRow{e} })
	if len(again.Moved) != 0 {
		t.Errorf("the second push moved %v", again.Moved)
	}
	if n := query[int64](t, url, "SELECT count(*) FROM feedings")[0]; n != 1 {
		t.Errorf("%d feedings, want 1", n)
	}
	if state, err := p.s.InstallState(p.acting(), p.who); err != nil || state.Through != 2 {
		t.Errorf("through %d, %v; want 2", state.Through, err)
	}
}

func TestAnInstallBelongsToOneMember(t *testing.T) {
	p, _ := cooperative(t)
	p.who.DeviceID = uuid.New() // who joins again is another device of the same member
	if _, err := p.try(func(*store.Push) {}); err != nil {
		t.Errorf("push of who joined again: %v", err)
	}
	invite(t, p.s, p.member(), store.Invitation{CodeHash: hash(2), Role: store.RoleGrower})
	p.who.MemberID = join(t, p.s, hash(2), hash(101)).MemberID
	if _, err := p.try(func(*store.Push) {}); !errors.Is(err, store.ErrInstallTaken) {
		t.Errorf("push of another's install: %v", err)
	}
	if _, err := p.s.InstallState(p.acting(), p.who); !errors.Is(err, store.ErrInstallTaken) {
		t.Errorf("question about another's install: %v", err)
	}
}

func TestAPushMustFollowOnTheLastMark(t *testing.T) {
	p, _ := cooperative(t)
	push := func(mark, after string) error {
		p.next++
		p.who.Mark, p.who.After = []byte(mark), []byte(after)
		_, err := p.try(func(*store.Push) {})
		return err
	}
	for _, s := range []struct {
		mark, after string
		want        error
	}{
		{"first...", "", nil},
		{"first...", "", nil}, // its answer was lost
		{"second..", "first...", nil},
		{"of copy.", "first...", store.ErrInstallCopied},
		{"third...", "second..", nil},
	} {
		if err := push(s.mark, s.after); !errors.Is(err, s.want) {
			t.Errorf("%q after %q: %v, want %v", s.mark, s.after, err, s.want)
		}
	}
	state, err := p.s.InstallState(p.acting(), p.who)
	if err != nil || string(state.Mark) != "third..." {
		t.Errorf("the last mark is %q, %v", state.Mark, err)
	}
}

func TestAPushThatFailsStoresNothing(t *testing.T) {
	p, url := cooperative(t)
	broken := errors.New("broken")
	if _, err := p.s.Push(context.Background(), p.who, func(context.Context, *store.Pushing) (store.Push, error) {
		return store.Push{}, broken
	}); !errors.Is(err, broken) {
		t.Errorf("error of build came back as %v", err)
	}
	e := p.feeding(time.Now(), uuid.Nil, 20)
	bad := e
	bad.Values = bad.Values[:2]
	if _, err := p.try(func(push *store.Push) { push.Events = []store.EventRow{e, bad} }); err == nil {
		t.Error("a row without its values was taken")
	}
	if n := query[int64](t, url, "SELECT (SELECT count(*) FROM feedings) + (SELECT count(*) FROM daily)")[0]; n != 0 {
		t.Errorf("%d rows of failed pushes", n)
	}
}

func TestPagesFollowOneAnotherInAChain(t *testing.T) {
	p, _ := cooperative(t)
	ctx, scope := p.acting(), "site:"+p.site.String()
	for range 5 {
		p.push(func(*store.Push) {})
	}
	heads, err := p.s.Heads(ctx, []string{"coop", scope})
	if err != nil || heads[0].Sequence != 0 || len(heads[0].Chain) != 0 || heads[1].Sequence != 6 || heads[1].Operations != 6 {
		t.Fatalf("heads %+v, %v", heads, err)
	}
	pages, err := p.s.PagesAfter(ctx, heads[1], 0, 1<<20)
	if err != nil || len(pages) != 6 {
		t.Fatalf("%d pages, %v", len(pages), err)
	}
	var chain []byte
	for i, page := range pages {
		sum := sha256.Sum256(append(bytes.Clone(chain), page.Block...))
		chain = sum[:16]
		if page.Sequence != uint64(i+1) || !bytes.Equal(page.Chain, chain) {
			t.Errorf("page %d has sequence %d and another chain", i+1, page.Sequence)
		}
	}
	if !bytes.Equal(heads[1].Chain, chain) {
		t.Error("the head's chain is not the last page's")
	}
	two, err := p.s.PagesAfter(ctx, heads[1], 2, 2)
	if err != nil || len(two) != 2 || two[0].Sequence != 3 {
		t.Errorf("two bytes of pages: %+v, %v", two, err)
	}
	if at, err := p.s.ChainAt(ctx, heads[1], 4); err != nil || !bytes.Equal(at, pages[3].Chain) {
		t.Errorf("chain at 4: %x, %v", at, err)
	}
	if _, err := p.s.ChainAt(ctx, heads[1], 7); !errors.Is(err, store.ErrUnknown) {
		t.Errorf("chain at 7: %v", err)
	}
}

func TestANewSiteIsItsMakers(t *testing.T) {
	p, _ := cooperative(t)
	account, err := p.s.Account(p.acting(), p.who.MemberID)
	if err != nil || len(account.SiteIDs) != 1 || account.SiteIDs[0] != p.site {
		t.Errorf("%+v, %v", account, err)
	}
}

func TestOutcomesLast(t *testing.T) {
	p, _ := cooperative(t)
	refused := store.Outcome{Number: p.next, Kind: 3, Reason: "OUT_OF_RANGE", Field: "event.feeding.mass_g", Hint: "look", Operation: []byte{1, 2}, Scope: "coop"}
	p.push(func(push *store.Push) { push.Outcomes = []store.Outcome{refused} })
	var found []store.Outcome
	_, err := p.s.Push(context.Background(), p.who, func(ctx context.Context, pushing *store.Pushing) (store.Push, error) {
		var err error
		found, err = pushing.OutcomesBetween(ctx, 1, 100)
		return store.Push{}, err
	})
	if err != nil || len(found) != 1 || found[0].Number != 2 || found[0].Reason != refused.Reason || !bytes.Equal(found[0].Operation, refused.Operation) {
		t.Errorf("%+v, %v", found, err)
	}
}
