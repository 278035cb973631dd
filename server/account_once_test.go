package server_test

import (
	"fmt"
	"sync"
	"testing"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/servertest"
)

// A code that several use at the same moment lets one of them in.
func TestACodeLetsOneIn(t *testing.T) {
	s := servertest.New(t)
	mara := s.Join(grower, "Mara Oduya")
	fresh, err := s.Steward().Accounts.CreateInvitation(t.Context(), &freshetv1.CreateInvitationRequest{Role: grower})
	if err != nil {
		t.Fatal(err)
	}
	further, err := mara.Accounts.CreateInvitation(t.Context(), &freshetv1.CreateInvitationRequest{})
	if err != nil {
		t.Fatal(err)
	}
	recovery, err := mara.Accounts.CreateRecoveryCode(t.Context(), &freshetv1.CreateRecoveryCodeRequest{})
	if err != nil {
		t.Fatal(err)
	}
	for what, code := range map[string]string{"invitation": fresh.GetCode(), "further device": further.GetCode(), "recovery": recovery.GetCode()} {
		stranger, begin, ended := s.Stranger(), make(chan struct{}), [3]string{}
		var all sync.WaitGroup
		for n := range ended {
			all.Go(func() {
				<-begin
				_, err := stranger.Accounts.Join(t.Context(), &freshetv1.JoinRequest{Code: code, DeviceName: fmt.Sprint("phone ", n), DisplayName: "Jo Amsel"})
				if ended[n] = "in"; err != nil {
					ended[n] = reasonOf(err)
				}
			})
		}
		close(begin)
		all.Wait()
		in := 0
		for _, how := range ended {
			if how == "in" {
				in++
			} else if how != "INVITATION_INVALID" {
				t.Errorf("%s: %s", what, how)
			}
		}
		if in != 1 {
			t.Errorf("%s: %d came in, want 1", what, in)
		}
	}
}
