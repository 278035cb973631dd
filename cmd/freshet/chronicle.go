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
		use: "chronicle", short: "Tell who did what to sharing, roles and devices, as far as it concerns you",
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
			return m, func(p *page.Page) { newTeller(q, members.GetMembers()).tell(p, m.GetEntries()) }, err
		},
	}.command(a)
}

// A teller puts the chronicle into words.
type teller struct {
	*asking
	names map[string]string // of members, by id
}

func newTeller(a *asking, members []*freshetv1.MemberSummary) teller {
	t := teller{a, map[string]string{"": "Whoever keeps the server"}}
	for _, m := range members {
		t.names[m.GetMemberId()] = page.Clean(m.GetDisplayName())
	}
	return t
}

func (t teller) tell(p *page.Page, entries []*freshetv1.ChronicleEntry) {
	if len(entries) == 0 {
		p.Say("Nothing yet.")
		return
	}
	list := make([][2]string, len(entries))
	for i, e := range entries {
		list[i] = [2]string{device.Moment(time.UnixMilli(e.GetAtMs()), t.desk.Now), t.sentence(e)}
	}
	p.Pairs(list)
}

func (t teller) sentence(e *freshetv1.ChronicleEntry) string {
	who, whom, role := t.name(e.GetActorId()), t.name(e.GetMemberId()), "a "+roleWord(e.GetRole())
	own := e.GetActorId() == e.GetMemberId()
	switch e.GetKind() {
	case freshetv1.ChronicleKind_CHRONICLE_KIND_JOINED:
		return whom + " joined as " + role + t.at(e) + "."
	case freshetv1.ChronicleKind_CHRONICLE_KIND_INVITED:
		if e.GetMemberId() != "" {
			return who + " made a code for one more device."
		}
		return who + " invited " + role + t.at(e) + "."
	case freshetv1.ChronicleKind_CHRONICLE_KIND_ROLE_SET:
		return who + " made " + whom + " " + role + t.at(e) + "."
	case freshetv1.ChronicleKind_CHRONICLE_KIND_DEVICE_ADDED:
		return whom + " added a device."
	case freshetv1.ChronicleKind_CHRONICLE_KIND_DEVICE_ENDED:
		if own {
			return who + " ended the token of a device."
		}
		return who + " ended the token of a device of " + whom + "."
	case freshetv1.ChronicleKind_CHRONICLE_KIND_SHARING_SET:
		what := strings.ReplaceAll(e.GetAbout(), "_", " ")
		if what == "all" {
			what = "everything"
		}
		return who + " set " + what + t.at(e) + " to " + sharedHow[e.GetSharing()] + "."
	case freshetv1.ChronicleKind_CHRONICLE_KIND_HELD:
		return "Entries of " + whom + t.at(e) + " are held for review: " + strings.ToLower(strings.ReplaceAll(e.GetAbout(), "_", " ")) + "."
	}
	return "Something that this freshet is too old to know."
}

func (t teller) name(id string) string {
	if name := t.names[id]; name != "" {
		return name
	}
	return "a member of long ago"
}

// at names the sites that an entry is about.
func (t teller) at(e *freshetv1.ChronicleEntry) string {
	if len(e.GetSiteIds()) == 0 {
		return ""
	}
	names := make([]string, len(e.GetSiteIds()))
	for i, id := range e.GetSiteIds() {
		names[i] = page.Clean(t.desk.Book.Name(id))
	}
	return " at " + strings.Join(names, ", ")
}
