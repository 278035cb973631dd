package server

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry"
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// husbandryService answers what needs no records.
type husbandryService struct {
	freshetv1.UnimplementedHusbandryServiceServer
}

func newHusbandry() *husbandryService { return &husbandryService{} }

// ListFormulas lists what can be asked.
func (*husbandryService) ListFormulas(_ context.Context, in *freshetv1.ListFormulasRequest) (*freshetv1.ListFormulasResponse, error) {
	wanted := strings.ToLower(in.GetContaining())
	out := &freshetv1.ListFormulasResponse{}
	for _, entry := range husbandry.Catalogue() {
		if strings.Contains(entry.Name, wanted) || strings.Contains(strings.ToLower(entry.Title), wanted) {
			out.Formulas = append(out.Formulas, formulaMessage(entry))
		}
	}
	return out, nil
}

// Compute answers one question.
func (*husbandryService) Compute(_ context.Context, in *freshetv1.ComputeRequest) (*freshetv1.ComputeResponse, error) {
	answer, err := compute(in)
	if err != nil {
		return nil, err
	}
	return &freshetv1.ComputeResponse{Answer: answer}, nil
}

// ComputeBatch answers many questions, each on its own.
func (*husbandryService) ComputeBatch(ctx context.Context, in *freshetv1.ComputeBatchRequest) (*freshetv1.ComputeBatchResponse, error) {
	if len(in.GetQuestions()) > maxQuestions {
		return nil, refuse(freshetv1.ErrorReason_ERROR_REASON_TOO_LARGE, "questions",
			fmt.Sprintf("%d questions are more than %d", len(in.GetQuestions()), maxQuestions), "")
	}
	out := &freshetv1.ComputeBatchResponse{}
	for _, question := range in.GetQuestions() {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		out.Results = append(out.Results, result(question))
	}
	return out, nil
}

func result(question *freshetv1.ComputeRequest) *freshetv1.ComputeResult {
	answer, err := compute(question)
	if err != nil {
		return &freshetv1.ComputeResult{Result: &freshetv1.ComputeResult_Error{Error: err.Error()}}
	}
	return &freshetv1.ComputeResult{Result: &freshetv1.ComputeResult_Answer{Answer: answer}}
}

func compute(question *freshetv1.ComputeRequest) (*freshetv1.Answer, error) {
	entry, ok := husbandry.Find(question.GetName())
	if !ok {
		return nil, refuse(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_FORMULA, "name", "", "")
	}
	if err := tooMuch(question.GetInputs()); err != nil {
		return nil, err
	}
	answer, err := entry.Ask(question.GetInputs())
	if err != nil {
		return nil, formulaRefusal(entry.Formula, question.GetInputs(), err)
	}
	return answerMessage(entry, question.GetInputs(), answer), nil
}

// tooMuch refuses inputs that would keep the server busy: a list may say "7x500"
// for five hundred sevens, so few letters can stand for many values.
func tooMuch(typed map[string]string) error {
	for name, text := range typed {
		values := 0
		for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ' ' || r == '\t' }) {
			values++
			if _, times, repeated := strings.Cut(word, "x"); repeated {
				n, _ := strconv.Atoi(strings.TrimRight(times, "]"))
				values += max(0, n)
			}
		}
		if values > maxListed || len(text) > maxListed*16 {
			return refuse(freshetv1.ErrorReason_ERROR_REASON_TOO_LONG, inputPath(name), "", fmt.Sprintf("at most %d values", maxListed))
		}
	}
	return nil
}

// formulaRefusal says in the contract's words why a formula gives no answer.
// Formulas know nothing of the clock and of other machines: whatever they
// report, the inputs are the cause.
func formulaRefusal(f *formula.Formula, typed map[string]string, err error) error {
	if input, ok := errors.AsType[*formula.InputError](err); ok {
		return inputRefusal(input)
	}
	if outside, ok := errors.AsType[*quantity.RangeError](err); ok {
		hint := "from " + digits(outside.Low) + " to " + strings.TrimSpace(digits(outside.High)+" "+outside.Unit)
		return refuse(freshetv1.ErrorReason_ERROR_REASON_OUT_OF_RANGE, inputPath(inputAt(f, typed, outside.Value)), outside.Error(), hint)
	}
	return refuse(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_NAME, "inputs", err.Error(), "")
}

func inputRefusal(input *formula.InputError) *refusal {
	reasons := map[string]freshetv1.ErrorReason{
		"missing":       freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING,
		"unknown word":  freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_NAME,
		"unknown input": freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_NAME,
	}
	reason, ok := reasons[input.Reason]
	if !ok { // not a number, not a whole number, not a list of numbers
		reason = freshetv1.ErrorReason_ERROR_REASON_MALFORMED
	}
	return &refusal{reason: reason, field: inputPath(input.Input), words: input.Input + " is " + input.Reason, hint: input.Hint}
}

func inputPath(name string) string { return strings.TrimSuffix("inputs."+name, ".") }

// inputAt finds the input, by the name it was typed under, that holds a value
// which a formula refused; empty where none or several do.
func inputAt(f *formula.Formula, typed map[string]string, value float64) string {
	var names []string
	for name, text := range typed {
		given, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(text), ",", ".", 1), 64)
		if err == nil && holds(f, name, given, value) {
			names = append(names, name)
		}
	}
	if len(names) != 1 {
		return ""
	}
	return names[0]
}

// holds reports whether a number typed under a name is the value, in the
// input's own unit.
func holds(f *formula.Formula, name string, given, value float64) bool {
	for _, input := range f.Inputs {
		for _, alias := range input.Also {
			if alias.Name == name && alias.Change != nil {
				given = alias.Change(given)
			}
		}
	}
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return given == value || math.IsNaN(given) && math.IsNaN(value)
	}
	return math.Abs(given-value) <= 1e-9*math.Abs(value)
}

func digits(v float64) string { return strconv.FormatFloat(v, 'g', 7, 64) }

func formulaMessage(entry husbandry.Entry) *freshetv1.Formula {
	out := &freshetv1.Formula{
		Name: entry.Name, Title: entry.Title, Room: entry.Room, Unit: entry.Unit,
		Source: entry.Source, ValidRange: entry.Range, Cautions: slices.Clone(entry.Cautions),
	}
	for _, input := range entry.Inputs {
		out.Inputs = append(out.Inputs, &freshetv1.FormulaInput{
			Name: input.Name, Meaning: input.Meaning, Unit: input.Unit, Low: input.Low, High: input.High,
			DefaultValue: input.Default, Choices: slices.Clone(input.Choices),
		})
	}
	return out
}
