package demo

import (
	"context"
	"errors"
	"io"
	"slices"
	"strings"
	"time"

	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/encoding/protodelim"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
)

// Keep writes what the steward's phone pulls of its own site and of the
// cooperative: a HelloResponse whose server_ms is the moment it is made for,
// and the steps of a Pull, each behind its length. The app shows it to who
// looks around without a server.
func (l *Loaded) Keep(ctx context.Context, conn grpc.ClientConnInterface, moment time.Time, out io.Writer) error {
	ctx = l.Steward.Context(ctx)
	calls := freshetv1.NewSyncServiceClient(conn)
	install := wire.NewInstall()
	hello, err := calls.Hello(ctx, &freshetv1.HelloRequest{Install: install[:], Schema: 1})
	if err != nil {
		return err
	}
	hello.ServerMs = moment.UnixMilli()
	own := ownScopes(hello.GetScopes())
	hello.Scopes = slices.DeleteFunc(hello.Scopes, func(c *freshetv1.Cursor) bool { return !slices.Contains(own, c.GetScope()) })
	if _, err := protodelim.MarshalTo(out, hello); err != nil {
		return err
	}
	steps, err := calls.Pull(ctx, &freshetv1.PullRequest{Scopes: own})
	for err == nil {
		var step *freshetv1.PullResponse
		if step, err = steps.Recv(); err == nil {
			_, err = protodelim.MarshalTo(out, step)
		}
	}
	if errors.Is(err, io.EOF) {
		return nil
	}
	return err
}

// ownScopes are all but those of other growers' sites, which are open but have
// no house.
func ownScopes(scopes []*freshetv1.Cursor) []string {
	var own []string
	for _, c := range scopes {
		site, isSite := strings.CutPrefix(c.GetScope(), "site:")
		house := func(o *freshetv1.Cursor) bool { return o.GetScope() == "house:"+site }
		if !isSite || slices.ContainsFunc(scopes, house) {
			own = append(own, c.GetScope())
		}
	}
	return own
}

// KeepTogether writes how the sites compare on each measure, for the steward's
// own: a CompareSitesResponse for each in the order of PoolMeasure, behind its
// length, and an empty one where it cannot be told.
func (l *Loaded) KeepTogether(ctx context.Context, conn grpc.ClientConnInterface, out io.Writer) error {
	calls := freshetv1.NewPoolServiceClient(conn)
	for measure := range len(freshetv1.PoolMeasure_name) - 1 {
		answer, err := calls.CompareSites(l.Steward.Context(ctx), &freshetv1.CompareSitesRequest{Measure: freshetv1.PoolMeasure(measure + 1), SiteId: l.Sites[cast()[0].site.Name]}) //nolint:gosec // few
		switch status.Code(err) {
		case codes.OK, codes.FailedPrecondition, codes.NotFound, codes.InvalidArgument:
		default:
			return err
		}
		if _, err := protodelim.MarshalTo(out, answer); err != nil {
			return err
		}
	}
	return nil
}
