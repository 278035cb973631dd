package device_test

import (
	"context"
	"slices"
	"strings"
	"sync/atomic"
	"time"

	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/server/servertest"
)

// A network is one device's way to the server, with its faults by the names of
// calls.
type network struct{ cut, lose, double, breaking atomic.Value }

func (n *network) set(s step) {
	n.cut.Store(s.Cut)
	n.lose.Store(s.Lose)
	n.double.Store(s.Double)
	n.breaking.Store(s.Break)
}

var errLine = status.Error(codes.Unavailable, "the line broke")

func has(v *atomic.Value, method string) bool {
	calls, _ := v.Load().([]string)
	return slices.Contains(calls, method[strings.LastIndex(method, "/")+1:])
}

func (n *network) dialling() []grpc.DialOption {
	return []grpc.DialOption{grpc.WithUnaryInterceptor(n.unary), grpc.WithStreamInterceptor(n.stream)}
}

func (n *network) unary(ctx context.Context, method string, in, out any, c *grpc.ClientConn, call grpc.UnaryInvoker, options ...grpc.CallOption) error {
	if has(&n.cut, method) {
		return errLine
	}
	if has(&n.double, method) {
		if err := call(ctx, method, in, out, c, options...); err != nil {
			return err
		}
	}
	err := call(ctx, method, in, out, c, options...)
	if err == nil && has(&n.lose, method) {
		return errLine
	}
	return err
}

func (n *network) stream(ctx context.Context, d *grpc.StreamDesc, c *grpc.ClientConn, method string, open grpc.Streamer, options ...grpc.CallOption) (grpc.ClientStream, error) {
	if has(&n.cut, method) {
		return nil, errLine
	}
	stream, err := open(ctx, d, c, method, options...)
	if after, _ := n.breaking.Load().(int); after > 0 && err == nil {
		return &breakingStream{stream, after}, nil
	}
	return stream, err
}

// A breakingStream breaks after so many messages.
type breakingStream struct {
	grpc.ClientStream
	left int
}

func (b *breakingStream) RecvMsg(m any) error {
	if b.left == 0 {
		return errLine
	}
	b.left--
	return b.ClientStream.RecvMsg(m)
}

// A partyClock is a device's clocks: right, but for how far the wall clock is off.
type partyClock struct {
	host     *servertest.Host
	off      time.Duration
	booted   time.Time
	boot     uint32
	wallOnly bool
}

func (c *partyClock) set(s step) (err error) {
	if s.Off != "" {
		c.off, err = servertest.Span(s.Off)
	}
	if s.Reboot {
		c.boot++
		c.booted = c.host.Now().Add(-time.Minute)
	}
	c.wallOnly = c.wallOnly || s.WallOnly
	return err
}

func (c *partyClock) read() *freshetv1.Noted {
	now := c.host.Now()
	noted := &freshetv1.Noted{WallMs: now.Add(c.off).UnixMilli()}
	if !c.wallOnly {
		noted.MonotonicMs, noted.BootId = now.Sub(c.booted).Milliseconds(), c.boot+1
	}
	return noted
}

// join brings a device in: the first by the cooperative's first invitation,
// others by an invitation that a device before them makes.
func (p *player) join(s step) {
	p.t.Helper()
	d := p.of(s.Join)
	d.install = s.Install
	code := p.code
	if s.By != "" {
		in := &freshetv1.CreateInvitationRequest{Role: p.roleNamed(s)}
		if s.Is == "helper" || s.Is == "sensor" {
			in.SiteIds = []string{p.ids["site"]}
		}
		made, err := device.Ask(p.ctx, p.of(s.By).opened(), freshetv1.NewAccountServiceClient, freshetv1.AccountServiceClient.CreateInvitation, in)
		p.must(s, err)
		code = made.GetCode()
	}
	address, _ := p.host.Addresses()
	p.must(s, d.opened().Join(p.ctx, device.Invitation{Code: code, Address: address, Device: s.Join, Person: s.Join}))
}

// roleNamed is the role of s.Is: "helper"; none where nothing is said.
func (p *player) roleNamed(s step) freshetv1.Role {
	p.t.Helper()
	if s.Is == "" {
		return freshetv1.Role_ROLE_UNSPECIFIED
	}
	role, known := freshetv1.Role_value["ROLE_"+strings.ToUpper(s.Is)]
	if !known {
		p.t.Fatalf("no role is called %q", s.Is)
	}
	return freshetv1.Role(role)
}

// role changes what a member may do; helpers are at the ground's site.
func (p *player) role(s step) {
	p.t.Helper()
	member, _, err := p.of(s.Role).opened().Belongs(p.ctx)
	p.must(s, err)
	in := &freshetv1.SetRoleRequest{MemberId: member, Role: p.roleNamed(s)}
	if s.Is == "helper" || s.Is == "sensor" {
		in.SiteIds = []string{p.ids["site"]}
	}
	_, err = device.Ask(p.ctx, p.of(s.By).opened(), freshetv1.NewAccountServiceClient, freshetv1.AccountServiceClient.SetRole, in)
	p.must(s, err)
}

// revoke ends a device's token.
func (p *player) revoke(s step) {
	p.t.Helper()
	ended := p.of(s.Revoke)
	member, _, err := ended.opened().Belongs(p.ctx)
	p.must(s, err)
	devices, err := device.Ask(p.ctx, p.of(s.By).opened(), freshetv1.NewAccountServiceClient, freshetv1.AccountServiceClient.ListDevices,
		&freshetv1.ListDevicesRequest{AllMembers: true})
	p.must(s, err)
	for _, one := range devices.GetDevices() {
		if one.GetMemberId() == member && one.GetName() == s.Revoke {
			_, err := device.Ask(p.ctx, p.of(s.By).opened(), freshetv1.NewAccountServiceClient, freshetv1.AccountServiceClient.RevokeDevice,
				&freshetv1.RevokeDeviceRequest{DeviceId: one.GetDeviceId()})
			p.must(s, err)
		}
	}
}
