package device_test

import (
	"context"
	"crypto/sha256"
	"net"
	"slices"
	"sync"
	"testing"
	"time"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/types/known/durationpb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
)

// coop is a cooperative in memory that keeps the contract, and can be told to
// lose answers, refuse operations and forget. It stores everything in one scope.
type coop struct {
	freshetv1.UnimplementedSyncServiceServer
	freshetv1.UnimplementedAccountServiceServer
	mu       sync.Mutex
	through  map[string]uint64
	left     map[string][]*freshetv1.Outcome
	pages    []*freshetv1.Page
	count    uint64
	address  string
	loseNext int             // so many answers to pushes are lost
	refuse   map[uint64]bool // numbers that are refused
	digestBy uint64          // what the digest is off by, once
	noDigest bool
	busy     []time.Duration // so many pushes are refused, each for so long
	slow     chan struct{}   // where there is one, the last page waits until it is closed
}

const scope = "site:all"

func newCoop(t *testing.T) *coop {
	t.Helper()
	c := &coop{through: map[string]uint64{}, left: map[string][]*freshetv1.Outcome{}, refuse: map[uint64]bool{}}
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	c.address = listener.Addr().String()
	s := grpc.NewServer()
	freshetv1.RegisterSyncServiceServer(s, c)
	freshetv1.RegisterAccountServiceServer(s, c)
	go func() { _ = s.Serve(listener) }()
	t.Cleanup(s.Stop)
	return c
}

func (c *coop) Join(context.Context, *freshetv1.JoinRequest) (*freshetv1.JoinResponse, error) {
	return &freshetv1.JoinResponse{Token: "t", MemberId: "m", DeviceId: "d", CooperativeId: "c"}, nil
}

func (c *coop) Hello(_ context.Context, in *freshetv1.HelloRequest) (*freshetv1.HelloResponse, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	return &freshetv1.HelloResponse{CooperativeId: "c", MemberId: "m", ServerMs: time.Now().UnixMilli(), Epoch: 1, ThroughNumber: c.through[string(in.GetInstall())]}, nil
}

func (c *coop) Push(_ context.Context, in *freshetv1.PushRequest) (*freshetv1.PushResponse, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if len(c.busy) > 0 {
		refused, err := status.New(codes.ResourceExhausted, "too many calls").WithDetails(&errdetails.RetryInfo{RetryDelay: durationpb.New(c.busy[0])})
		if err != nil {
			return nil, err
		}
		c.busy = c.busy[1:]
		return nil, refused.Err()
	}
	install := string(in.GetInstall())
	block := &freshetv1.Block{Install: in.GetInstall(), MemberId: "m", ReceivedMs: time.Now().UnixMilli(), Feedings: in.GetFeedings()}
	last := c.through[install]
	var count uint64
	for _, op := range in.GetOperations() {
		last = max(last, op.GetNumber())
		switch {
		case op.GetNumber() <= c.through[install]:
		case c.refuse[op.GetNumber()]:
			c.left[install] = append(c.left[install], &freshetv1.Outcome{Number: op.GetNumber(), Kind: freshetv1.OutcomeKind_OUTCOME_KIND_REFUSED, Reason: "OUT_OF_RANGE", Hint: "check it"})
		default:
			block.Operations = append(block.Operations, op)
			count++
		}
	}
	for _, r := range in.GetReadings() {
		last = max(last, r.GetFirstNumber()+uint64(r.GetCount())-1)
		if r.GetFirstNumber() > c.through[install] {
			block.Readings = append(block.Readings, r)
			count += uint64(r.GetCount())
		}
	}
	c.through[install] = last
	if count > 0 {
		c.store(block, count)
	}
	if c.loseNext > 0 {
		c.loseNext--
		return nil, status.Error(codes.Unavailable, "the line broke")
	}
	return &freshetv1.PushResponse{ThroughNumber: last, StoredCount: uint32(count), Outcomes: c.left[install]}, nil
}

func (c *coop) store(block *freshetv1.Block, count uint64) {
	raw, err := proto.Marshal(block)
	if err != nil {
		panic(err)
	}
	var chain []byte
	if n := len(c.pages); n > 0 {
		chain = c.pages[n-1].GetCursor().GetChain()
	}
	sum := sha256.Sum256(append(append([]byte{}, chain...), raw...))
	c.count += count
	c.pages = append(c.pages, &freshetv1.Page{Block: raw, Cursor: &freshetv1.Cursor{Scope: scope, Epoch: 1, Sequence: uint64(len(c.pages) + 1), Chain: sum[:16]}})
}

func (c *coop) Pull(in *freshetv1.PullRequest, out grpc.ServerStreamingServer[freshetv1.PullResponse]) error {
	c.mu.Lock()
	defer c.mu.Unlock()
	from := uint64(0)
	for _, at := range in.GetCursors() {
		from = at.GetSequence()
	}
	for i, p := range c.pages[from:] {
		if c.slow != nil && int(from)+i == len(c.pages)-1 {
			<-c.slow
		}
		if err := out.Send(&freshetv1.PullResponse{Step: &freshetv1.PullResponse_Page{Page: p}}); err != nil {
			return err
		}
	}
	digest := &freshetv1.ScopeDigest{OperationsCount: c.count + c.digestBy, Cursor: &freshetv1.Cursor{Scope: scope, Sequence: uint64(len(c.pages)), Epoch: 1}}
	c.digestBy = 0
	if c.noDigest {
		digest = nil
	}
	return out.Send(&freshetv1.PullResponse{Step: &freshetv1.PullResponse_CaughtUp{CaughtUp: &freshetv1.CaughtUp{Digests: slices.DeleteFunc([]*freshetv1.ScopeDigest{digest}, func(d *freshetv1.ScopeDigest) bool { return d == nil })}}})
}

func open(t *testing.T, dir string) *device.Device {
	t.Helper()
	d, err := device.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = d.Close() })
	return d
}

func joined(t *testing.T, c *coop) *device.Device {
	t.Helper()
	d := open(t, t.TempDir())
	if err := d.Join(t.Context(), device.Invitation{Code: "x", Address: c.address}); err != nil {
		t.Fatal(err)
	}
	return d
}

func syncNow(t *testing.T, d *device.Device) device.Progress {
	t.Helper()
	p, err := d.Sync(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return p
}
