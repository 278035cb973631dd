package analysis

import (
	"context"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/quantity"
	"freshet.example/husbandry/remedy"
)

// JudgeRemedy says what is known of a substance in this loop. It never says safe.
func (s *Service) JudgeRemedy(ctx context.Context, in *freshetv1.JudgeRemedyRequest) (*freshetv1.JudgeRemedyResponse, error) {
	l, err := s.loop(ctx, in.GetSystemId())
	if err != nil {
		return nil, err
	}
	if _, err := remedy.Find(in.GetRegisterName()); err != nil {
		return nil, &FieldError{"register_name", err.Error()}
	}
	reaching := 1.0
	if in.ReachingShare != nil {
		reaching = in.GetReachingShare()
	}
	diluted, err := remedy.Dilution(in.GetMassG(), false, 1, quantity.Fraction(reaching), quantity.Litres(l.litres()))
	if err != nil {
		return nil, err
	}
	seen, err := l.observe(ctx, s.now())
	if err != nil {
		return nil, err
	}
	alk, _ := seen.value(alkalinity)
	j, err := remedy.Judge(in.GetRegisterName(), diluted, remedy.Water{Alkalinity: quantity.AlkalinityCaCO3(alk)})
	if err != nil {
		return nil, err
	}
	return &freshetv1.JudgeRemedyResponse{Answer: l.judged(in.GetRegisterName(), in.GetMassG(), reaching, j)}, nil
}

func (l *loop) judged(name string, grams, reaching float64, j remedy.Judgement) *freshetv1.Answer {
	known, err := remedy.Find(name)
	if err != nil {
		return lacking("remedy", err.Error())
	}
	a := &freshetv1.Answer{
		Name: "remedy", Estimate: estimate(j.Concentration.Amount, "mg/L in the loop"), Standing: watch, Sentence: j.Words,
		Inputs: []*freshetv1.InputUsed{
			setting("put on", grams, "g", known.Counted), setting("share that reaches the water", reaching, "", "as asked"),
			setting("water in the loop", l.litres(), "L", "vessels"),
		},
		Cautions: []string{
			"The label is the law and outranks every number here; local rules may forbid what a label elsewhere allows.",
		},
	}
	if !j.Known {
		a.Standing = unknown
		a.Missing = []string{"a published test on fish for what this dose counts: not known is not harmless"}
		return a
	}
	a.Source = j.Lowest.Source
	if known.KeepOut || j.Margin < 10 {
		a.Standing = act
	}
	return a
}
