package servertest

import (
	"testing"
	"time"

	"google.golang.org/protobuf/types/known/fieldmaskpb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
)

// NextID is the id of what the person's next operation makes.
func (p *Person) NextID() string { return wire.ID(p.Install, p.Number+1).String() }

// Push numbers operations, notes them as entered now, and pushes them. Refused
// ones end the test: who wants to see a refusal calls Sync.Push.
func (p *Person) Push(t testing.TB, operations ...*freshetv1.Operation) {
	t.Helper()
	noted := &freshetv1.Noted{WallMs: time.Now().UnixMilli()}
	for _, operation := range operations {
		p.Number++
		operation.Number, operation.Noted = p.Number, noted
	}
	answer, err := p.Sync.Push(t.Context(), &freshetv1.PushRequest{Install: p.Install[:], Operations: operations, Noted: noted})
	if err != nil {
		t.Fatalf("servertest: push: %v", err)
	}
	for _, outcome := range answer.GetOutcomes() {
		t.Fatalf("servertest: operation %d: %s", outcome.GetNumber(), outcome)
	}
}

// NewSite makes a site of the person's and returns its id.
func (p *Person) NewSite(t testing.TB, name string) string {
	t.Helper()
	id := p.NextID()
	p.Push(t, &freshetv1.Operation{Change: &freshetv1.Operation_Edit{Edit: &freshetv1.Edit{
		RecordId: id, Fields: &fieldmaskpb.FieldMask{Paths: []string{"name"}},
		Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{Name: name}},
	}}})
	return id
}
