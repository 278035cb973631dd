package main

import (
	"github.com/spf13/cobra"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/cmd/freshet/page"
)

func signsCommand(a *app) *cobra.Command {
	return question{
		use: "signs", short: "What do the readings show that nobody noted?", args: noArguments, examples: []string{"freshet signs", "freshet signs --why"},
		work: func(q *asking, _ []string) (proto.Message, func(*page.Page), error) {
			system, err := q.system()
			if err != nil {
				return nil, nil, err
			}
			m, err := analysis(q, freshetv1.AnalysisServiceClient.FindSigns, &freshetv1.FindSignsRequest{SystemId: system})
			return m, func(p *page.Page) { q.signs(p, m) }, err
		},
	}.command(a)
}

// signs writes each sign with what to do and what happened about then.
func (a *asking) signs(p *page.Page, m *freshetv1.FindSignsResponse) {
	p.Say(m.GetSentence())
	const few = 2
	for _, s := range m.GetSigns() {
		p.Gap()
		p.Item(mark(s.GetAnswer().GetStanding()), s.GetAnswer().GetSentence())
		for _, todo := range s.GetAnswer().GetCautions() {
			p.Item(" ", todo)
		}
		for i, h := range s.GetHappenings() {
			if i < few || a.why {
				p.Item(" ", "Before it, "+h.GetOccurredAt().AsTime().In(a.desk.Now.Location()).Format("Mon 2 Jan 15:04")+": "+page.Clean(h.GetSentence())+".")
			}
		}
		if a.why {
			p.Item(" ", "Found by "+s.GetAnswer().GetSource()+".")
		}
	}
	if len(m.GetUnwatched()) > 0 {
		p.Title("What cannot be noticed here")
	}
	for _, u := range m.GetUnwatched() {
		p.Item("-", u+".")
	}
}
