package server_test

import (
	"encoding/json"
	"strings"
	"testing"

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
	ask(t, s, mara.Token, "POST", "/v1/formulas/Quince", `{"inputs":{"latitude":"51.4779"}}`)
	behind(t, s, "ALTER TABLE devices RENAME COLUMN name TO gone")
	_, err = mara.Accounts.ListDevices(t.Context(), &freshetv1.ListDevicesRequest{})
	wantReason(t, "a broken database", err, "INTERNAL", "")

	log := s.Log.String()
	for what, secret := range map[string]string{
		"token": mara.Token, "steward's token": s.Steward().Token, "code": invitation.GetCode(), "code without hyphens": strings.ReplaceAll(invitation.GetCode(), "-", ""),
		"typed code": "7777", "name": "Mara", "stranger": "Thirza", "site": "Quince", "site's id": site, "member's id": mara.MemberID, "device's id": mara.DeviceID,
		"position": "51.4779", "address": "127.0.0.1:", "bearer": "earer",
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
