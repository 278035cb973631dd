package store_test

import (
	"context"
	"errors"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"

	"freshet.example/store"
	"freshet.example/store/storetest"
)

func hash(b byte) []byte { h := make([]byte, 32); h[0] = b; return h }

// founded is a store with a cooperative and its first steward.
func founded(t testing.TB) (*store.Store, store.Joined) {
	t.Helper()
	s := storetest.New(t)
	ctx := context.Background()
	first := store.Invitation{CodeHash: hash(1), Role: store.RoleSteward, ExpiresAt: time.Now().Add(time.Hour)}
	if err := s.FoundCooperative(ctx, uuid.New(), first); err != nil {
		t.Fatal(err)
	}
	return s, join(t, s, hash(1), hash(100))
}

func join(t testing.TB, s *store.Store, code, token []byte) store.Joined {
	t.Helper()
	joined, err := s.Join(context.Background(), store.Joining{CodeHash: code, TokenHash: token, DeviceName: "phone", DisplayName: "Ines"})
	if err != nil {
		t.Fatal(err)
	}
	return joined
}

// as is the context of a member, with role and sites as they are now.
func as(t testing.TB, s *store.Store, who store.Joined) context.Context {
	t.Helper()
	account, err := s.Account(store.As(context.Background(), store.Account{MemberID: who.MemberID}), who.MemberID)
	if err != nil {
		t.Fatal(err)
	}
	return store.As(context.Background(), account)
}

// invite keeps an invitation made by somebody.
func invite(t testing.TB, s *store.Store, by store.Joined, i store.Invitation) {
	t.Helper()
	i.CreatedBy = by.MemberID
	if i.ExpiresAt.IsZero() {
		i.ExpiresAt = time.Now().Add(time.Hour)
	}
	if err := s.CreateInvitation(as(t, s, by), i); err != nil {
		t.Fatal(err)
	}
}

func TestACooperativeIsFoundedOnce(t *testing.T) {
	s, steward := founded(t)
	if steward.Role != store.RoleSteward || !steward.NewMember {
		t.Errorf("first to join: %+v", steward)
	}
	if err := s.FoundCooperative(context.Background(), uuid.New(), store.Invitation{CodeHash: hash(9)}); !errors.Is(err, store.ErrFounded) {
		t.Errorf("founded twice: %v", err)
	}
	c, err := s.Cooperative(context.Background())
	if err != nil || c.SmallestGroup != 5 || c.Epoch != 1 {
		t.Errorf("%+v, %v", c, err)
	}
}

func TestAnInvitationIsUsedOnceEvenAtTheSameMoment(t *testing.T) {
	s, steward := founded(t)
	invite(t, s, steward, store.Invitation{CodeHash: hash(2), Role: store.RoleGrower})
	var won, lost int
	var lock sync.Mutex
	var group sync.WaitGroup
	for i := range 8 {
		group.Go(func() {
			_, err := s.Join(context.Background(), store.Joining{CodeHash: hash(2), TokenHash: hash(byte(10 + i)), DeviceName: "d", DisplayName: "n"})
			lock.Lock()
			defer lock.Unlock()
			switch {
			case err == nil:
				won++
			case errors.Is(err, store.ErrInvitation):
				lost++
			default:
				t.Error(err)
			}
		})
	}
	group.Wait()
	if won != 1 || lost != 7 {
		t.Errorf("%d joined and %d were refused, want 1 and 7", won, lost)
	}
}

func TestInvitationsThatHaveEndedOrNeverWere(t *testing.T) {
	s, steward := founded(t)
	invite(t, s, steward, store.Invitation{CodeHash: hash(2), Role: store.RoleGrower, ExpiresAt: time.Now().Add(-time.Second)})
	for _, code := range [][]byte{hash(2), hash(3), hash(1)} {
		_, err := s.Join(context.Background(), store.Joining{CodeHash: code, TokenHash: hash(50), DeviceName: "d"})
		if !errors.Is(err, store.ErrInvitation) {
			t.Errorf("code %d: %v", code[0], err)
		}
		if _, err := s.PeekInvitation(context.Background(), code); !errors.Is(err, store.ErrInvitation) {
			t.Errorf("code %d looked at: %v", code[0], err)
		}
	}
}

func TestAFurtherDeviceIsTheSameMembers(t *testing.T) {
	s, steward := founded(t)
	invite(t, s, steward, store.Invitation{CodeHash: hash(2), MemberID: steward.MemberID})
	second := join(t, s, hash(2), hash(101))
	if second.MemberID != steward.MemberID || second.NewMember || second.Role != store.RoleSteward {
		t.Errorf("further device: %+v", second)
	}
	devices, err := s.Devices(as(t, s, steward), steward.MemberID)
	if err != nil || len(devices) != 2 {
		t.Errorf("%d devices, %v", len(devices), err)
	}
}

func TestATokenOpensUntilItIsRevoked(t *testing.T) {
	p, _ := cooperative(t)
	s, ctx, site := p.s, p.acting(), p.site
	invite(t, s, p.member(), store.Invitation{CodeHash: hash(2), Role: store.RoleHelper, SiteIDs: []uuid.UUID{site}})
	helper := join(t, s, hash(2), hash(101))
	holder, err := s.HolderOf(ctx, hash(101))
	if err != nil || holder.DeviceID != helper.DeviceID || holder.Role != store.RoleHelper || len(holder.SiteIDs) != 1 || holder.SiteIDs[0] != site {
		t.Errorf("%+v, %v", holder, err)
	}
	if _, err := s.HolderOf(ctx, hash(77)); !errors.Is(err, store.ErrUnknown) {
		t.Errorf("unknown token: %v", err)
	}
	if err := s.RevokeDevice(ctx, helper.DeviceID); err != nil {
		t.Fatal(err)
	}
	if _, err := s.HolderOf(ctx, hash(101)); !errors.Is(err, store.ErrRevoked) {
		t.Errorf("revoked token: %v", err)
	}
	if err := s.RevokeDevice(ctx, uuid.New()); !errors.Is(err, store.ErrUnknown) {
		t.Errorf("unknown device: %v", err)
	}
}

func TestContactIsKeptToTheMinute(t *testing.T) {
	s, steward := founded(t)
	ctx, first := as(t, s, steward), time.Now().Truncate(time.Second)
	for _, after := range []time.Duration{0, 30 * time.Second, 2 * time.Minute} {
		if err := s.NoteContact(ctx, steward.DeviceID, first.Add(after)); err != nil {
			t.Fatal(err)
		}
		device, err := s.Device(ctx, steward.DeviceID)
		want := first
		if after > time.Minute {
			want = first.Add(after)
		}
		if err != nil || !device.LastContactAt.Equal(want) {
			t.Errorf("after %v: contact %v, %v", after, device.LastContactAt, err)
		}
	}
}

func TestTheLastStewardStays(t *testing.T) {
	s, steward := founded(t)
	ctx := as(t, s, steward)
	if err := s.SetRole(ctx, steward.MemberID, store.RoleGrower, nil); !errors.Is(err, store.ErrLastSteward) {
		t.Errorf("last steward: %v", err)
	}
	invite(t, s, steward, store.Invitation{CodeHash: hash(2), Role: store.RoleSteward})
	other := join(t, s, hash(2), hash(101))
	results := make(chan error, 2)
	for _, member := range []store.Joined{steward, other} {
		ctx := as(t, s, member)
		go func() { results <- s.SetRole(ctx, member.MemberID, store.RoleGrower, nil) }()
	}
	first, second := <-results, <-results
	if (first == nil) == (second == nil) || !errors.Is(errors.Join(first, second), store.ErrLastSteward) {
		t.Errorf("two step down at once: %v, %v", first, second)
	}
	left := steward
	if first, err := s.Account(ctx, steward.MemberID); err != nil || first.Role != store.RoleSteward {
		left = other
	}
	if err := s.SetRole(as(t, s, left), uuid.New(), store.RoleGrower, nil); !errors.Is(err, store.ErrUnknown) {
		t.Errorf("unknown member: %v", err)
	}
}

func TestSharingIsDated(t *testing.T) {
	p, _ := cooperative(t)
	s, site := p.s, p.site
	p.settle()
	ctx, other := p.acting(), p.site
	set := func(at uuid.UUID, kind string, sharing store.Sharing) store.SharingRule {
		rule, err := s.SetSharing(ctx, at, kind, sharing, p.who.MemberID)
		if err != nil {
			t.Fatal(err)
		}
		return rule
	}
	first := set(site, "all", store.SharingOpen)
	if again := set(site, "all", store.SharingOpen); !again.Since.Equal(first.Since) {
		t.Error("setting what holds made a new row")
	}
	open, err := s.OpenSites(ctx)
	if err != nil || len(open) != 1 || open[0] != site {
		t.Errorf("open sites %v, %v", open, err)
	}
	set(site, "reading", store.SharingFigures)
	set(other, "all", store.SharingNamed)
	set(other, "labour", store.SharingFigures)
	if open, err := s.OpenSites(ctx); err != nil || len(open) != 0 {
		t.Errorf("a site that keeps its readings back is open whole: %v, %v", open, err)
	}
	for kind, want := range map[string]map[uuid.UUID]store.Sharing{
		"reading":     {site: store.SharingFigures, other: store.SharingNamed},
		"bed_harvest": {site: store.SharingOpen, other: store.SharingNamed},
		"labour":      {other: store.SharingFigures},
	} {
		got, err := s.SharedAs(store.ForPool(ctx), kind)
		if err != nil || len(got) != len(want) || got[site] != want[site] || got[other] != want[other] {
			t.Errorf("%s: %v, %v; want %v", kind, got, err, want)
		}
	}
	set(site, "all", store.SharingPrivate)
	if open, err := s.IsOpen(ctx, site); err != nil || open {
		t.Errorf("withdrawn site is open: %v, %v", open, err)
	}
}
