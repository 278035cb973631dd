package attack_test

import (
	"fmt"
	"strings"
	"testing"

	"google.golang.org/protobuf/types/known/fieldmaskpb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/servertest"
)

// showFrom lets the cooperative show groups of so many members on.
func showFrom(t *testing.T, s *servertest.Server, members uint32) {
	t.Helper()
	coop := s.Steward()
	me, err := coop.Accounts.WhoAmI(t.Context(), &freshetv1.WhoAmIRequest{})
	if err != nil {
		t.Fatal(err)
	}
	coop.Push(t, &freshetv1.Operation{Change: &freshetv1.Operation_Edit{Edit: &freshetv1.Edit{RecordId: me.GetCooperativeId(),
		Fields: &fieldmaskpb.FieldMask{Paths: []string{"smallest_group"}}, Record: &freshetv1.Edit_Cooperative{Cooperative: &freshetv1.Cooperative{SmallestGroup: members}}}}})
}

// like says what the garden's newest site is like: its water, fish and tank.
func (g *garden) like(celsius int64, species string, litres float64) *garden {
	g.t.Helper()
	system := g.edit(&freshetv1.Edit{Record: &freshetv1.Edit_System{System: &freshetv1.System{Name: "Fish"}}}, "name")
	tank := g.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Vessel{Vessel: &freshetv1.Vessel{Name: "Tank", SystemId: system, Kind: freshetv1.VesselKind_VESSEL_KIND_FISH_TANK, VolumeL: litres}}}, "name", "system_id", "kind", "volume_l")
	for range 3 { // so that those said last are the most
		g.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Cohort{Cohort: &freshetv1.Cohort{Name: "Fish", Species: species, SystemId: system, VesselId: tank}}}, "name", "species", "system_id", "vessel_id")
	}
	for ago := 60; ago < 300; ago += 30 {
		g.Push(g.t, g.event(ago, &freshetv1.Event{Kind: &freshetv1.Event_Reading{Reading: &freshetv1.Reading{Quantity: freshetv1.Quantity_QUANTITY_WATER_TEMPERATURE, Digits: celsius, Unit: freshetv1.Unit_UNIT_CELSIUS, PlaceId: tank, Method: freshetv1.Method_METHOD_METER}}}))
	}
	return g
}

func (g *garden) warm() *garden { return g.like(27, "nile_tilapia", 2000) }
func (g *garden) cold() *garden { return g.like(12, "rainbow_trout", 40000) }

// told is what the garden is told of those most like it.
func (g *garden) told() string {
	g.t.Helper()
	m := g.compare().GetMatched()
	return fmt.Sprint(m.GetSitesCount(), " ", m.GetReason(), " ", m.GetGroup())
}

func TestNobodyIsWorkedOutOfThoseMostAlike(t *testing.T) {
	s := servertest.New(t)
	showFrom(t, s, smallest)
	spy := newGarden(t, s, "Spy", 1510).warm()
	ada, ben := newGarden(t, s, "Ada", 1730).warm(), newGarden(t, s, "Ben", 1310).warm()
	few := spy.compare().GetMatched()
	if few.GetSitesCount() != 0 || few.GetGroup() != nil || !strings.Contains(few.GetSentence(), "two groups of 3 members") {
		t.Errorf("of three members: %v", few)
	}
	cleo := newGarden(t, s, "Cleo", 1930).cold()
	newGarden(t, s, "Dana", 2470).cold()
	newGarden(t, s, "Eli", 2210).cold()
	first := spy.compare().GetMatched()
	if first.GetSitesCount() != 3 || !strings.Contains(first.GetReason(), "water of 25 to 30 degC, in the open, Nile tilapia") {
		t.Fatalf("those most like the spy: %v", first)
	}
	if v := first.GetGroup().GetValue(); fmt.Sprint(v) != fmt.Sprintf("%.2g", v) {
		t.Errorf("told to more than two digits: %v", first.GetGroup())
	}
	for _, name := range []string{"Ada", "Ben"} {
		if strings.Contains(fmt.Sprint(first), name) || strings.Contains(fmt.Sprint(first), ada.site) {
			t.Errorf("it is told who they are: %v", first)
		}
	}
	was, coldWas := spy.told(), cleo.told()

	// What one's own site is said to be like is the member's to change: were the
	// group chosen anew, the site would slide past another's.
	spy.cold()
	spy.cold()
	if now := spy.told(); now != was {
		t.Errorf("a spy that changes its own site is told of others: %s, then %s", was, now)
	}
	// So would another's that changes: before and after would differ by it.
	cleo.warm()
	cleo.warm()
	if now, cold := spy.told(), cleo.told(); now != was || cold != coldWas {
		t.Errorf("a site that changed moved from group to group: %s, then %s; %s, then %s", was, now, coldWas, cold)
	}

	// A further site, made like the others' group, is not let into it.
	home := spy.site
	spy.begin("Spy's second", 1510)
	spy.cold()
	if m := spy.compare().GetMatched(); m != nil {
		t.Errorf("a site that waits is told of a group: %v", m)
	}
	spy.share(private)
	spy.site = home

	// Newcomers have no group until groups are made anew, even when they are many.
	var came []*garden
	for i, name := range []string{"Finn", "Gus", "Hal"} {
		came = append(came, newGarden(t, s, name, 1600+float64(100*i)).warm())
	}
	if n := len(spy.compare().GetSites()); n != 9 {
		t.Fatalf("%d sites are compared", n)
	}
	if now := spy.told(); now != was {
		t.Errorf("the group changed when others came: %s, then %s", was, now)
	}
	if m := came[0].compare().GetMatched(); m.GetSitesCount() != 0 || m.GetGroup() != nil || m.GetSentence() == "" {
		t.Errorf("a newcomer is told of a group: %v", m)
	}

	// One withdraws: nothing is told of any group while figures are coarse, and
	// nothing of theirs after.
	ada.share(private)
	for _, g := range []*garden{spy, ben, cleo} {
		if m := g.compare().GetMatched(); m != nil {
			t.Errorf("a group is told of after a site went: %v", m)
		}
	}
	// Two of the spy's group went and one came: what the other group leaves would
	// be of few. The spy's own and the newcomers are the rest.
	ben.share(private)
	newGarden(t, s, "Ivo", 1850).warm()
	if m := spy.compare(); m.GetCoarse() || m.GetMatched().GetSitesCount() != 0 || m.GetMatched().GetGroup() != nil {
		t.Errorf("a group is told of that some left: %v", m)
	}
	if now := cleo.told(); now != coldWas {
		t.Errorf("the other group changed: %s, then %s", coldWas, now)
	}
}

// What the groups leave over of a comparison is told by it too: where those are
// few, no group is told.
func TestWhatGroupsLeaveIsNotOfFew(t *testing.T) {
	s := servertest.New(t)
	showFrom(t, s, smallest)
	spy, ada, ben := newGarden(t, s, "Spy", 1510).warm(), newGarden(t, s, "Ada", 1730).warm(), newGarden(t, s, "Ben", 1310).warm()
	cleo := newGarden(t, s, "Cleo", 1930).cold()
	newGarden(t, s, "Dana", 2470).cold()
	newGarden(t, s, "Eli", 2210).cold()
	if m := cleo.compare().GetMatched(); m.GetSitesCount() != 3 {
		t.Fatalf("those most like Cleo's: %v", m)
	}
	ada.share(private)
	ben.share(private)
	newGarden(t, s, "Finn", 2050).warm()
	// The cast is Spy, Cleo, Dana, Eli and Finn: three went or came. Less Cleo's
	// group it is the spy and Finn, whose figure the spy could work out.
	m := cleo.compare()
	if m.GetCoarse() || len(m.GetSites()) != 5 {
		t.Fatalf("not another cast: %v", m)
	}
	if m.GetMatched().GetSitesCount() != 0 || m.GetMatched().GetGroup() != nil {
		t.Errorf("the sites without a group are two: %v", m.GetMatched())
	}
	if m := spy.compare().GetMatched(); m.GetSitesCount() != 0 {
		t.Errorf("the spy is told of a group: %v", m)
	}
}
