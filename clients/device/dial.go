package device

import (
	"context"
	"crypto/ed25519"
	"errors"
	"fmt"
	"net"
	"time"

	"google.golang.org/grpc"
	"google.golang.org/grpc/backoff"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/grpc/keepalive"

	freshetv1 "freshet.example/api/freshet/v1"
)

// ErrNotJoined says that the device belongs to no cooperative yet.
var ErrNotJoined = errors.New("this device has not joined a cooperative")

// ErrAddress says that a server's address cannot be used.
var ErrAddress = errors.New("an address is written HOST:PORT")

// bearer sends with each call the token that the device has then.
type bearer struct {
	device *Device
	plain  bool
}

// GetRequestMetadata gives the authorization header.
func (b bearer) GetRequestMetadata(context.Context, ...string) (map[string]string, error) {
	token, err := b.device.token()
	return map[string]string{"authorization": "Bearer " + token}, err
}

// RequireTransportSecurity refuses to send a token in plain text beyond this machine.
func (b bearer) RequireTransportSecurity() bool { return !b.plain }

// dial opens a connection: plain text only within this machine, and where the
// invitation names no key or authority; TLS else.
// A connection that bears the device's token renews it, too.
func (d *Device) dial(address string, whom trusted, bears bool) (*grpc.ClientConn, error) {
	host, _, err := net.SplitHostPort(address)
	if err != nil {
		return nil, fmt.Errorf("%q: %w", address, ErrAddress)
	}
	plain := loopback(host) && whom == (trusted{})
	transport := insecure.NewCredentials()
	if !plain {
		if transport, err = secure(whom); err != nil {
			return nil, err
		}
	}
	retry := backoff.Config{BaseDelay: 200 * time.Millisecond, Multiplier: 1.6, Jitter: 0.3, MaxDelay: 5 * time.Second}
	options := []grpc.DialOption{
		grpc.WithTransportCredentials(transport),
		grpc.WithConnectParams(grpc.ConnectParams{Backoff: retry, MinConnectTimeout: 3 * time.Second}),
		grpc.WithKeepaliveParams(keepalive.ClientParameters{Time: 30 * time.Second, Timeout: 10 * time.Second}),
		grpc.WithDefaultCallOptions(grpc.MaxCallRecvMsgSize(16 << 20)),
	}
	if bears {
		options = append(options, grpc.WithPerRPCCredentials(bearer{d, plain}), grpc.WithChainUnaryInterceptor(d.renewing))
	}
	return grpc.NewClient(address, append(options, d.dialling...)...)
}

func loopback(host string) bool {
	ip := net.ParseIP(host)
	return host == "localhost" || ip != nil && ip.IsLoopback()
}

// Connection is the device's connection to its cooperative, opened when it is
// first asked for. ErrNotJoined before joining.
func (d *Device) Connection(ctx context.Context) (*grpc.ClientConn, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.connection != nil {
		return d.connection, nil
	}
	token, err := d.token()
	if err != nil {
		return nil, err
	}
	address, err := fact(ctx, d.db, factAddress)
	if err != nil {
		return nil, err
	}
	if token == "" || address == "" {
		return nil, ErrNotJoined
	}
	whom, err := d.trusts(ctx)
	if err != nil {
		return nil, err
	}
	d.connection, err = d.dial(address, whom, true)
	return d.connection, err
}

// dialNow lets a connection that was lost be tried at once: whoever calls has
// waited already, and gRPC's own pause may outlast all tries after a server is back.
func (d *Device) dialNow() {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.connection != nil {
		d.connection.ResetConnectBackoff()
	}
}

// Ask makes one call with the device's token and gives its error as Trouble:
//
//	answer, err := device.Ask(ctx, dev, freshetv1.NewAnalysisServiceClient,
//		freshetv1.AnalysisServiceClient.DescribeWater, request)
func Ask[Service, Request, Response any](
	ctx context.Context, d *Device, service func(grpc.ClientConnInterface) Service,
	call func(Service, context.Context, Request, ...grpc.CallOption) (Response, error), request Request,
) (Response, error) {
	var none Response
	connection, err := d.Connection(ctx)
	if err != nil {
		return none, err
	}
	response, err := call(service(connection), ctx, request)
	if err != nil {
		return none, understand(err)
	}
	return response, nil
}

// Invitation is what a person was given to join with.
type Invitation struct {
	Code      string // letter case, spaces and hyphens do not matter
	Address   string // HOST:PORT; plain text only where the host is this machine and Authority and Pin are empty
	Authority string // PEM of the authority that signed the server's certificate; empty: the system's
	Pin       string // SHA-256 of the public key of the server's certificate, base64url: exactly that one is trusted; empty: by authority
	Device    string // what its owner calls this device
	Person    string // name of a new member
}

// ErrOtherCooperative says that a device belongs to another cooperative.
var ErrOtherCooperative = errors.New("this device belongs to another cooperative; use another folder for this one")

// Join turns an invitation into a token; it and the key that the device makes
// for it are kept in files of its folder that only its owner can read. What was noted before joining
// is kept, and sent at the next Sync. A call's failure is a Trouble.
func (d *Device) Join(ctx context.Context, in Invitation) error {
	connection, err := d.dial(in.Address, trusted{in.Authority, in.Pin}, false)
	if err != nil {
		return err
	}
	key := newKey() // a device that was let go and comes back is another to the co-op
	response, err := freshetv1.NewAccountServiceClient(connection).Join(ctx, &freshetv1.JoinRequest{
		Code: in.Code, DeviceName: in.Device, DisplayName: in.Person, PublicKey: publicKey(key),
	})
	if err := errors.Join(understand(err), connection.Close()); err != nil {
		return err
	}
	return d.belong(ctx, in, key, response)
}

// belong keeps what joining gave.
func (d *Device) belong(ctx context.Context, in Invitation, key ed25519.PrivateKey, joined *freshetv1.JoinResponse) error {
	before, err := fact(ctx, d.db, factCooperative)
	if err != nil {
		return err
	}
	if before != "" && before != joined.GetCooperativeId() {
		return ErrOtherCooperative
	}
	if err := errors.Join(d.keepKey(key), d.keepToken(joined.GetToken())); err != nil {
		return err
	}
	keyed := ""
	if joined.GetTokenEndsMs() > 0 { // a server of before takes no keys
		keyed = "1"
	}
	for name, value := range map[string]string{
		factAddress: in.Address, factAuthority: in.Authority, factPin: in.Pin, factCooperative: joined.GetCooperativeId(),
		factMember: joined.GetMemberId(), factDeviceID: joined.GetDeviceId(), factKeyed: keyed, factFormerToken: "",
	} {
		if err := keep(ctx, d.db, name, value); err != nil {
			return err
		}
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.connection == nil {
		return nil
	}
	err = d.connection.Close()
	d.connection = nil
	return err
}
