package main

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/cmd/freshet/page"
	"freshet.example/cmd/freshet/words"
)

func inviteCommand(a *app) *cobra.Command {
	var hours uint32
	var sites []string
	l := letter{}
	c := question{
		use: "invite [ROLE]", short: "Make a code that lets one person, or one more device of yours, in",
		args: arguments(0, 1, ""), examples: []string{"freshet invite", "freshet invite grower --picture invitation.png", "freshet invite helper --to \"Mill barn\" --hours 24"},
		flags: func(c *cobra.Command) {
			l.flags(c)
			c.Flags().Uint32Var(&hours, "hours", 0, "how long the code may be used (default 72; for one more device of yours a quarter of an hour)")
			c.Flags().StringArrayVar(&sites, "to", nil, "helper, reader, sensor: a site they are let into; may be repeated")
		},
		work: func(q *asking, args []string) (proto.Message, func(*page.Page), error) {
			request := &freshetv1.CreateInvitationRequest{ValidHours: hours}
			var err error
			if len(args) > 0 {
				if request.Role, err = role(args[0]); err != nil {
					return nil, nil, err
				}
			}
			if request.SiteIds, err = q.sites(sites); err != nil {
				return nil, nil, err
			}
			m, err := account(q, freshetv1.AccountServiceClient.CreateInvitation, request)
			return m, func(p *page.Page) { q.invitation(p, m, request.GetRole(), l) }, err
		},
	}
	return c.command(a)
}

func (a *asking) invitation(p *page.Page, m *freshetv1.CreateInvitationResponse, r freshetv1.Role, l letter) {
	who := "one more device of yours"
	if r != 0 {
		who = "one " + roleWord(r)
	}
	p.Under(m.GetCode())
	until := time.UnixMilli(m.GetExpiresMs()).In(a.desk.Now.Location()).Format("Monday 2 January 15:04")
	p.Say("Lets in " + who + ", once, until " + until + ". It is not shown again.")
	lead := "On a computer they type:"
	if r == 0 {
		lead = "On the other device type:"
	}
	a.join(p, m.GetCode(), m.GetLink(), lead)
	a.failed(p, a.draw(p, l, m.GetLink()))
}

func role(text string) (freshetv1.Role, error) {
	v, ok := freshetv1.Role_value["ROLE_"+strings.ToUpper(words.Snake(text))]
	if !ok || v == 0 {
		return 0, wrong("\""+text+"\" is no role", "one of "+strings.Join(words.EnumWords(freshetv1.Role(0).Descriptor()), ", "))
	}
	return freshetv1.Role(v), nil
}

func (a *asking) sites(names []string) ([]string, error) {
	var ids []string
	for _, name := range names {
		site, err := a.desk.Book.Find("", name, "site")
		if err != nil {
			return nil, err
		}
		ids = append(ids, site.ID)
	}
	return ids, nil
}

func shareCommand(a *app) *cobra.Command {
	return question{
		use: "share [KIND HOW-FAR]", short: "Say what a site shares, or change it",
		args: arguments(0, 2, ""), examples: []string{"freshet share", "freshet share reading named", "freshet share all figures", "freshet share labour private"},
		work: func(q *asking, args []string) (proto.Message, func(*page.Page), error) {
			site, err := q.site()
			if err != nil {
				return nil, nil, err
			}
			if len(args) < 2 {
				m, err := account(q, freshetv1.AccountServiceClient.ListSharing, &freshetv1.ListSharingRequest{SiteId: site})
				return m, func(p *page.Page) { q.sharing(p, m.GetRules()) }, err
			}
			far, ok := freshetv1.Sharing_value["SHARING_"+strings.ToUpper(words.Snake(args[1]))]
			if !ok || far == 0 {
				return nil, nil, wrong("\""+args[1]+"\" says not how far", "one of "+strings.Join(words.EnumWords(freshetv1.Sharing(0).Descriptor()), ", "))
			}
			m, err := account(q, freshetv1.AccountServiceClient.SetSharing, &freshetv1.SetSharingRequest{
				SiteId: site, Kind: words.Snake(args[0]), Sharing: freshetv1.Sharing(far),
			})
			return m, func(p *page.Page) {
				q.sharing(p, []*freshetv1.SharingRule{m.GetRule()})
				p.Say("Other devices follow at their next contact; one that never makes contact keeps what it has.")
			}, err
		},
	}.command(a)
}

// sharedHow says in words how far each step goes.
var sharedHow = map[freshetv1.Sharing]string{
	freshetv1.Sharing_SHARING_PRIVATE: "private: nobody else",
	freshetv1.Sharing_SHARING_FIGURES: "figures: counted in comparisons, never named",
	freshetv1.Sharing_SHARING_NAMED:   "named: named in comparisons",
	freshetv1.Sharing_SHARING_OPEN:    "open: records open to members",
}

func (a *asking) sharing(p *page.Page, rules []*freshetv1.SharingRule) {
	if len(rules) == 0 {
		p.Say("Everything here is private.")
		return
	}
	list := make([][2]string, len(rules))
	for i, r := range rules {
		since := time.UnixMilli(r.GetSinceMs()).In(a.desk.Now.Location())
		list[i] = [2]string{strings.ReplaceAll(r.GetKind(), "_", " "), sharedHow[r.GetSharing()] + "; since " + since.Format("2 January 2006")}
	}
	p.Pairs(list)
	if slices.ContainsFunc(rules, func(r *freshetv1.SharingRule) bool { return r.GetKind() == "all" }) {
		p.Say("Labour, expenses, notes and photos are private as long as no line names them.")
	} else {
		p.Say("All other kinds are private.")
	}
}

func devicesCommand(a *app) *cobra.Command {
	everybody, revoke := false, ""
	return question{
		use: "devices", short: "List devices and when each was last heard; shut one out",
		args: noArguments, examples: []string{"freshet devices", "freshet devices --all", "freshet devices --end \"old phone\""},
		flags: func(c *cobra.Command) {
			c.Flags().BoolVar(&everybody, "all", false, "everybody's (stewards)")
			c.Flags().StringVar(&revoke, "end", "", "shut out the device of this name or id: lost, sold or given away")
		},
		work: func(q *asking, _ []string) (proto.Message, func(*page.Page), error) {
			m, err := account(q, freshetv1.AccountServiceClient.ListDevices, &freshetv1.ListDevicesRequest{AllMembers: everybody})
			if err != nil || revoke == "" {
				return m, func(p *page.Page) { q.devices(p, m.GetDevices()) }, err
			}
			d, err := deviceNamed(m.GetDevices(), revoke)
			if err != nil {
				return nil, nil, err
			}
			done, err := account(q, freshetv1.AccountServiceClient.RevokeDevice, &freshetv1.RevokeDeviceRequest{DeviceId: d.GetDeviceId()})
			return done, func(p *page.Page) {
				p.Say(page.Clean(d.GetName()) + " is shut out. What it still holds cannot be wiped from afar; what waits on it is not lost: it can be sent once the device has joined again.")
			}, err
		},
	}.command(a)
}

func deviceNamed(devices []*freshetv1.Device, text string) (*freshetv1.Device, error) {
	var fits []*freshetv1.Device
	for _, d := range devices {
		if !d.GetRevoked() && (strings.EqualFold(d.GetName(), text) || d.GetDeviceId() == text) {
			fits = append(fits, d)
		}
	}
	if len(fits) == 1 {
		return fits[0], nil
	}
	return nil, wrong(fmt.Sprintf("%d devices are called \"%s\"", len(fits), text), "freshet devices --json lists them with their ids")
}

func (a *asking) devices(p *page.Page, devices []*freshetv1.Device) {
	list := make([][2]string, len(devices))
	for i, d := range devices {
		heard := "never heard"
		if ms := d.GetLastContactMs(); ms > 0 {
			heard = "last heard " + device.Moment(time.UnixMilli(ms), a.desk.Now)
		}
		if d.GetRevoked() {
			heard += "; shut out"
		}
		list[i] = [2]string{page.Clean(d.GetName()), heard}
	}
	p.Pairs(list)
	p.Say("One more of yours: freshet invite. One that is lost: freshet devices --end NAME.")
}

func membersCommand(a *app) *cobra.Command {
	var sites []string
	return question{
		use: "members [NAME ROLE]", short: "List the members, or change what one may do",
		args: arguments(0, 2, ""), examples: []string{"freshet members", "freshet members \"Ben\" helper --to \"Mill barn\""},
		flags: func(c *cobra.Command) {
			c.Flags().StringArrayVar(&sites, "to", nil, "helper, reader, sensor: a site they are let into; may be repeated")
		},
		work: func(q *asking, args []string) (proto.Message, func(*page.Page), error) {
			m, err := account(q, freshetv1.AccountServiceClient.ListMembers, &freshetv1.ListMembersRequest{})
			if err != nil || len(args) < 2 {
				return m, func(p *page.Page) { members(p, m.GetMembers()) }, err
			}
			return q.setRole(m.GetMembers(), args[0], args[1], sites)
		},
	}.command(a)
}

func members(p *page.Page, list []*freshetv1.MemberSummary) {
	pairs := make([][2]string, len(list))
	for i, m := range list {
		pairs[i] = [2]string{page.Clean(m.GetDisplayName()), roleWord(m.GetRole())}
	}
	p.Pairs(pairs)
}

func (a *asking) setRole(list []*freshetv1.MemberSummary, name, as string, sites []string) (proto.Message, func(*page.Page), error) {
	r, err := role(as)
	if err != nil {
		return nil, nil, err
	}
	ids, err := a.sites(sites)
	if err != nil {
		return nil, nil, err
	}
	for _, m := range list {
		if !strings.EqualFold(m.GetDisplayName(), name) && m.GetMemberId() != name {
			continue
		}
		done, err := account(a, freshetv1.AccountServiceClient.SetRole, &freshetv1.SetRoleRequest{MemberId: m.GetMemberId(), Role: r, SiteIds: ids})
		return done, func(p *page.Page) { p.Say(page.Clean(m.GetDisplayName()) + " is now a " + roleWord(r) + ".") }, err
	}
	return nil, nil, wrong("no member is called \""+name+"\"", "freshet members lists them")
}
