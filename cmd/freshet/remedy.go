package main

import (
	"strings"

	"github.com/spf13/cobra"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/cmd/freshet/page"
	"freshet.example/husbandry/remedy"
)

// remedyCommand asks about one substance in this loop. Without a name it lists
// the register, which needs no loop and no co-op.
func remedyCommand(a *app) *cobra.Command {
	var grams, share float64
	c := question{
		use: "remedy [NAME]", short: "May I put this on my plants?", examples: []string{"freshet remedy", "freshet remedy neem oil --grams 5"},
		flags: func(c *cobra.Command) {
			c.Flags().Float64Var(&grams, "grams", 10, "how much of the active substance is put on, g")
			c.Flags().Float64Var(&share, "reaching", 1, "share that reaches the water, 0 to 1")
		},
		work: func(q *asking, args []string) (proto.Message, func(*page.Page), error) {
			system, err := q.system()
			if err != nil {
				return nil, nil, err
			}
			m, err := analysis(q, freshetv1.AnalysisServiceClient.JudgeRemedy, &freshetv1.JudgeRemedyRequest{
				SystemId: system, RegisterName: joined(args), MassG: grams, ReachingShare: proto.Float64(share),
			})
			if _, unknown := remedy.Find(joined(args)); err != nil && unknown != nil {
				return nil, nil, wrong(unknown.Error(), "ask by a whole name of the register: freshet remedy lists them")
			}
			return m, func(p *page.Page) { q.answer(p, m.GetAnswer()) }, err
		},
	}.command(a)
	judge := c.RunE
	c.RunE = func(c *cobra.Command, args []string) error {
		if len(args) == 0 {
			return a.register()
		}
		return judge(c, args)
	}
	return c
}

// register lists what is known by name, what must stay out of the loop first.
func (a *app) register() error {
	if a.json {
		return printJSON(a.out, registered())
	}
	p := a.page()
	p.Say("What growers put on plants and into water, and what is known of it where fish drink the water. None is safe by standing here: ask by name, with the grams.")
	for _, part := range []struct {
		title string
		out   bool
	}{{"Keep out of the loop", true}, {"Ask first", false}} {
		p.Title(part.title)
		for _, s := range remedy.Substances() {
			if s.KeepOut == part.out {
				p.Item("-", nameOf(&s)+": "+s.Use)
			}
		}
	}
	return p.Err()
}

// registered is the register by the names that the contract would give it.
func registered() []map[string]any {
	var out []map[string]any
	for _, s := range remedy.Substances() {
		out = append(out, map[string]any{
			"register_name": s.Name, "also": s.Also, "use": s.Use, "counted": s.Counted, "keep_out": s.KeepOut,
			"fish": s.Fish, "filter": s.Filter, "plants": s.Plants, "waiting": s.Waiting,
		})
	}
	return out
}

func nameOf(s *remedy.Substance) string {
	if len(s.Also) == 0 {
		return s.Name
	}
	return s.Name + " (" + strings.Join(s.Also, ", ") + ")"
}
