package main

import (
	"context"
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"google.golang.org/grpc"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/cmd/freshet/page"
	"freshet.example/cmd/freshet/words"
	"freshet.example/husbandry/quantity"
)

// question is a command that asks the co-op and writes what it answers.
type question struct {
	use, short, long string
	examples         []string
	args             cobra.PositionalArgs
	flags            func(*cobra.Command)
	// work asks and gives what to print as JSON, and what writes it as a page.
	work func(*asking, []string) (proto.Message, func(*page.Page), error)
}

// asking is one question being put.
type asking struct {
	*app
	ctx  context.Context
	desk words.Desk
	loop string // --loop, as typed
	why  bool   // --why
}

func (q question) command(a *app) *cobra.Command {
	ask := &asking{app: a}
	c := &cobra.Command{Use: q.use, Short: q.short, Long: q.long, Example: example(q.examples...), Args: q.args}
	c.Flags().StringVar(&ask.loop, "loop", "", "the loop that is meant, where a site has several")
	c.Flags().BoolVar(&ask.why, "why", false, "with what the answer rests on")
	if q.flags != nil {
		q.flags(c)
	}
	c.RunE = func(c *cobra.Command, args []string) (err error) {
		ask.ctx = c.Context()
		if err = a.sendFirst(ask.ctx); err != nil {
			return err
		}
		if ask.desk, err = a.desk(ask.ctx); err != nil {
			return err
		}
		answer, write, err := q.work(ask, args)
		if err != nil {
			return err
		}
		if a.json {
			return printMessage(a.out, answer)
		}
		p := a.page()
		write(p)
		return p.Err()
	}
	return c
}

// sendFirst sends what waits before a question is put, so that the answer rests
// on it. A device that has not joined has nobody to send it to.
func (a *app) sendFirst(ctx context.Context) error {
	dev, err := a.device()
	if err != nil {
		return err
	}
	status, err := dev.Status(ctx)
	if err != nil || status.Waiting == 0 || !status.Joined {
		return err
	}
	_, err = dev.Sync(ctx)
	return err
}

// site is the site that is meant.
func (a *asking) site() (string, error) {
	if a.desk.SiteID != "" {
		return a.desk.SiteID, nil
	}
	var names []string
	for _, s := range a.desk.Book.Of("", "site") {
		names = append(names, a.desk.Book.Name(s.ID))
	}
	if len(names) == 0 {
		return "", wrong("this device knows no site yet", "freshet sync fetches what the co-op has; freshet set site NAME makes one")
	}
	return "", wrong("there are several sites", "say which with --site: "+strings.Join(names, ", "))
}

// system is the loop that is meant.
func (a *asking) system() (string, error) {
	site, err := a.site()
	if err != nil {
		return "", err
	}
	if a.loop != "" {
		found, err := a.desk.Book.Find(site, a.loop, "system")
		return found.ID, err
	}
	loops := a.desk.Book.Of(site, "system")
	if len(loops) == 1 {
		return loops[0].ID, nil
	}
	return "", wrong(fmt.Sprintf("the site has %d loops", len(loops)), "say which with --loop")
}

// analysis and pool put one call to the co-op.
func analysis[Request, Response any](a *asking, call func(freshetv1.AnalysisServiceClient, context.Context, Request, ...grpc.CallOption) (Response, error), request Request) (Response, error) {
	return device.Ask(a.ctx, a.dev, freshetv1.NewAnalysisServiceClient, call, request)
}

func pooled[Request, Response any](a *asking, call func(freshetv1.PoolServiceClient, context.Context, Request, ...grpc.CallOption) (Response, error), request Request) (Response, error) {
	return device.Ask(a.ctx, a.dev, freshetv1.NewPoolServiceClient, call, request)
}

// answer writes one answer: its sentence, what is missing, and with --why what
// it rests on. Cautions are always written.
func (a *asking) answer(p *page.Page, answers ...*freshetv1.Answer) {
	cautions := map[string]bool{}
	for _, x := range answers {
		p.Item(mark(x.GetStanding()), x.GetSentence())
		for _, m := range x.GetMissing() {
			p.Under("    Missing: " + m + ".")
		}
		if a.why {
			a.rests(p, x)
		}
		for _, c := range x.GetCautions() {
			cautions[c] = true
		}
	}
	a.cautions(p, answers, cautions)
}

// mark stands before a sentence; the sentence says the same in words.
func mark(s freshetv1.Standing) string {
	switch s {
	case freshetv1.Standing_STANDING_ACT:
		return "!"
	case freshetv1.Standing_STANDING_WATCH:
		return "~"
	case freshetv1.Standing_STANDING_UNKNOWN:
		return "?"
	}
	return "-"
}

// cautions are written once, in the order of the answers.
func (a *asking) cautions(p *page.Page, answers []*freshetv1.Answer, open map[string]bool) {
	if len(open) == 0 {
		return
	}
	p.Title("Beware")
	for _, x := range answers {
		for _, c := range x.GetCautions() {
			if open[c] {
				p.Under(c)
				open[c] = false
			}
		}
	}
}

// rests writes what an answer was computed from.
func (a *asking) rests(p *page.Page, x *freshetv1.Answer) {
	for _, in := range x.GetInputs() {
		text := fmt.Sprintf("    %s %s, %s", in.GetName(), figure(in.GetEstimate()), in.GetFrom())
		if in.GetObservedAt() != nil {
			text += ", " + a.moment(in.GetObservedAt())
		}
		p.Under(text)
	}
	if x.GetSource() != "" {
		p.Under("    Source: " + x.GetSource())
	}
	if x.GetValidRange() != "" {
		p.Under("    Holds for: " + x.GetValidRange())
	}
	for _, o := range x.GetOthers() {
		p.Under(fmt.Sprintf("    %s says %s (%s)", o.GetBasis(), figure(o.GetEstimate()), o.GetSource()))
	}
}

func (a *asking) moment(t *timestamppb.Timestamp) string {
	return device.Moment(t.AsTime().In(a.desk.Now.Location()), a.desk.Now)
}

// figure writes a number with its unit.
func figure(e *freshetv1.Estimate) string {
	text := quantity.Show(e.GetValue(), 3)
	if e.GetUnit() != "" {
		text += " " + e.GetUnit()
	}
	return text
}

func brief(v float64) string { return quantity.Show(v, 2) }

// bar makes a bar of an estimate.
func bar(name string, e *freshetv1.Estimate, words string) page.Bar {
	b := page.Bar{Name: name, Value: e.GetValue(), Low: math.NaN(), High: math.NaN(), Words: words}
	if e.Low != nil && e.High != nil {
		b.Low, b.High = e.GetLow(), e.GetHigh()
	}
	return b
}

// on writes a day of the contract as a person does.
func on(day string) string {
	t, err := time.Parse(time.DateOnly, day)
	if err != nil {
		return day
	}
	return t.Format("2 Jan 2006")
}

// account puts one call about members, devices and sharing to the co-op.
func account[Request, Response any](a *asking, call func(freshetv1.AccountServiceClient, context.Context, Request, ...grpc.CallOption) (Response, error), request Request) (Response, error) {
	return device.Ask(a.ctx, a.dev, freshetv1.NewAccountServiceClient, call, request)
}
