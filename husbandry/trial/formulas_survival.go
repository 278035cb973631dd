package trial

import (
	"cmp"
	"slices"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

func lifeInputs(more ...formula.Input) []formula.Input {
	return append([]formula.Input{
		ranged(list("time", "how long each was watched"), 0, 1e150),
		ranged(list("event", "1 for each that was seen to end, 0 for each whose watch stopped first"), 0, 1),
		{Name: "arm", Meaning: "the group of each, a list of words; all one group when not given"},
		remark("data"),
	}, more...)
}

// livesOf sorts the lives by group, in the order of the alphabet.
func livesOf(in *formula.Given) (names []string, lives [][]Life, err error) {
	times, events := in.Numbers("time"), in.Numbers("event")
	n := float64(len(times))
	arms := make([]string, len(times))
	if in.Has("arm") {
		arms = in.Labels("arm")
	}
	for name, length := range map[string]int{"number of events": len(events), "number of groups' words": len(arms)} {
		if err = quantity.Within(name, float64(length), n, n, "", "by definition: one a time"); err != nil {
			return nil, nil, err
		}
	}
	names = slices.Clone(arms)
	slices.Sort(names)
	names = slices.Compact(names)
	lives = make([][]Life, len(names))
	for i := range times {
		if err = quantity.Within("event", events[i], 0, 1, "", "by definition: 0 or 1"); err != nil {
			return nil, nil, err
		}
		at, _ := slices.BinarySearch(names, arms[i])
		lives[at] = append(lives[at], Life{times[i], events[i] == 1})
	}
	return names, lives, nil
}

// curve is one group's steps with the time up to which all groups were watched.
type curve struct {
	steps   []Step
	horizon float64
}

func curveOf(in *formula.Given) (curve, error) {
	names, lives, err := livesOf(in)
	if err != nil {
		return curve{}, err
	}
	at := 0
	if in.Has("group") {
		at = slices.Index(names, in.Word("group"))
	}
	if at < 0 || len(lives) == 0 {
		return curve{}, &formula.InputError{Formula: "survival", Input: "group", Reason: "unknown word"}
	}
	c := curve{horizon: lastTime(lives[0])}
	for _, one := range lives {
		c.horizon = min(c.horizon, lastTime(one))
	}
	c.steps, err = KaplanMeier(lives[at], confidenceOf(in))
	return c, err
}

func lastTime(lives []Life) float64 {
	return slices.MaxFunc(lives, func(a, b Life) int { return cmp.Compare(a.Time, b.Time) }).Time
}

var survivalFormulas = slices.Concat(formula.Outputs(formula.Formula{
	Inputs: lifeInputs(word("group", "which group"), formula.Input{Name: "t", Meaning: "the time asked about", Low: 0, High: 1e150}, confidenceInput()),
	Source: "Kaplan & Meier 1958, J. Am. Stat. Assoc. 53:457; Greenwood 1926; interval on the log-minus-log scale",
	Range:  "times of 0 or more", Cautions: []string{independent},
}, func(in *formula.Given) (Step, error) {
	c, err := curveOf(in)
	if err != nil {
		return Step{}, err
	}
	return At(c.steps, in.Float("t"))
},
	formula.Output[Step]{Name: "survival", Title: "What share survives a given time?", Also: []string{"trial.km {data} group {group} t={t} survival"}, Value: func(s Step) float64 { return s.Survival }, Span: func(s Step) (l, h float64) { return s.Low, s.High }},
	formula.Output[Step]{Name: "survival_se", Title: "How uncertain is the share that survives?", Also: []string{"trial.km {data} group {group} t={t} se_greenwood"}, Value: func(s Step) float64 { return s.SE }},
	formula.Output[Step]{Name: "survival_low", Title: "What is the least share that may survive?", Also: []string{"trial.km {data} group {group} t={t} ci{percent}_lo_loglog"}, Value: func(s Step) float64 { return s.Low }},
	formula.Output[Step]{Name: "survival_high", Title: "What is the largest share that may survive?", Also: []string{"trial.km {data} group {group} t={t} ci{percent}_hi_loglog"}, Value: func(s Step) float64 { return s.High }},
), []formula.Formula{{
	Name: "median_life", Title: "When are half gone?", Also: []string{"trial.km {data} group {group} median"},
	Inputs: lifeInputs(word("group", "which group"), confidenceInput()),
	Source: "Kaplan & Meier 1958; the middle of a stretch at exactly half", Range: "half must be gone before the watch ends", Cautions: []string{independent},
	Work: func(in *formula.Given) (formula.Answer, error) {
		c, err := curveOf(in)
		return formula.Number(MedianLife(c.steps)), err
	},
}, {
	Name: "restricted_mean_life", Title: "How long do they live on average, up to a horizon?", Also: []string{"trial.km {data} group {group} rmst"},
	Inputs: lifeInputs(word("group", "which group"), confidenceInput(),
		formula.Input{Name: "horizon", Meaning: "up to which time; the time all groups were watched when not given", Low: 0, High: 1e150}),
	Source: "area under the curve of Kaplan & Meier 1958", Range: "horizon of 0 or more", Cautions: []string{independent},
	Work: func(in *formula.Given) (formula.Answer, error) {
		c, err := curveOf(in)
		if err != nil {
			return formula.Answer{}, err
		}
		if in.Has("horizon") {
			c.horizon = in.Float("horizon")
		}
		m, err := RestrictedMeanLife(c.steps, c.horizon)
		return formula.Number(m), err
	},
}}, formula.Outputs(formula.Formula{
	Inputs: lifeInputs(), Source: "Mantel 1966, Cancer Chemother. Rep. 50:163", Range: "two groups", Cautions: []string{independent},
}, func(in *formula.Given) (ChiSquared, error) {
	_, lives, err := livesOf(in)
	if err == nil {
		err = quantity.Within("number of groups", float64(len(lives)), 2, 2, "", quantity.OwnBounds)
	}
	if err != nil {
		return ChiSquared{}, err
	}
	return LogRank(lives[0], lives[1])
},
	formula.Output[ChiSquared]{Name: "log_rank", Title: "How far apart is the survival of two groups?", Also: []string{"trial.logrank {data} chisq"}, Value: func(c ChiSquared) float64 { return c.Value }},
	formula.Output[ChiSquared]{Name: "log_rank_p", Title: "How often would chance alone set two survivals so far apart?", Also: []string{"trial.logrank {data} p"}, Value: func(c ChiSquared) float64 { return c.P }},
))
