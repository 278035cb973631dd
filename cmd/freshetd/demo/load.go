package demo

import (
	"context"
	"fmt"
	"time"

	"golang.org/x/sync/errgroup"
	"google.golang.org/grpc"
	"google.golang.org/grpc/metadata"

	freshetv1 "freshet.example/api/freshet/v1"
)

// Loaded says what was pushed.
type Loaded struct {
	Events  int
	Took    time.Duration // of living the months, joining and pushing
	Steward Member
	Sites   map[string]string // name to id
	Growers map[string]Member // by the name of their site
}

// Member is a joined device of an invented grower.
type Member struct {
	Name  string
	token string
}

// Context carries the member's token.
func (m Member) Context(ctx context.Context) context.Context {
	return metadata.AppendToOutgoingContext(ctx, "authorization", "Bearer "+m.token)
}

// Load joins the invented growers by invitation, the first as steward by the
// server's own, and pushes their records as of today.
func Load(ctx context.Context, conn grpc.ClientConnInterface, invitation string, today time.Time) (*Loaded, error) {
	c := &cooperative{accounts: freshetv1.NewAccountServiceClient(conn), sync: freshetv1.NewSyncServiceClient(conn)}
	loaded := &Loaded{Sites: map[string]string{}, Growers: map[string]Member{}}
	var pushes errgroup.Group
	began := time.Now()
	for i, g := range cast() {
		phone, gateway, site, err := g.live(today)
		if err != nil {
			return nil, err
		}
		members, err := c.join(ctx, g, invitation, i == 0)
		if err != nil {
			return nil, fmt.Errorf("%s joins: %w", g.name, err)
		}
		loaded.Sites[g.site.Name], loaded.Growers[g.site.Name] = site, members[0]
		if i == 0 {
			c.steward, loaded.Steward = members[0], members[0]
		}
		loaded.Events += count(phone) + count(gateway)
		pushes.Go(func() error {
			if err := c.push(ctx, members[0], phone); err != nil {
				return fmt.Errorf("%s's phone: %w", g.name, err)
			}
			if err := c.push(ctx, members[1], gateway); err != nil {
				return fmt.Errorf("%s's gateway: %w", g.name, err)
			}
			return c.share(ctx, members[0], site, g.sharing)
		})
	}
	pushes.Go(func() error { return c.call(ctx, "Six Runnels Growers", today) })
	err := pushes.Wait()
	loaded.Took = time.Since(began)
	return loaded, err
}

// Invite makes an invitation for one more device of the steward.
func (l *Loaded) Invite(ctx context.Context, conn grpc.ClientConnInterface) (string, error) {
	made, err := freshetv1.NewAccountServiceClient(conn).CreateInvitation(l.Steward.Context(ctx), &freshetv1.CreateInvitationRequest{})
	return made.GetCode(), err
}

// cooperative is the server as the growers' devices reach it.
type cooperative struct {
	accounts freshetv1.AccountServiceClient
	sync     freshetv1.SyncServiceClient
	steward  Member
}

// call gives the cooperative its name, as its steward does, from a device of
// their own, and lets so few as its six show which sites are like each other.
func (c *cooperative) call(ctx context.Context, name string, today time.Time) error {
	who, err := c.accounts.WhoAmI(c.steward.Context(ctx), &freshetv1.WhoAmIRequest{})
	if err != nil {
		return err
	}
	box, named := newOutbox(installOf(0, 3)), &freshetv1.Cooperative{Name: name, SmallestGroup: 3}
	edit := &freshetv1.Edit{Record: &freshetv1.Edit_Cooperative{Cooperative: named}}
	box.set(today.AddDate(0, 0, -recordDays), edit, named)
	edit.RecordId = who.GetCooperativeId() // it was there before anybody's record
	return c.push(ctx, c.steward, box.close())
}

// join makes a grower's phone and probe gateway.
func (c *cooperative) join(ctx context.Context, g grower, invitation string, first bool) ([2]Member, error) {
	if !first {
		made, err := c.accounts.CreateInvitation(c.steward.Context(ctx), &freshetv1.CreateInvitationRequest{Role: g.role})
		if err != nil {
			return [2]Member{}, err
		}
		invitation = made.Code
	}
	phone, err := c.device(ctx, invitation, g.name, "phone")
	if err != nil {
		return [2]Member{}, err
	}
	more, err := c.accounts.CreateInvitation(phone.Context(ctx), &freshetv1.CreateInvitationRequest{})
	if err != nil {
		return [2]Member{}, err
	}
	gateway, err := c.device(ctx, more.Code, g.name, "probes")
	return [2]Member{phone, gateway}, err
}

func (c *cooperative) device(ctx context.Context, code, name, device string) (Member, error) {
	joined, err := c.accounts.Join(ctx, &freshetv1.JoinRequest{Code: code, DisplayName: name, DeviceName: device})
	return Member{Name: name, token: joined.GetToken()}, err
}

// push sends an outbox in order and takes nothing but stored for an answer.
func (c *cooperative) push(ctx context.Context, as Member, outbox []*freshetv1.PushRequest) error {
	for _, request := range outbox {
		answer, err := c.sync.Push(as.Context(ctx), request)
		if err != nil {
			return err
		}
		if len(answer.Outcomes) > 0 {
			return fmt.Errorf("%d operations were not stored, the first: %v", len(answer.Outcomes), answer.Outcomes[0])
		}
	}
	return nil
}

func (c *cooperative) share(ctx context.Context, as Member, site string, sharing freshetv1.Sharing) error {
	_, err := c.accounts.SetSharing(as.Context(ctx), &freshetv1.SetSharingRequest{SiteId: site, Kind: "all", Sharing: sharing})
	return err
}

func count(outbox []*freshetv1.PushRequest) int {
	n := 0
	for _, p := range outbox {
		n += len(p.Operations)
		for _, r := range p.Readings {
			n += int(r.Count)
		}
	}
	return n
}
