package server_test

import (
	"encoding/json"
	"strings"
	"testing"

	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"
	"google.golang.org/protobuf/types/dynamicpb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/servertest"
)

func TestTheLogHoldsNothingPersonal(t *testing.T) {
	s := servertest.New(t)
	invitation, err := s.Steward().Accounts.CreateInvitation(t.Context(), &freshetv1.CreateInvitationRequest{Role: grower})
	if err != nil {
		t.Fatal(err)
	}
	mara := s.Enter(invitation.GetCode(), "Mara Oduya")
	site := mara.NewSite(t, "Quince Hollow")
	_, err = s.Stranger().Accounts.Join(t.Context(), &freshetv1.JoinRequest{Code: "7777-7777-7777", DeviceName: "Thirza's tablet", DisplayName: "Thirza Quell"})
	wantReason(t, "a wrong code", err, "INVITATION_INVALID", "")
	_, err = mara.Accounts.SetSharing(t.Context(), &freshetv1.SetSharingRequest{SiteId: site, Kind: "gossip about Thirza"})
	wantReason(t, "a wrong kind", err, "UNKNOWN_NAME", "kind")
	ask(t, s, mara.Token, "GET", "/v1/formulas?containing=Quince", "")
	ask(t, s, mara.Token, "POST", "/v1/formulas/Quince", `{"inputs":{"latitude":"71.4779"}}`)
	behind(t, s, "ALTER TABLE devices RENAME COLUMN name TO gone")
	_, err = mara.Accounts.ListDevices(t.Context(), &freshetv1.ListDevicesRequest{})
	wantReason(t, "a broken database", err, "INTERNAL", "")

	log := s.Log.String() // nothing sought below can be part of a time in it
	for what, secret := range map[string]string{
		"token": mara.Token, "steward's token": s.Steward().Token, "code": invitation.GetCode(), "code without hyphens": strings.ReplaceAll(invitation.GetCode(), "-", ""),
		"typed code": "7777-7777", "name": "Mara", "stranger": "Thirza", "site": "Quince", "site's id": site, "member's id": mara.MemberID, "device's id": mara.DeviceID,
		"position": "71.4779", "address": "127.0.0.1:", "bearer": "earer",
	} {
		if strings.Contains(log, secret) {
			t.Errorf("the log holds the %s", what)
		}
	}
	wantLine(t, log, map[string]any{"method": "freshet.v1.AccountService/SetSharing", "code": "InvalidArgument", "reason": "UNKNOWN_NAME", "level": "INFO"})
	wantLine(t, log, map[string]any{"method": "freshet.v1.AccountService/ListDevices", "code": "Internal", "reason": "INTERNAL", "level": "ERROR", "error": "database: SQLSTATE 42703"})
}

// wantLine looks for a line with these attributes, an id, a time and a device.
func wantLine(t *testing.T, log string, want map[string]any) {
	t.Helper()
	for line := range strings.Lines(log) {
		var got map[string]any
		if err := json.Unmarshal([]byte(line), &got); err != nil {
			t.Fatalf("%v: %s", err, line)
		}
		same := true
		for name, value := range want {
			same = same && got[name] == value
		}
		if same {
			if got["request_id"] == "" || got["ms"] == nil || len(got["device"].(string)) != 8 {
				t.Errorf("%s", line)
			}
			return
		}
	}
	t.Errorf("no line with %v in\n%s", want, log)
}

// TestADaysLogHoldsNothingThatWasEntered lets people do what fills every corner
// of the database, well and badly, and looks for every text, id and position
// that came to lie there in the log at its lowest level.
func TestADaysLogHoldsNothingThatWasEntered(t *testing.T) {
	s := servertest.New(t)
	h := settled(t, s)
	h.stores(
		h.edit(&freshetv1.Edit{RecordId: h.site, Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{LatitudeDegrees: 78.20817, LongitudeDegrees: -116.37382}}}),
		h.event(&freshetv1.Event{Kind: &freshetv1.Event_Note{Note: &freshetv1.Note{Text: "gossip about the neighbour's pond"}}}),
		h.event(&freshetv1.Event{Kind: &freshetv1.Event_Expense{Expense: &freshetv1.Expense{Category: "bribed the heron", Currency: "EUR", AmountMinor: 9_876_543_210}}}),
		h.stocking(40), h.ph(71),
	)
	h.push(h.death(5000), h.edit(&freshetv1.Edit{SiteId: s.Steward().NewSite(t, "Elsewhere"), Record: &freshetv1.Edit_System{System: &freshetv1.System{Name: "Stolen loop"}}}))
	for _, kind := range []string{"all", "note"} {
		if _, err := h.p.Accounts.SetSharing(t.Context(), &freshetv1.SetSharingRequest{SiteId: h.site, Kind: kind, Sharing: freshetv1.Sharing_SHARING_OPEN}); err != nil {
			t.Fatal(err)
		}
	}
	other := h.another(s)
	for _, call := range contractCalls(t) { // each with nothing, and as somebody unknown
		for _, p := range []*servertest.Person{h.p, s.WithToken("bm90IGEgdG9rZW4gb2YgYW55Ym9keSBhdCBhbGwhISE")} {
			callWithNothing(t, p, call)
		}
	}
	for _, path := range []string{"/v1/sites/" + h.site + "/morning", "/v1/systems/" + h.system + "/water", "/v1/systems/" + h.site + "/water", "/v1/comparison?measure=1&site_id=" + h.site, "/heron/" + h.site} {
		ask(t, s, h.p.Token, "GET", path, "")
	}
	pull(t, h.p, &freshetv1.PullRequest{})
	if _, err := h.p.Accounts.RevokeDevice(t.Context(), &freshetv1.RevokeDeviceRequest{DeviceId: other.p.DeviceID}); err != nil {
		t.Fatal(err)
	}
	log := s.Log.String()
	entered := enteredTexts(t, s)
	if len(entered) < 60 || strings.Count(log, "\n") < 60 {
		t.Fatalf("only %d texts against %d lines", len(entered), strings.Count(log, "\n"))
	}
	for _, text := range append(entered, h.p.Token, other.p.Token, "78.20817", "116.37382", "9876543210", "heron", "bm90IGEg", "127.0.0.1:") {
		if strings.Contains(log, text) {
			t.Errorf("the log holds %q", text)
		}
	}
	t.Logf("%d texts, ids and hashes sought in %d lines", len(entered), strings.Count(log, "\n"))
}

// enteredTexts reads all texts, ids and hashes of the database, but for words of
// the contract: names of kinds, reasons and tables.
func enteredTexts(t *testing.T, s *servertest.Server) []string {
	t.Helper()
	columns := peek[[]string](t, s, `SELECT array_agg(format('SELECT %I::text AS v FROM %I', column_name, table_name)) FROM information_schema.columns
		WHERE table_schema = 'public' AND data_type IN ('text', 'uuid', 'bytea') AND table_name NOT IN ('kinds', 'schema_migrations')
			AND column_name NOT IN ('kind', 'about', 'noun', 'reason', 'field', 'hint', 'time_zone')`)
	return peek[[]string](t, s, `SELECT array_agg(DISTINCT trim(LEADING '\x' FROM v)) FROM (`+strings.Join(columns, " UNION ALL ")+`) AS all_of WHERE length(v) > 3`)
}

// contractCalls lists every call of the contract.
func contractCalls(t *testing.T) []protoreflect.MethodDescriptor {
	t.Helper()
	var calls []protoreflect.MethodDescriptor
	protoregistry.GlobalFiles.RangeFilesByPackage("freshet.v1", func(file protoreflect.FileDescriptor) bool {
		for i := range file.Services().Len() {
			methods := file.Services().Get(i).Methods()
			for j := range methods.Len() {
				calls = append(calls, methods.Get(j))
			}
		}
		return true
	})
	return calls
}

// callWithNothing makes a call with an empty request; what comes of it is the
// log's affair.
func callWithNothing(t *testing.T, p *servertest.Person, call protoreflect.MethodDescriptor) {
	t.Helper()
	if call.IsStreamingServer() {
		return
	}
	method := "/" + string(call.Parent().FullName()) + "/" + string(call.Name())
	_ = p.Conn.Invoke(t.Context(), method, dynamicpb.NewMessage(call.Input()), dynamicpb.NewMessage(call.Output()))
}
