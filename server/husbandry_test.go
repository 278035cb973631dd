package server_test

import (
	"strings"
	"testing"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry"
	"freshet.example/server/servertest"
)

func TestFormulasAreListed(t *testing.T) {
	s := servertest.New(t)
	client := s.Steward().Husbandry
	all, err := client.ListFormulas(t.Context(), &freshetv1.ListFormulasRequest{})
	if err != nil || len(all.GetFormulas()) != len(husbandry.Catalogue()) {
		t.Fatalf("%d formulas, %v", len(all.GetFormulas()), err)
	}
	some, err := client.ListFormulas(t.Context(), &freshetv1.ListFormulasRequest{Containing: "PUMP"})
	if err != nil || len(some.GetFormulas()) == 0 || len(some.GetFormulas()) >= len(all.GetFormulas())/2 {
		t.Fatalf("%d formulas, %v", len(some.GetFormulas()), err)
	}
	for _, f := range some.GetFormulas() {
		if !strings.Contains(strings.ToLower(f.GetName()+f.GetTitle()), "pump") || f.GetRoom() == "" || f.GetSource() == "" || len(f.GetInputs()) == 0 {
			t.Errorf("%v", f)
		}
	}
}

func TestAnAnswerSaysWhatItRestsOn(t *testing.T) {
	s := servertest.New(t)
	got, err := s.Steward().Husbandry.Compute(t.Context(), &freshetv1.ComputeRequest{Name: "uia_fraction", Inputs: map[string]string{"ph": "8,0", "temperature_celsius": "25"}})
	if err != nil {
		t.Fatal(err)
	}
	a := got.GetAnswer()
	// By hand: pK = 0.09018 + 2729.92/298.15 = 9.2464; 1/(1 + 10^(9.2464-8)) = 0.0537.
	if v := a.GetEstimate().GetValue(); v < 0.0536 || v > 0.0538 {
		t.Errorf("fraction %v", v)
	}
	if a.GetName() != "uia_fraction" || a.GetSource() == "" || a.GetSentence() == "" || len(a.GetInputs()) < 2 {
		t.Errorf("%v", a)
	}
	for _, input := range a.GetInputs() {
		if input.GetName() == "ph" && (input.GetEstimate().GetValue() != 8 || input.GetFrom() != "given") {
			t.Errorf("%v", input)
		}
	}
}

func TestFormulasRefuseByName(t *testing.T) {
	s := servertest.New(t)
	for _, c := range []struct {
		what          string
		inputs        map[string]string
		reason, field string
	}{
		{"missing", map[string]string{"ph": "7"}, "FIELD_MISSING", "inputs.temperature_celsius"},
		{"not a number", map[string]string{"ph": "seven", "temperature_celsius": "25"}, "MALFORMED", "inputs.ph"},
		{"out of range", map[string]string{"ph": "15", "temperature_celsius": "25"}, "OUT_OF_RANGE", "inputs.ph"},
		{"not a number at all", map[string]string{"ph": "7", "temperature_celsius": "NaN"}, "OUT_OF_RANGE", "inputs.temperature_celsius"},
		{"infinite", map[string]string{"ph": "7", "temperature_celsius": "-Inf"}, "OUT_OF_RANGE", "inputs.temperature_celsius"},
		{"cold as nothing is", map[string]string{"ph": "7", "temperature_celsius": "-300"}, "OUT_OF_RANGE", "inputs.temperature_celsius"},
		{"huge", map[string]string{"ph": "1e308", "temperature_celsius": "25"}, "OUT_OF_RANGE", "inputs.ph"},
		{"unknown input", map[string]string{"ph": "7", "temperature_celsius": "25", "colour": "green"}, "UNKNOWN_NAME", "inputs.colour"},
		{"a long text", map[string]string{"ph": strings.Repeat("7", 1<<20), "temperature_celsius": "25"}, "TOO_LONG", "inputs.ph"},
		{"a short text for many values", map[string]string{"ph": "7x99999999", "temperature_celsius": "25"}, "TOO_LONG", "inputs.ph"},
	} {
		_, err := s.Steward().Husbandry.Compute(t.Context(), &freshetv1.ComputeRequest{Name: "uia_fraction", Inputs: c.inputs})
		wantReason(t, c.what, err, c.reason, c.field)
	}
	_, err := s.Steward().Husbandry.Compute(t.Context(), &freshetv1.ComputeRequest{Name: "uia"})
	wantReason(t, "unknown formula", err, "UNKNOWN_FORMULA", "name")
}

func TestABatchAnswersEachOnItsOwn(t *testing.T) {
	s := servertest.New(t)
	good := &freshetv1.ComputeRequest{Name: "uia_fraction", Inputs: map[string]string{"ph": "7", "temperature_celsius": "20"}}
	bad := &freshetv1.ComputeRequest{Name: "uia_fraction", Inputs: map[string]string{"ph": "15", "temperature_celsius": "20"}}
	got, err := s.Steward().Husbandry.ComputeBatch(t.Context(), &freshetv1.ComputeBatchRequest{Questions: []*freshetv1.ComputeRequest{good, bad, good}})
	if err != nil || len(got.GetResults()) != 3 {
		t.Fatalf("%v %v", got, err)
	}
	if got.GetResults()[0].GetAnswer() == nil || got.GetResults()[2].GetAnswer() == nil || !strings.Contains(got.GetResults()[1].GetError(), "15") {
		t.Errorf("%v", got)
	}
	_, err = s.Steward().Husbandry.ComputeBatch(t.Context(), &freshetv1.ComputeBatchRequest{Questions: make([]*freshetv1.ComputeRequest, 1001)})
	wantReason(t, "1001 questions", err, "TOO_LARGE", "questions")
}
