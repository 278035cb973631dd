package server_test

import (
	"context"
	"crypto/ed25519"
	"crypto/rand"
	"fmt"
	"strings"
	"sync"
	"testing"
	"time"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/status"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
	"freshet.example/server/servertest"
)

// keyed is a device that joined with a key.
type keyed struct {
	*servertest.Person
	cooperative string
	key         ed25519.PrivateKey
}

func joinKeyed(t *testing.T, s *servertest.Server, name string) *keyed {
	t.Helper()
	invitation, err := s.Steward().Accounts.CreateInvitation(t.Context(), &freshetv1.CreateInvitationRequest{Role: grower})
	if err != nil {
		t.Fatal(err)
	}
	public, key, err := ed25519.GenerateKey(nil)
	if err != nil {
		t.Fatal(err)
	}
	joined, err := s.Stranger().Accounts.Join(t.Context(), &freshetv1.JoinRequest{Code: invitation.GetCode(), DeviceName: "phone", DisplayName: name, PublicKey: public})
	if err != nil {
		t.Fatal(err)
	}
	if left := time.Until(time.UnixMilli(joined.GetTokenEndsMs())); left < 50*time.Minute || left > time.Hour {
		t.Errorf("the first token ends in %v", left)
	}
	p := s.WithToken(joined.GetToken())
	p.MemberID, p.DeviceID = joined.GetMemberId(), joined.GetDeviceId()
	return &keyed{p, joined.GetCooperativeId(), key}
}

// statement is one that the device signed at a moment.
func (k *keyed) statement(at time.Time) *freshetv1.RenewTokenRequest {
	nonce := make([]byte, wire.RenewalNonceBytes)
	rand.Read(nonce)
	return &freshetv1.RenewTokenRequest{DeviceId: k.DeviceID, AtMs: at.UnixMilli(), Nonce: nonce,
		Signature: ed25519.Sign(k.key, wire.Renewal(k.cooperative, k.DeviceID, at.UnixMilli(), nonce))}
}

func knows(t *testing.T, s *servertest.Server, token string) error {
	t.Helper()
	_, err := s.WithToken(token).Accounts.WhoAmI(t.Context(), &freshetv1.WhoAmIRequest{})
	return err
}

func TestTokensEndAndAreRenewedBySignature(t *testing.T) {
	s := servertest.New(t)
	k := joinKeyed(t, s, "Jo Amsel")
	if err := knows(t, s, k.Token); err != nil {
		t.Fatal(err)
	}
	behind(t, s, "UPDATE tokens SET ends_at = now() - interval '1 second'")
	wantReason(t, "a token that has ended", knows(t, s, k.Token), "UNAUTHENTICATED", "")
	renewed, err := s.Stranger().Accounts.RenewToken(t.Context(), k.statement(time.Now()))
	if err != nil {
		t.Fatal(err)
	}
	if err := knows(t, s, renewed.GetToken()); err != nil {
		t.Error(err)
	}
	if _, err := s.Stranger().Accounts.RenewToken(t.Context(), k.statement(time.Now())); err != nil {
		t.Error(err)
	}
	if err := knows(t, s, renewed.GetToken()); err != nil {
		t.Errorf("another program of the device renewed, and this one's token: %v", err)
	}
}

func TestStatementsOfOthersRenewNothing(t *testing.T) {
	s := servertest.New(t)
	k, other := joinKeyed(t, s, "Jo Amsel"), joinKeyed(t, s, "Rui Paz")
	now := time.Now()
	elsewhere := &keyed{k.Person, other.MemberID, k.key} // signed for another cooperative
	stolen := &keyed{k.Person, k.cooperative, other.key}
	changed := k.statement(now)
	changed.AtMs++
	short := k.statement(now)
	short.Signature = short.Signature[:63]
	unsigned := k.statement(now)
	unsigned.Signature = nil
	another := k.statement(now)
	another.DeviceId = other.DeviceID
	tokenOnly := (&keyed{s.Steward(), k.cooperative, k.key}).statement(now) // a device without a key
	for what, in := range map[string]*freshetv1.RenewTokenRequest{
		"for another cooperative": elsewhere.statement(now), "another's key": stolen.statement(now), "changed": changed,
		"short": short, "unsigned": unsigned, "another device's": another, "a device without a key": tokenOnly,
	} {
		_, err := s.Stranger().Accounts.RenewToken(t.Context(), in)
		wantReason(t, what, err, "SIGNATURE_INVALID", "")
	}
	_, err := s.Stranger().Accounts.RenewToken(t.Context(), &freshetv1.RenewTokenRequest{DeviceId: "phone"})
	wantReason(t, "no id", err, "BAD_ID", "device_id")
}

func TestAStatementIsTakenOnce(t *testing.T) {
	s := servertest.New(t)
	k := joinKeyed(t, s, "Jo Amsel")
	in := k.statement(time.Now())
	var taken, refused int
	var mu sync.Mutex
	var all sync.WaitGroup
	for range 6 {
		all.Go(func() {
			_, err := s.Stranger().Accounts.RenewToken(context.WithoutCancel(t.Context()), in)
			mu.Lock()
			defer mu.Unlock()
			if err == nil {
				taken++
			} else if strings.Contains(fmt.Sprint(status.Convert(err).Details()), "SIGNATURE_INVALID") {
				refused++
			}
		})
	}
	all.Wait()
	if taken != 1 || refused != 5 {
		t.Errorf("taken %d times, refused %d times", taken, refused)
	}
}

func TestClocksThatAreApartAreToldTheTime(t *testing.T) {
	s := servertest.New(t)
	k := joinKeyed(t, s, "Jo Amsel")
	for off, far := range map[time.Duration]bool{-4 * time.Minute: false, 4 * time.Minute: false, -6 * time.Minute: true, 6 * time.Minute: true, 5 * 365 * 24 * time.Hour: true} {
		_, err := s.Stranger().Accounts.RenewToken(t.Context(), k.statement(time.Now().Add(off)))
		if !far && err != nil {
			t.Errorf("%v: %v", off, err)
		}
		if !far {
			continue
		}
		wantReason(t, off.String(), err, "CLOCK_APART", "")
		told := serverTime(t, err)
		if apart := time.Since(told).Abs(); apart > time.Minute {
			t.Errorf("%v: it was told %v", off, told)
		}
		if _, err := s.Stranger().Accounts.RenewToken(t.Context(), k.statement(told)); err != nil {
			t.Errorf("%v: signed by the time that was told: %v", off, err)
		}
	}
	stranger := &keyed{k.Person, k.cooperative, joinKeyed(t, s, "Rui Paz").key}
	_, err := s.Stranger().Accounts.RenewToken(t.Context(), stranger.statement(time.Unix(0, 0)))
	wantReason(t, "the time, to one without the key", err, "SIGNATURE_INVALID", "")
}

func serverTime(t *testing.T, err error) time.Time {
	t.Helper()
	for _, detail := range status.Convert(err).Details() {
		if info, ok := detail.(*errdetails.ErrorInfo); ok {
			var ms int64
			if _, err := fmt.Sscan(info.GetMetadata()["server_ms"], &ms); err != nil {
				t.Fatal(err)
			}
			return time.UnixMilli(ms)
		}
	}
	t.Fatalf("no details in %v", err)
	return time.Time{}
}

func TestARevokedDeviceRenewsNothing(t *testing.T) {
	s := servertest.New(t)
	k := joinKeyed(t, s, "Jo Amsel")
	if _, err := s.Steward().Accounts.RevokeDevice(t.Context(), &freshetv1.RevokeDeviceRequest{DeviceId: k.DeviceID}); err != nil {
		t.Fatal(err)
	}
	wantReason(t, "its token", knows(t, s, k.Token), "DEVICE_REVOKED", "")
	_, err := s.Stranger().Accounts.RenewToken(t.Context(), k.statement(time.Now()))
	wantReason(t, "its signature", err, "DEVICE_REVOKED", "")
	_, err = k.Accounts.EnrolKey(t.Context(), &freshetv1.EnrolKeyRequest{PublicKey: k.key.Public().(ed25519.PublicKey)})
	wantReason(t, "its key again", err, "DEVICE_REVOKED", "")
}

func TestADeviceOfBeforeEnrolsOneKey(t *testing.T) {
	s := servertest.New(t)
	before := s.Join(grower, "Jo Amsel")
	public, key, err := ed25519.GenerateKey(nil)
	if err != nil {
		t.Fatal(err)
	}
	_, err = before.Accounts.EnrolKey(t.Context(), &freshetv1.EnrolKeyRequest{PublicKey: public[:31]})
	wantReason(t, "a short key", err, "MALFORMED", "public_key")
	enrolled, err := before.Accounts.EnrolKey(t.Context(), &freshetv1.EnrolKeyRequest{PublicKey: public})
	if err != nil {
		t.Fatal(err)
	}
	wantReason(t, "the token of before", knows(t, s, before.Token), "UNAUTHENTICATED", "")
	now := s.WithToken(enrolled.GetToken())
	me, err := now.Accounts.WhoAmI(t.Context(), &freshetv1.WhoAmIRequest{})
	if err != nil || me.GetDeviceId() != before.DeviceID {
		t.Errorf("%v %v", me, err)
	}
	if _, err := now.Accounts.EnrolKey(t.Context(), &freshetv1.EnrolKeyRequest{PublicKey: public}); err != nil {
		t.Errorf("the same key again, after a lost answer: %v", err)
	}
	other, _, _ := ed25519.GenerateKey(nil)
	_, err = now.Accounts.EnrolKey(t.Context(), &freshetv1.EnrolKeyRequest{PublicKey: other})
	wantReason(t, "another key", err, "SIGNATURE_INVALID", "")
	k := &keyed{before, me.GetCooperativeId(), key}
	if _, err := s.Stranger().Accounts.RenewToken(t.Context(), k.statement(time.Now())); err != nil {
		t.Error(err)
	}
}
