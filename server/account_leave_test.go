package server_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/jackc/pgx/v5"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/servertest"
)

// whereFound lists the columns of all tables that hold a text, also within
// bytes, JSON and arrays.
func whereFound(t *testing.T, s *servertest.Server, text string) (found []string) {
	t.Helper()
	conn, err := pgx.Connect(t.Context(), s.DatabaseURL)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = conn.Close(t.Context()) }()
	rows, err := conn.Query(t.Context(), `SELECT format('SELECT count(*) FROM %I WHERE position(%s IN %s) > 0', c.table_name,
			CASE WHEN c.data_type = 'bytea' THEN 'convert_to($1, ''UTF8'')' ELSE '$1' END,
			CASE WHEN c.data_type = 'bytea' THEN quote_ident(c.column_name) ELSE format('%I::text', c.column_name) END), c.table_name || '.' || c.column_name
		FROM information_schema.columns c WHERE c.table_schema = 'public' AND c.data_type IN ('text', 'bytea', 'jsonb', 'ARRAY', 'character varying')`)
	if err != nil {
		t.Fatal(err)
	}
	looks, err := pgx.CollectRows(rows, pgx.RowToStructByPos[struct{ SQL, Column string }])
	if err != nil || len(looks) < 50 {
		t.Fatalf("%d columns, %v", len(looks), err)
	}
	for _, look := range looks {
		var n int
		if err := conn.QueryRow(t.Context(), look.SQL, text).Scan(&n); err != nil {
			t.Fatalf("%s: %v", look.SQL, err)
		}
		if n > 0 {
			found = append(found, look.Column)
		}
	}
	return found
}

// marks stand in what somebody says, so that it can be looked for.
func (h *hand) saysMarked(mark string) []*freshetv1.Operation {
	return []*freshetv1.Operation{
		h.event(&freshetv1.Event{Kind: &freshetv1.Event_Note{Note: &freshetv1.Note{Text: mark + "note"}}}),
		h.event(&freshetv1.Event{Kind: &freshetv1.Event_Labour{Labour: &freshetv1.Labour{Minutes: 30, Task: mark + "task"}}}),
		h.event(&freshetv1.Event{Kind: &freshetv1.Event_Expense{Expense: &freshetv1.Expense{AmountMinor: 77701, Currency: "EUR", Category: mark + "money"}}}),
		h.event(&freshetv1.Event{Kind: &freshetv1.Event_Photo{Photo: &freshetv1.Photo{Sha256: make([]byte, 32), SizeBytes: 9, MediaType: "image/png", Caption: mark + "photo"}}}),
		h.event(&freshetv1.Event{Kind: &freshetv1.Event_Disposition{Disposition: &freshetv1.Disposition{Crop: "tomato", MassG: 400, Use: freshetv1.Use_USE_GIVEN, HadForIt: mark + "thanks"}}}),
		h.ph(71),
	}
}

func TestLeavingErasesWhatIsTheirs(t *testing.T) {
	s := servertest.New(t)
	ana := newHand(t, s.Join(grower, "Zqleaver"))
	ana.settleIn()
	alone := ana.site
	ana.stores(ana.edit(&freshetv1.Edit{RecordId: ana.p.MemberID, Record: &freshetv1.Edit_Member{Member: &freshetv1.Member{DisplayName: "Zqleaver"}}}))
	ana.stores(ana.saysMarked("Zq")...)
	if _, err := ana.p.Accounts.SetSharing(t.Context(), &freshetv1.SetSharingRequest{SiteId: alone, Kind: "all", Sharing: freshetv1.Sharing_SHARING_OPEN}); err != nil {
		t.Fatal(err)
	}
	// At Ben's site she helped once, and became a grower there by his doing.
	ben := newHand(t, s.Join(grower, "Ben"))
	ben.settleIn()
	behind(t, s, "INSERT INTO account_sites VALUES ('"+ana.p.MemberID+"', '"+ben.site+"')")
	guest := *ana
	guest.site, guest.tank, guest.planting, guest.cohort, guest.system = ben.site, ben.tank, ben.planting, ben.cohort, ben.system
	guest.stores(guest.saysMarked("Zq")...)
	ben.stores(ben.saysMarked("Ben's ")...)
	before := pull(t, ben.p, &freshetv1.PullRequest{})
	if len(whereFound(t, s, "Zq")) < 6 {
		t.Fatal("the search finds nothing")
	}

	would, err := ana.p.Accounts.Leave(t.Context(), &freshetv1.LeaveRequest{OnlyAsk: true})
	if err != nil || !slices.Equal(would.GetErasedSiteIds(), []string{alone}) || !slices.Equal(would.GetStayingSiteIds(), []string{ben.site}) {
		t.Fatalf("%v, %v", would, err)
	}
	_, err = ana.p.Accounts.Leave(t.Context(), &freshetv1.LeaveRequest{DisplayName: "Somebody"})
	wantReason(t, "another name", err, "UNKNOWN_NAME", "display_name")
	if _, err := ana.p.Accounts.Leave(t.Context(), &freshetv1.LeaveRequest{DisplayName: "Zqleaver"}); err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{"Zq", "77701"} {
		for _, column := range whereFound(t, s, text) {
			if text == "Zq" || !strings.HasPrefix(column, "pages.") {
				t.Errorf("%q is still in %s", text, column)
			}
		}
	}
	for _, column := range whereFound(t, s, alone) {
		if column != "chronicle.site_ids" {
			t.Errorf("the site that was erased is still in %s", column)
		}
	}

	// Numbers stay for Ben, in his tables and in his feed, and his own words.
	after := pull(t, ben.p, &freshetv1.PullRequest{})
	if n, m := after.operations("site:"+ben.site), before.operations("site:"+ben.site); len(n) != len(m) {
		t.Errorf("%d entries of the site stay of %d", len(n), len(m))
	}
	if n := after.operations("house:" + ben.site); len(n) != 4 {
		t.Errorf("%d of Ben's private entries stay of 4", len(n))
	}
	cursors := &freshetv1.PullRequest{Cursors: []*freshetv1.Cursor{before.heads["site:"+ben.site], before.heads["site:"+alone]}}
	told := pull(t, ben.p, cursors)
	if !slices.Contains(told.gone, "site:"+alone) || !slices.Contains(told.reset, "site:"+ben.site) {
		t.Errorf("gone %v, reset %v", told.gone, told.reset)
	}
	_, err = ana.p.Accounts.WhoAmI(t.Context(), &freshetv1.WhoAmIRequest{})
	wantReason(t, "her token", err, "MEMBER_LEFT", "")
	members, err := ben.p.Accounts.ListMembers(t.Context(), &freshetv1.ListMembersRequest{})
	if err != nil || len(members.GetMembers()) != 2 {
		t.Errorf("%v, %v", members, err)
	}
	chronicle, err := s.Steward().Accounts.ListChronicle(t.Context(), &freshetv1.ListChronicleRequest{AtMost: 3})
	if err != nil || !slices.ContainsFunc(chronicle.GetEntries(), func(e *freshetv1.ChronicleEntry) bool {
		return e.GetKind() == freshetv1.ChronicleKind_CHRONICLE_KIND_LEFT && e.GetMemberId() == ana.p.MemberID
	}) {
		t.Errorf("%v, %v", chronicle, err)
	}
	ben.stores(ben.ph(72)) // his pushes go on
}

func TestTheLastStewardDoesNotLeave(t *testing.T) {
	s := servertest.New(t)
	first := s.Steward()
	_, err := first.Accounts.Leave(t.Context(), &freshetv1.LeaveRequest{DisplayName: "Ines Vaart"})
	wantReason(t, "the last steward", err, "LAST_STEWARD", "")
	if _, err := first.Accounts.WhoAmI(t.Context(), &freshetv1.WhoAmIRequest{}); err != nil {
		t.Errorf("she was shut out: %v", err)
	}
	second := s.Join(steward, "Osk")
	if _, err := first.Accounts.Leave(t.Context(), &freshetv1.LeaveRequest{DisplayName: "Ines Vaart"}); err != nil {
		t.Error(err)
	}
	_, err = second.Accounts.SetRole(t.Context(), &freshetv1.SetRoleRequest{MemberId: first.MemberID, Role: grower})
	wantReason(t, "a role for who left", err, "UNKNOWN_RECORD", "")
}
