package auth

import (
	"context"
	"errors"
	"testing"

	"github.com/google/uuid"
	"google.golang.org/grpc"
	"google.golang.org/grpc/metadata"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
)

var (
	ownSite, openSite, closedSite = uuid.New(), uuid.New(), uuid.New()
	ownLoop, openLoop, closedLoop = uuid.New(), uuid.New(), uuid.New()
	commonTrial, strange          = uuid.New(), uuid.New()
	ownDevice, otherDevice        = uuid.New(), uuid.New()
	member                        = uuid.New()
)

// gateFor is a gate over a small world in which one token is known.
func gateFor(role freshetv1.Role) (*Gate, context.Context) {
	token, hash := NewToken()
	sites := map[uuid.UUID]uuid.UUID{ownSite: ownSite, openSite: openSite, closedSite: closedSite,
		ownLoop: ownSite, openLoop: openSite, closedLoop: closedSite, commonTrial: uuid.Nil}
	gate := &Gate{
		Find: func(_ context.Context, h []byte) (Caller, error) {
			if string(h) != string(hash) {
				return Caller{}, ErrNoToken
			}
			return Caller{MemberID: member, DeviceID: ownDevice, Role: role, SiteIDs: []uuid.UUID{ownSite}}, nil
		},
		SiteOf: func(_ context.Context, _ string, id uuid.UUID) (uuid.UUID, error) {
			site, ok := sites[id]
			if !ok {
				return uuid.Nil, ErrUnknown
			}
			return site, nil
		},
		Open: func(_ context.Context, site uuid.UUID) (bool, error) { return site == openSite, nil },
		OwnerOf: func(_ context.Context, device uuid.UUID) (uuid.UUID, error) {
			return map[uuid.UUID]uuid.UUID{ownDevice: member, otherDevice: uuid.New()}[device], nil
		},
	}
	return gate, metadata.NewIncomingContext(context.Background(), metadata.Pairs("authorization", "Bearer "+token))
}

// pass sends a request through both interceptors.
func pass(ctx context.Context, g *Gate, method string, request proto.Message) error {
	info := &grpc.UnaryServerInfo{FullMethod: method}
	_, err := g.Identify(ctx, request, info, func(ctx context.Context, request any) (any, error) {
		return g.Permit(ctx, request, info, func(context.Context, any) (any, error) { return nil, nil })
	})
	return err
}

func TestGateLetsInByRoleAndSite(t *testing.T) {
	const (
		morning  = freshetv1.AnalysisService_GetMorning_FullMethodName
		water    = freshetv1.AnalysisService_DescribeWater_FullMethodName
		sharing  = freshetv1.AccountService_SetSharing_FullMethodName
		compare  = freshetv1.PoolService_CompareSites_FullMethodName
		trial    = freshetv1.PoolService_GetTrialResult_FullMethodName
		revoke   = freshetv1.AccountService_RevokeDevice_FullMethodName
		setRole  = freshetv1.AccountService_SetRole_FullMethodName
		steward  = freshetv1.Role_ROLE_STEWARD
		grower   = freshetv1.Role_ROLE_GROWER
		helper   = freshetv1.Role_ROLE_HELPER
		reader   = freshetv1.Role_ROLE_READER
		sensor   = freshetv1.Role_ROLE_SENSOR
		stranger = freshetv1.Role_ROLE_UNSPECIFIED
	)
	site := func(id uuid.UUID) proto.Message { return &freshetv1.GetMorningRequest{SiteId: id.String()} }
	loop := func(id uuid.UUID) proto.Message { return &freshetv1.DescribeWaterRequest{SystemId: id.String()} }
	share := func(id uuid.UUID) proto.Message { return &freshetv1.SetSharingRequest{SiteId: id.String()} }
	device := func(id uuid.UUID) proto.Message { return &freshetv1.RevokeDeviceRequest{DeviceId: id.String()} }
	own := func(id string) proto.Message { return &freshetv1.CompareSitesRequest{SiteId: id} }

	for _, c := range []struct {
		what    string
		role    freshetv1.Role
		method  string
		request proto.Message
		want    error
	}{
		{"grower, own site", grower, morning, site(ownSite), nil},
		{"grower, open site", grower, morning, site(openSite), nil},
		{"grower, closed site", grower, morning, site(closedSite), ErrNotYours},
		{"steward sees no more", steward, morning, site(closedSite), ErrNotYours},
		{"reader, own site", reader, morning, site(ownSite), nil},
		{"sensor reads nothing", sensor, morning, site(ownSite), ErrRole},
		{"no role", stranger, morning, site(ownSite), ErrRole},
		{"no such site", grower, morning, site(strange), ErrUnknown},
		{"empty site", grower, morning, &freshetv1.GetMorningRequest{}, ErrMissing},
		{"nil site", grower, morning, site(uuid.Nil), ErrBadID},
		{"not an id", grower, morning, &freshetv1.GetMorningRequest{SiteId: "north"}, ErrBadID},
		{"helper, own loop", helper, water, loop(ownLoop), nil},
		{"helper, open loop", helper, water, loop(openLoop), nil},
		{"helper, closed loop", helper, water, loop(closedLoop), ErrNotYours},
		{"grower shares own site", grower, sharing, share(ownSite), nil},
		{"grower shares an open site", grower, sharing, share(openSite), ErrNotYours},
		{"helper shares nothing", helper, sharing, share(ownSite), ErrRole},
		{"steward shares own site", steward, sharing, share(ownSite), nil},
		{"steward shares another's", steward, sharing, share(closedSite), ErrNotYours},
		{"comparison without a site", reader, compare, own(""), nil},
		{"comparison with own site", reader, compare, own(ownSite.String()), nil},
		{"comparison with open site", reader, compare, own(openSite.String()), ErrNotYours},
		{"the cooperative's trial", reader, trial, &freshetv1.GetTrialResultRequest{TrialId: commonTrial.String()}, nil},
		{"own device", helper, revoke, device(ownDevice), nil},
		{"another's device", grower, revoke, device(otherDevice), ErrNotYours},
		{"steward, another's device", steward, revoke, device(otherDevice), nil},
		{"steward sets a role", steward, setRole, &freshetv1.SetRoleRequest{}, nil},
		{"grower sets no role", grower, setRole, &freshetv1.SetRoleRequest{}, ErrRole},
		{"a call without a row", steward, "/freshet.v1.SyncService/Erase", site(ownSite), ErrRole},
	} {
		gate, ctx := gateFor(c.role)
		if got := pass(ctx, gate, c.method, c.request); !errors.Is(got, c.want) {
			t.Errorf("%s: %v, want %v", c.what, got, c.want)
		}
	}
}

func TestGateWantsAKnownToken(t *testing.T) {
	gate, known := gateFor(freshetv1.Role_ROLE_STEWARD)
	header := metadata.ValueFromIncomingContext(known, "authorization")[0]
	other, _ := NewToken()
	for what, values := range map[string][]string{
		"none": nil, "empty": {""}, "scheme only": {"Bearer"}, "two": {header, header},
		"unknown": {"Bearer " + other}, "cut": {header[:len(header)-1]}, "basic": {"Basic " + header[7:]},
		"longer": {header + "A"}, "padded": {header + "="}, "bare": {header[7:]},
	} {
		md := metadata.MD{}
		md.Append("authorization", values...)
		ctx := metadata.NewIncomingContext(context.Background(), md)
		for name := range contract(t) {
			err := pass(ctx, gate, name, nil)
			if name == freshetv1.AccountService_Join_FullMethodName || name == freshetv1.AccountService_RenewToken_FullMethodName {
				continue
			}
			if !errors.Is(err, ErrNoToken) {
				t.Errorf("%s token: %s: %v", what, name, err)
			}
		}
	}
	lower := metadata.NewIncomingContext(context.Background(), metadata.Pairs("authorization", "bearer "+header[7:]))
	if err := pass(lower, gate, freshetv1.AccountService_WhoAmI_FullMethodName, &freshetv1.WhoAmIRequest{}); err != nil {
		t.Errorf("a known token with a small letter: %v", err)
	}
}

func TestReflectionNeedsATokenUnlessOpened(t *testing.T) {
	const method = "/grpc.reflection.v1.ServerReflection/ServerReflectionInfo"
	gate, _ := gateFor(freshetv1.Role_ROLE_READER)
	if _, err := gate.identify(context.Background(), method); !errors.Is(err, ErrNoToken) {
		t.Errorf("closed: %v", err)
	}
	gate.OpenReflection = true
	if _, err := gate.identify(context.Background(), method); err != nil {
		t.Errorf("opened: %v", err)
	}
	if _, err := gate.identify(context.Background(), freshetv1.SyncService_Pull_FullMethodName); !errors.Is(err, ErrNoToken) {
		t.Errorf("opening reflection opened more: %v", err)
	}
}
