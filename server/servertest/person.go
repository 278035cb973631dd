package servertest

import (
	"context"

	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
)

// A Person is a member on one device, with clients that carry its token.
type Person struct {
	Token    string
	MemberID string
	DeviceID string
	Role     freshetv1.Role

	Conn      *grpc.ClientConn
	Accounts  freshetv1.AccountServiceClient
	Sync      freshetv1.SyncServiceClient
	Husbandry freshetv1.HusbandryServiceClient
	Analysis  freshetv1.AnalysisServiceClient
	Pool      freshetv1.PoolServiceClient
	Photos    freshetv1.PhotoServiceClient

	// Install names the device's app, and Number its last operation.
	Install wire.Install
	Number  uint64
}

// Join makes a member of a role, invited by the steward, who lets people into
// sites of hers only.
func (s *Server) Join(role freshetv1.Role, name string, siteIDs ...string) *Person {
	s.t.Helper()
	return s.Invited(s.Steward(), role, name, siteIDs...)
}

// Invited makes a member of a role, invited by another; with no role, one more
// device of the other.
func (s *Server) Invited(by *Person, role freshetv1.Role, name string, siteIDs ...string) *Person {
	s.t.Helper()
	invitation, err := by.Accounts.CreateInvitation(s.t.Context(), &freshetv1.CreateInvitationRequest{Role: role, SiteIds: siteIDs})
	if err != nil {
		s.t.Fatalf("servertest: inviting %s: %v", name, err)
	}
	return s.Enter(invitation.GetCode(), name)
}

// Enter uses an invitation code.
func (s *Server) Enter(code, name string) *Person {
	s.t.Helper()
	joined, err := s.Stranger().Accounts.Join(s.t.Context(), &freshetv1.JoinRequest{Code: code, DeviceName: name + "'s phone", DisplayName: name})
	if err != nil {
		s.t.Fatalf("servertest: joining %s: %v", name, err)
	}
	p := s.WithToken(joined.GetToken())
	p.MemberID, p.DeviceID, p.Role = joined.GetMemberId(), joined.GetDeviceId(), joined.GetRole()
	return p
}

// Stranger is somebody without a token.
func (s *Server) Stranger() *Person { return s.WithToken("") }

// WithToken is whoever has a token.
func (s *Server) WithToken(token string) *Person {
	s.t.Helper()
	options := []grpc.DialOption{grpc.WithTransportCredentials(insecure.NewCredentials())}
	if token != "" {
		options = append(options, grpc.WithPerRPCCredentials(bearer(token)))
	}
	conn, err := grpc.NewClient(s.GRPCAddress().String(), options...)
	if err != nil {
		s.t.Fatalf("servertest: %v", err)
	}
	s.t.Cleanup(func() { _ = conn.Close() })
	return &Person{
		Token: token, Conn: conn, Install: wire.NewInstall(),
		Accounts:  freshetv1.NewAccountServiceClient(conn),
		Sync:      freshetv1.NewSyncServiceClient(conn),
		Husbandry: freshetv1.NewHusbandryServiceClient(conn),
		Analysis:  freshetv1.NewAnalysisServiceClient(conn),
		Pool:      freshetv1.NewPoolServiceClient(conn),
		Photos:    freshetv1.NewPhotoServiceClient(conn),
	}
}

// bearer is a token that goes with each call.
type bearer string

// GetRequestMetadata adds the token to a call.
func (b bearer) GetRequestMetadata(context.Context, ...string) (map[string]string, error) {
	return map[string]string{"authorization": "Bearer " + string(b)}, nil
}

// RequireTransportSecurity is false: the test's server is on this machine.
func (b bearer) RequireTransportSecurity() bool { return false }
