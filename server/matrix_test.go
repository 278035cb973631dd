package server_test

import (
	"fmt"
	"net/http"
	"slices"
	"strings"
	"testing"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/types/dynamicpb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server"
	"freshet.example/server/servertest"
)

// TestMatrixOfCalls makes every call of the contract as everybody, about a site
// of every relation, as sites share, by gRPC and as a browser calls; by gRPC
// again once all have withdrawn; and pulls as everybody. Who may is said here in
// words of the cooperative's own rules, not read from the policy.
func TestMatrixOfCalls(t *testing.T) {
	m := newCallMatrix(t)
	tried := 0
	for _, withdrawn := range []bool{false, true} {
		if withdrawn {
			m.withdraw(t)
		}
		for who, p := range m.callers {
			for _, call := range contractCalls(t) {
				tried += m.try(t, who, p, call, withdrawn)
			}
			tried += m.pull(t, who, p, withdrawn)
		}
	}
	t.Logf("%d cases", tried)
	if tried < 2500 {
		t.Errorf("only %d cases were tried", tried)
	}
}

// A farm is a grower's place, with names that tell where an answer is from.
type farm struct {
	*hand
	shares string // "open", "open with notes", "named", "figures", "private", "own"
	trial  string
	name   string // of the site
	note   string // private unless shared by itself
	device string // of its grower
}

type callMatrix struct {
	s       *servertest.Server
	farms   []*farm // the first is the one that the helper, reader and probe are let into
	callers map[string]*servertest.Person
	own     map[string]*farm
	spare   map[string]string // a further device of each
}

func newCallMatrix(t *testing.T) *callMatrix {
	t.Helper()
	patient := server.UsualCrowd // nobody knows hundreds of these callers, and all come from one address
	patient.Unknown = server.Boundless.Unknown
	m := &callMatrix{s: servertest.Start(t, server.Options{Crowd: patient}), callers: map[string]*servertest.Person{}, own: map[string]*farm{}, spare: map[string]string{}}
	kept := m.farm(t, m.s.Join(grower, "Host"), "own")
	m.callers["steward"], m.callers["grower"] = m.s.Steward(), m.s.Join(grower, "Gro")
	for who, role := range map[string]freshetv1.Role{"helper": helper, "reader": reader, "probe": sensor} {
		m.callers[who], m.own[who] = m.s.Invited(kept.p, role, who, kept.site), kept
	}
	for _, who := range []string{"steward", "grower"} {
		m.own[who] = m.farm(t, m.callers[who], "own")
	}
	for who, p := range m.callers {
		if who != "probe" { // which invites nobody, not even itself
			m.spare[who] = m.s.Invited(p, again, who).DeviceID
		}
	}
	for _, shares := range []string{"open", "open with notes", "named", "figures", "private"} {
		m.farms = append(m.farms, m.farm(t, m.s.Join(grower, "Owner"), shares))
	}
	m.callers["nobody"] = m.s.Stranger()
	ended := m.s.Invited(kept.p, again, "Host")
	if _, err := kept.p.Accounts.RevokeDevice(t.Context(), &freshetv1.RevokeDeviceRequest{DeviceId: ended.DeviceID}); err != nil {
		t.Fatal(err)
	}
	m.callers["an ended device"] = ended
	return m
}

func (m *callMatrix) farm(t *testing.T, p *servertest.Person, shares string) *farm {
	t.Helper()
	f := &farm{hand: newHand(t, p), shares: shares, device: p.DeviceID}
	f.settleIn()
	f.name, f.note = "Site<"+f.site[:13]+">", "Note<"+f.site[:13]+">"
	f.trial = f.makes(&freshetv1.Edit{SiteId: f.site, Record: &freshetv1.Edit_Trial{Trial: &freshetv1.Trial{Question: f.name, Measure: 1, FromOn: "2026-01-01",
		Arms: []*freshetv1.TrialArm{{Name: "a", PlantingIds: []string{f.planting}}, {Name: "b", PlantingIds: []string{f.planting}}}}}})
	f.stores(f.edit(&freshetv1.Edit{RecordId: f.site, Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{Name: f.name}}}),
		f.event(&freshetv1.Event{Kind: &freshetv1.Event_Note{Note: &freshetv1.Note{Text: f.note}}}))
	for kind, far := range map[string]map[string]freshetv1.Sharing{
		"open": {"all": freshetv1.Sharing_SHARING_OPEN}, "open with notes": {"all": freshetv1.Sharing_SHARING_OPEN, "note": freshetv1.Sharing_SHARING_OPEN},
		"named": {"all": freshetv1.Sharing_SHARING_NAMED}, "figures": {"all": freshetv1.Sharing_SHARING_FIGURES},
	}[shares] {
		f.share(t, kind, far)
	}
	return f
}

func (f *farm) share(t *testing.T, kind string, far freshetv1.Sharing) {
	t.Helper()
	if _, err := f.p.Accounts.SetSharing(t.Context(), &freshetv1.SetSharingRequest{SiteId: f.site, Kind: kind, Sharing: far}); err != nil {
		t.Fatal(err)
	}
}

func (m *callMatrix) withdraw(t *testing.T) {
	t.Helper()
	for _, f := range m.farms {
		f.share(t, "all", freshetv1.Sharing_SHARING_PRIVATE)
		f.share(t, "note", freshetv1.Sharing_SHARING_PRIVATE)
	}
}

// sees tells whether somebody may read a farm's records: their own, and those
// open to members.
func (m *callMatrix) sees(who string, f *farm, withdrawn bool) bool {
	person := slices.Contains([]string{"steward", "grower", "helper", "reader"}, who)
	return person && (f == m.own[who] || !withdrawn && strings.HasPrefix(f.shares, "open"))
}

// may tells who may make a call about a farm. Of a call that is not named here
// it knows only who must not.
func (m *callMatrix) may(t *testing.T, who string, call protoreflect.MethodDescriptor, f *farm, withdrawn bool) (may, named bool) {
	t.Helper()
	person := slices.Contains([]string{"steward", "grower", "helper", "reader"}, who)
	switch call.Name() {
	case "Join", "RenewToken":
		return true, true
	case "WhoAmI", "EnrolKey", "Hello", "Push", "ListFormulas", "Compute", "ComputeBatch":
		return person || who == "probe", true
	case "CreateInvitation", "CreateRecoveryCode", "ListMembers", "ListDevices", "ListChronicle", "Leave", "Pull", "Watch":
		return person, true
	case "SetRole":
		return who == "steward", true
	case "SetSharing":
		return (who == "steward" || who == "grower") && f == m.own[who], true
	case "RevokeDevice":
		return who == "steward" || person && f == m.own[who], true
	case "CompareSites", "PlanTrial", "PutPhotoThumbnail", "PutPhotoChunk":
		return person && f == m.own[who], true
	case "ListSharing", "GetMorning", "DescribeWater", "ExplainChange", "EstimateTrouble", "SuggestRation", "GetNitrogenBudget", "GetStockingLimits",
		"ForecastFishHarvest", "ForecastBearing", "SuggestSowing", "PlanSowing", "JudgeRemedy", "GetLarder", "GetOutlook", "FindSigns", "ListSeries", "GetTrialResult",
		"FindPhotoFiles", "GetPhotoThumbnail", "GetPhotoChunk":
		return m.sees(who, f, withdrawn), true
	}
	// The science is everybody's; answers from records go to those who see them.
	if call.Parent().Name() == "HusbandryService" {
		return person || who == "probe", false
	}
	return m.sees(who, f, withdrawn), false
}

// try makes one call about each farm, once where it names none.
func (m *callMatrix) try(t *testing.T, who string, p *servertest.Person, call protoreflect.MethodDescriptor, withdrawn bool) (tried int) {
	t.Helper()
	farms := m.farms
	if own := m.own[who]; own != nil {
		farms = slices.Insert(slices.Clone(farms), 0, own)
	}
	name := string(call.Name())
	for i, f := range farms {
		request, names := m.about(call, who, f)
		if !names && i > 0 {
			break
		}
		ways := map[string]func() (string, error){"gRPC": func() (string, error) { return askByGRPC(t, p, call, request) }}
		if !call.IsStreamingServer() && !withdrawn {
			ways["Connect"] = func() (string, error) { return m.askByConnect(t, p, call, request) }
		}
		for way, ask := range ways {
			tried++
			answer, err := ask()
			code := status.Code(err)
			let := code != codes.Unauthenticated && code != codes.PermissionDenied
			if name == "Join" || name == "RenewToken" { // whose refusal of no code, no signature, is not of a person
				let = true
			}
			if want, named := m.may(t, who, call, f, withdrawn); let != want && (let || named) {
				t.Errorf("%s by %s as %s, a site that is %s, withdrawn %v: let in %v, want %v (%v)", name, way, who, f.shares, withdrawn, let, want, err)
			}
			m.leaks(t, fmt.Sprintf("%s by %s", name, way), who, answer, withdrawn)
		}
	}
	return tried
}

// about makes the least request that names what is the farm's.
func (m *callMatrix) about(call protoreflect.MethodDescriptor, who string, f *farm) (request *dynamicpb.Message, names bool) {
	request = dynamicpb.NewMessage(call.Input())
	device := f.device
	if f == m.own[who] && m.spare[who] != "" {
		device = m.spare[who] // so that nobody ends the device they call with
	}
	for field, id := range map[protoreflect.Name]string{"site_id": f.site, "system_id": f.system, "trial_id": f.trial, "device_id": device} {
		if d := call.Input().Fields().ByName(field); d != nil {
			request.Set(d, protoreflect.ValueOfString(id))
			names = true
		}
	}
	if call.Name() == "RevokeDevice" && f != m.own[who] && who == "steward" {
		request.Set(call.Input().Fields().ByName("device_id"), protoreflect.ValueOfString(m.spare["grower"]))
	}
	return request, names
}

func askByGRPC(t *testing.T, p *servertest.Person, call protoreflect.MethodDescriptor, request *dynamicpb.Message) (string, error) {
	t.Helper()
	method := "/" + string(call.Parent().FullName()) + "/" + string(call.Name())
	if call.IsStreamingServer() {
		return "", beginStream(t, p, call)
	}
	answer := dynamicpb.NewMessage(call.Output())
	err := p.Conn.Invoke(t.Context(), method, request, answer)
	return protojson.Format(answer), err
}

// askByConnect asks as a browser does; a status stands for its code.
func (m *callMatrix) askByConnect(t *testing.T, p *servertest.Person, call protoreflect.MethodDescriptor, request *dynamicpb.Message) (string, error) {
	t.Helper()
	body, err := protojson.Marshal(request)
	if err != nil {
		t.Fatal(err)
	}
	got := ask(t, m.s, p.Token, "POST", "/"+string(call.Parent().FullName())+"/"+string(call.Name()), string(body), connect, "1")
	switch got.code {
	case http.StatusOK:
		return got.text, nil
	case http.StatusUnauthorized:
		return got.text, status.Error(codes.Unauthenticated, got.text)
	case http.StatusForbidden:
		return got.text, status.Error(codes.PermissionDenied, got.text)
	}
	return got.text, status.Error(codes.Unknown, got.text)
}

// beginStream opens Pull or Watch and hears whether it is let in. A watch that
// is stays silent until it is told to end.
func beginStream(t *testing.T, p *servertest.Person, call protoreflect.MethodDescriptor) error {
	t.Helper()
	if call.Name() == "Pull" {
		stream, err := p.Sync.Pull(t.Context(), &freshetv1.PullRequest{})
		if err == nil {
			_, err = stream.Recv()
		}
		return err
	}
	stream, err := p.Sync.Watch(t.Context(), &freshetv1.WatchRequest{Scopes: []string{"coop", "member:" + p.MemberID}})
	if err != nil {
		return err
	}
	// Who is let in is told so by a first hint, which a pushed setting makes sure of.
	own := newHand(t, p)
	if _, err := own.try(own.edit(&freshetv1.Edit{RecordId: p.MemberID, Record: &freshetv1.Edit_Member{Member: &freshetv1.Member{DisplayName: "Me"}}})); err != nil && p.Token == "" {
		return err
	}
	_, err = stream.Recv()
	return err
}

// pull compares all that somebody's device is sent with what they may read.
func (m *callMatrix) pull(t *testing.T, who string, p *servertest.Person, withdrawn bool) (tried int) {
	t.Helper()
	if _, known := m.own[who]; !known || who == "probe" {
		return 0
	}
	var sent strings.Builder
	for scope, blocks := range pull(t, p, &freshetv1.PullRequest{}).blocks {
		sent.WriteString(scope)
		for _, block := range blocks {
			sent.WriteString(protojson.Format(block))
		}
	}
	for _, f := range append(slices.Clone(m.farms), m.own[who]) {
		tried += 2
		if got, want := strings.Contains(sent.String(), f.name), m.sees(who, f, withdrawn); got != want {
			t.Errorf("%s is sent a site that is %s, withdrawn %v: %v, want %v", who, f.shares, withdrawn, got, want)
		}
		if got, want := strings.Contains(sent.String(), f.note), f == m.own[who] && who != "reader"; got != want {
			t.Errorf("%s is sent the notes of a site that is %s, withdrawn %v: %v, want %v", who, f.shares, withdrawn, got, want)
		}
	}
	return tried
}

// leaks looks in an answer for what is of a farm that the caller may not see.
func (m *callMatrix) leaks(t *testing.T, what, who, answer string, withdrawn bool) {
	t.Helper()
	for _, f := range m.farms {
		if !m.sees(who, f, withdrawn) && (strings.Contains(answer, f.name) || strings.Contains(answer, f.note)) {
			t.Errorf("%s tells %s of a site that is %s, withdrawn %v: %s", what, who, f.shares, withdrawn, answer)
		}
	}
}
