package store_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"sync"
	"testing"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"freshet.example/store"
	"freshet.example/store/storetest"
)

// chronicled reads the whole chronicle as its keeper: "KIND actor member LEVEL about sites".
func chronicled(t *testing.T, url string) []string {
	t.Helper()
	return query[string](t, url, `SELECT concat_ws(' ', kind, actor_id IS NOT NULL, member_id IS NOT NULL, level, about, cardinality(site_ids)) FROM chronicle ORDER BY number`)
}

func keeper(t *testing.T, url string) *store.Store {
	t.Helper()
	s, err := store.OpenKeeper(context.Background(), url)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(s.Close)
	return s
}

func TestTheChronicleTellsWhoDidWhat(t *testing.T) {
	p, url := cooperative(t)
	s, ctx := p.s, p.acting()
	before := len(chronicled(t, url))
	if _, err := s.SetSharing(ctx, p.site, "reading", store.SharingNamed, p.who.MemberID); err != nil {
		t.Fatal(err)
	}
	if _, err := s.SetSharing(ctx, p.site, "reading", store.SharingNamed, p.who.MemberID); err != nil { // nothing new
		t.Fatal(err)
	}
	invite(t, s, p.member(), store.Invitation{CodeHash: hash(2), Role: store.RoleHelper, SiteIDs: []uuid.UUID{p.site}})
	helper := join(t, s, hash(2), hash(101))
	if err := s.RevokeDevice(ctx, helper.DeviceID); err != nil {
		t.Fatal(err)
	}
	if err := s.RevokeDevice(ctx, helper.DeviceID); err != nil { // again is the same
		t.Fatal(err)
	}
	if err := s.SetRole(ctx, helper.MemberID, store.RoleReader, nil); err != nil {
		t.Fatal(err)
	}
	p.push(func(push *store.Push) {
		for n := push.Through; n < push.Through+3; n++ { // three held for one reason are told once
			push.Outcomes = append(push.Outcomes, store.Outcome{Number: n + 1_000_000, Kind: 4, Reason: "SITE_NOT_YOURS", Scope: "site:" + p.site.String(), Operation: []byte{}})
		}
	})
	want := "6 t f 3 reading 1\n2 t f 3  1\n1 t t 3  1\n4 t t 0  0\n5 t t 0  0\n3 t t 4  0\n7 t t 0 SITE_NOT_YOURS 1"
	if got := strings.Join(chronicled(t, url)[before:], "\n"); got != want {
		t.Errorf("the chronicle says\n%s\nwant\n%s", got, want)
	}
	checked, err := keeper(t, url).CheckChronicle(context.Background(), "")
	if err != nil || checked.Rows != int64(before)+7 || len(checked.Seal) != 19 {
		t.Errorf("%+v, %v", checked, err)
	}
}

func TestTheChronicleIsReadByThoseItConcerns(t *testing.T) {
	p, _ := cooperative(t)
	s := p.s
	invite(t, s, p.member(), store.Invitation{CodeHash: hash(2), Role: store.RoleGrower})
	invite(t, s, p.member(), store.Invitation{CodeHash: hash(3), Role: store.RoleHelper, SiteIDs: []uuid.UUID{p.site}})
	other, helper := join(t, s, hash(2), hash(101)), join(t, s, hash(3), hash(102))
	if _, err := s.SetSharing(p.acting(), p.site, "all", store.SharingOpen, p.who.MemberID); err != nil {
		t.Fatal(err)
	}
	knows := func(who store.Joined, kind int16) bool {
		rows, err := s.Chronicle(as(t, s, who), 0, 100)
		if err != nil {
			t.Fatal(err)
		}
		for _, row := range rows {
			if row.Kind == kind && row.MemberID.Bytes != who.MemberID {
				return true
			}
		}
		return false
	}
	for kind, want := range map[int16][2]bool{6: {false, true}, 1: {false, false}, 4: {false, false}} {
		if got := [2]bool{knows(other, kind), knows(helper, kind)}; got != want {
			t.Errorf("kind %d of others: a grower elsewhere and a helper at the site know %v, want %v", kind, got, want)
		}
	}
	own, err := s.Chronicle(as(t, s, other), 0, 100)
	if err != nil || len(own) != 2 || own[0].Number < own[1].Number {
		t.Errorf("own joining and device, newest first: %+v, %v", own, err)
	}
	page, err := s.Chronicle(as(t, s, other), own[0].Number, 100)
	if err != nil || len(page) != 1 || page[0].Number != own[1].Number {
		t.Errorf("before the newest: %+v, %v", page, err)
	}
}

func TestNobodyRewritesTheChronicle(t *testing.T) {
	_, url := cooperative(t)
	for _, role := range []string{"freshet_server", "freshet_keeper", "freshet_gate", "freshet_owner"} {
		for _, sql := range []string{"UPDATE chronicle SET level = 1", "DELETE FROM chronicle", "TRUNCATE chronicle",
			"INSERT INTO chronicle VALUES (100, now(), 1, NULL, NULL, NULL, '{}', '', 1, '')"} {
			if role == "freshet_gate" && strings.HasPrefix(sql, "INSERT") {
				continue // its function is how rows come
			}
			if err := tryAs(t, url, role, sql); err == nil {
				t.Errorf("%s: %s went through", role, sql)
			}
		}
	}
	k := keeper(t, url)
	sound, err := k.CheckChronicle(context.Background(), "")
	if err != nil || sound.Rows < 3 {
		t.Fatalf("%+v, %v", sound, err)
	}
	for what, sql := range map[string]string{
		"a role": "UPDATE chronicle SET level = level + 1 WHERE number = 2", "a row": "DELETE FROM chronicle WHERE number = 2",
		"a time": "UPDATE chronicle SET at = at - interval '1 microsecond' WHERE number = 3", "an actor": "UPDATE chronicle SET actor_id = NULL WHERE number = 3",
		"a renumbered tail": "DELETE FROM chronicle WHERE number = 1; UPDATE chronicle SET number = number - 1",
		"a word":            "UPDATE chronicle SET about = 'a' WHERE number = 2", "a site": "UPDATE chronicle SET site_ids = site_ids || gen_random_uuid() WHERE number = 2",
	} {
		copied := storetest.URL(t)
		write(t, copied, "SET session_replication_role = replica; "+copyOf(t, url)+"; "+sql)
		_, err := keeper(t, copied).CheckChronicle(context.Background(), "")
		if wrong, ok := errors.AsType[*store.ChronicleError](err); !ok || wrong.Number == 0 {
			t.Errorf("%s changed as the machine's master: %v", what, err)
		}
	}
	write(t, url, fmt.Sprintf("SET session_replication_role = replica; DELETE FROM chronicle WHERE number = %d", sound.Rows))
	if _, err := k.CheckChronicle(context.Background(), ""); err != nil {
		t.Errorf("a cut tail cannot be seen without a seal: %v", err)
	}
	if _, err := k.CheckChronicle(context.Background(), sound.Seal); !errors.As(err, new(*store.ChronicleError)) {
		t.Errorf("a cut tail, with the seal that was noted: %v", err)
	}
}

func TestANotedSealIsFoundAgain(t *testing.T) {
	p, url := cooperative(t)
	k := keeper(t, url)
	noted, err := k.CheckChronicle(context.Background(), "")
	if err != nil {
		t.Fatal(err)
	}
	var all sync.WaitGroup
	for i := range 20 {
		all.Go(func() {
			kind := []string{"reading", "feeding", "note", "all"}[i%4]
			_, err := p.s.SetSharing(p.acting(), p.site, kind, store.Sharing(1+i/4%4), p.who.MemberID)
			if err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
	again, err := k.CheckChronicle(context.Background(), strings.ToLower(strings.ReplaceAll(noted.Seal, "-", " ")))
	if err != nil || again.Noted != noted.Rows || again.Rows <= noted.Rows {
		t.Errorf("%+v after %+v: %v", again, noted, err)
	}
}

// TestWhoBecomesAGrowerLeavesOthersSites: a helper must not come to keep a site
// by being made a grower; one who was a grower before keeps their own.
func TestWhoBecomesAGrowerLeavesOthersSites(t *testing.T) {
	p, url := cooperative(t)
	s := p.s
	invite(t, s, p.member(), store.Invitation{CodeHash: hash(2), Role: store.RoleHelper, SiteIDs: []uuid.UUID{p.site}})
	helper := join(t, s, hash(2), hash(101))
	own := uuid.New()
	write(t, url, fmt.Sprintf("INSERT INTO account_sites VALUES ('%s', '%s')", helper.MemberID, own))
	if err := s.SetRole(p.acting(), helper.MemberID, store.RoleGrower, nil); err != nil {
		t.Fatal(err)
	}
	account, err := s.Account(p.acting(), helper.MemberID)
	if err != nil || len(account.SiteIDs) != 1 || account.SiteIDs[0] != own {
		t.Errorf("%+v, %v; want only %s, which nobody else keeps", account, err, own)
	}
	if _, err := s.SetSharing(as(t, s, helper), p.site, "all", store.SharingOpen, helper.MemberID); !store.IsForbidden(err) {
		t.Errorf("who was a helper shares the site: %v", err)
	}
}

func tryAs(t *testing.T, url, role, sql string) error {
	t.Helper()
	ctx := context.Background()
	conn, err := pgx.Connect(ctx, url)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close(ctx)
	if _, err := conn.Exec(ctx, "SET ROLE "+role); err != nil {
		t.Fatal(err)
	}
	_, err = conn.Exec(ctx, sql)
	return err
}

// copyOf is SQL that enters the chronicle of another database.
func copyOf(t *testing.T, url string) string {
	t.Helper()
	rows := query[string](t, url, "SELECT format('INSERT INTO chronicle SELECT * FROM json_populate_record(NULL::chronicle, %L)', row_to_json(c)) FROM chronicle c ORDER BY number")
	return strings.Join(rows, "; ")
}
