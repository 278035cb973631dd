package server_test

import (
	"testing"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/servertest"
)

func TestMembersReadWhatConcernsThem(t *testing.T) {
	s := servertest.New(t)
	mara, theo := s.Join(grower, "Mara Oduya"), s.Join(grower, "Theo Lind")
	site := mara.NewSite(t, "North barn")
	if _, err := mara.Accounts.SetSharing(t.Context(), &freshetv1.SetSharingRequest{SiteId: site, Kind: "reading", Sharing: freshetv1.Sharing_SHARING_NAMED}); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Steward().Accounts.SetRole(t.Context(), &freshetv1.SetRoleRequest{MemberId: theo.MemberID, Role: reader}); err != nil {
		t.Fatal(err)
	}
	read := func(p *servertest.Person, in *freshetv1.ListChronicleRequest) []*freshetv1.ChronicleEntry {
		t.Helper()
		m, err := p.Accounts.ListChronicle(t.Context(), in)
		if err != nil {
			t.Fatal(err)
		}
		return m.GetEntries()
	}
	own := read(mara, &freshetv1.ListChronicleRequest{})
	if e := own[0]; len(own) != 3 || e.GetActorId() != mara.MemberID || e.GetSiteIds()[0] != site || e.GetAbout() != "reading" ||
		e.GetSharing() != freshetv1.Sharing_SHARING_NAMED || e.GetRole() != 0 || e.GetAtMs() == 0 {
		t.Errorf("%v", own)
	}
	if e := read(theo, &freshetv1.ListChronicleRequest{AtMost: 1})[0]; e.GetKind() != freshetv1.ChronicleKind_CHRONICLE_KIND_ROLE_SET ||
		e.GetActorId() != s.Steward().MemberID || e.GetMemberId() != theo.MemberID || e.GetRole() != reader {
		t.Errorf("the reader's newest: %v", e)
	}
	for _, e := range read(theo, &freshetv1.ListChronicleRequest{AtMost: 200}) {
		if e.GetMemberId() != theo.MemberID {
			t.Errorf("of others' is read: %v", e)
		}
	}
	all := read(s.Steward(), &freshetv1.ListChronicleRequest{})
	before := read(s.Steward(), &freshetv1.ListChronicleRequest{BeforeNumber: all[0].GetNumber(), AtMost: 1})
	if len(all) < 8 || before[0].GetNumber() != all[1].GetNumber() {
		t.Errorf("%d for the steward, %v before the newest", len(all), before)
	}
	for _, e := range all {
		if e.GetKind() == freshetv1.ChronicleKind_CHRONICLE_KIND_SHARING_SET {
			t.Errorf("the steward reads what another's site shares: %v", e)
		}
	}
	_, err := mara.Accounts.ListChronicle(t.Context(), &freshetv1.ListChronicleRequest{AtMost: 201})
	wantReason(t, "201 at once", err, "OUT_OF_RANGE", "at_most")
	_, err = mara.Accounts.ListChronicle(t.Context(), &freshetv1.ListChronicleRequest{BeforeNumber: -1})
	wantReason(t, "before what is not", err, "OUT_OF_RANGE", "before_number")
}
