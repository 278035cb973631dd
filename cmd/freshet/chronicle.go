package main

import (
	"strings"
	"time"

	"github.com/spf13/cobra"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/cmd/freshet/page"
)

func chronicleCommand(a *app) *cobra.Command {
	var atMost uint32
	return question{
		use: "chronicle", short: "Tell who did what to sharing, roles and devices",
		args: noArguments, examples: []string{"freshet chronicle", "freshet chronicle --last 200 --json"},
		flags: func(c *cobra.Command) {
			c.Flags().Uint32Var(&atMost, "last", 20, "how many of the newest entries, at most 200")
		},
		work: func(q *asking, _ []string) (proto.Message, func(*page.Page), error) {
			members, err := account(q, freshetv1.AccountServiceClient.ListMembers, &freshetv1.ListMembersRequest{})
			if err != nil {
				return nil, nil, err
			}
			m, err := account(q, freshetv1.AccountServiceClient.ListChronicle, &freshetv1.ListChronicleRequest{AtMost: atMost})
			return m, func(p *page.Page) { newChronicler(q, members.GetMembers()).tell(p, m.GetEntries()) }, err
		},
	}.command(a)
}

// A chronicler puts the chronicle into words.
type chronicler struct {
	*asking
	names map[string]string // of members, by id
}

func newChronicler(a *asking, members []*freshetv1.MemberSummary) chronicler {
	c := chronicler{a, map[string]string{"": "Whoever keeps the server"}}
	for _, m := range members {
		c.names[m.GetMemberId()] = page.Clean(m.GetDisplayName())
	}
	return c
}

func (c chronicler) tell(p *page.Page, entries []*freshetv1.ChronicleEntry) {
	if len(entries) == 0 {
		p.Say("Nothing yet.")
		return
	}
	list := make([][2]string, len(entries))
	for i, e := range entries {
		list[i] = [2]string{device.Moment(time.UnixMilli(e.GetAtMs()), c.desk.Now), sentence(c.said(e))}
	}
	p.Pairs(list)
}

func (c chronicler) said(e *freshetv1.ChronicleEntry) string {
	who, whom, role := c.name(e.GetActorId()), c.name(e.GetMemberId()), "a "+roleWord(e.GetRole())
	own := e.GetActorId() == e.GetMemberId()
	switch e.GetKind() {
	case freshetv1.ChronicleKind_CHRONICLE_KIND_JOINED:
		return whom + " joined as " + role + c.at(e) + "."
	case freshetv1.ChronicleKind_CHRONICLE_KIND_INVITED:
		if e.GetAbout() == "recovery" {
			return who + " made a recovery code."
		}
		if e.GetMemberId() != "" {
			return who + " made a code for one more device."
		}
		return who + " invited " + role + c.at(e) + "."
	case freshetv1.ChronicleKind_CHRONICLE_KIND_ROLE_SET:
		return who + " made " + whom + " " + role + c.at(e) + "."
	case freshetv1.ChronicleKind_CHRONICLE_KIND_DEVICE_ADDED:
		return whom + " added a device."
	case freshetv1.ChronicleKind_CHRONICLE_KIND_DEVICE_ENDED:
		if own {
			return who + " shut a device out."
		}
		return who + " shut a device of " + whom + " out."
	case freshetv1.ChronicleKind_CHRONICLE_KIND_SHARING_SET:
		what := strings.ReplaceAll(e.GetAbout(), "_", " ")
		if what == "all" {
			what = "everything"
		}
		return who + " set " + what + c.at(e) + " to " + sharedHow[e.GetSharing()] + "."
	case freshetv1.ChronicleKind_CHRONICLE_KIND_HELD:
		return "Entries of " + whom + c.at(e) + " are held for review: " + strings.ToLower(strings.ReplaceAll(e.GetAbout(), "_", " ")) + "."
	case freshetv1.ChronicleKind_CHRONICLE_KIND_LEFT:
		return "A member left, and what was theirs was erased."
	}
	return "Something that this freshet is too old to know."
}

func (c chronicler) name(id string) string {
	if name := c.names[id]; name != "" {
		return name
	}
	return "a member who left"
}

// at names the sites that an entry is about.
func (c chronicler) at(e *freshetv1.ChronicleEntry) string {
	if len(e.GetSiteIds()) == 0 {
		return ""
	}
	names := make([]string, len(e.GetSiteIds()))
	for i, id := range e.GetSiteIds() {
		names[i] = page.Clean(c.desk.Book.Name(id))
	}
	return " at " + strings.Join(names, ", ")
}
