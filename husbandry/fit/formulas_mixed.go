package fit

import (
	"slices"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

func amongInputs(more ...formula.Input) []formula.Input {
	return append([]formula.Input{list("x", "times", "time"), list("y", "sizes", "weight"),
		{Name: "individual", Meaning: "whose size each is, a list of words"}, remark("data")}, more...)
}

func amongOf(in *formula.Given) (names []string, a Among, err error) {
	x, y, who := in.Numbers("x"), in.Numbers("y"), in.Labels("individual")
	n := float64(len(x))
	for name, length := range map[string]int{"number of sizes": len(y), "number of individuals' words": len(who)} {
		if err := quantity.Within(name, float64(length), n, n, "", "by definition: one a time"); err != nil {
			return nil, Among{}, err
		}
	}
	names = slices.Clone(who)
	slices.Sort(names)
	names = slices.Compact(names)
	xs, ys := make([][]float64, len(names)), make([][]float64, len(names))
	for i := range x {
		at, _ := slices.BinarySearch(names, who[i])
		xs[at], ys[at] = append(xs[at], x[i]), append(ys[at], y[i])
	}
	a, err = LogisticAmong(xs, ys)
	return names, a, err
}

func amongBase(more ...formula.Input) formula.Formula {
	return formula.Formula{Inputs: amongInputs(more...), Source: "Lindstrom & Bates 1990, Biometrics 46:673, maximum likelihood",
		Range: "two individuals or more", Cautions: []string{unsure}}
}

const amongRow = "growth.mixed {data} SSlogis random Asym "

var mixedFormulas = append(formula.Outputs(amongBase(), func(in *formula.Given) (Among, error) {
	_, a, err := amongOf(in)
	return a, err
},
	formula.Output[Among]{Name: "among_final_size", Title: "What is the final size of the middle individual?", Also: []string{amongRow + "Asym"}, Value: func(a Among) float64 { return a.Asym }},
	formula.Output[Among]{Name: "among_final_size_se", Title: "How uncertain is that?", Also: []string{amongRow + "se Asym"}, Value: func(a Among) float64 { return a.AsymSE }},
	formula.Output[Among]{Name: "among_half_time", Title: "When is half of the final size reached?", Also: []string{amongRow + "xmid"}, Value: func(a Among) float64 { return a.Xmid }},
	formula.Output[Among]{Name: "among_half_time_se", Title: "How uncertain is when half is reached?", Also: []string{amongRow + "se xmid"}, Value: func(a Among) float64 { return a.XmidSE }},
	formula.Output[Among]{Name: "among_pace", Title: "How slowly does the shared curve rise?", Also: []string{amongRow + "scal"}, Value: func(a Among) float64 { return a.Scal }},
	formula.Output[Among]{Name: "among_pace_se", Title: "How uncertain is the pace of the shared curve?", Also: []string{amongRow + "se scal"}, Value: func(a Among) float64 { return a.ScalSE }},
	formula.Output[Among]{Name: "among_spread", Title: "How much do final sizes differ among individuals?", Also: []string{amongRow + "sd_Asym"}, Value: func(a Among) float64 { return a.SDAsym }},
	formula.Output[Among]{Name: "among_sigma", Title: "How far do sizes lie from their own curve?", Also: []string{amongRow + "sigma"}, Value: func(a Among) float64 { return a.Sigma }},
	formula.Output[Among]{Name: "among_log_likelihood", Title: "How likely are the sizes under the shared curve?", Also: []string{amongRow + "logLik_ML"}, Value: func(a Among) float64 { return a.LogLikelihood }},
), formula.Outputs(amongBase(remark("kind"), formula.Input{Name: "who", Meaning: "which individual"}), func(in *formula.Given) (float64, error) {
	names, a, err := amongOf(in)
	if err != nil {
		return 0, err
	}
	at := slices.Index(names, in.Word("who"))
	if at < 0 {
		return 0, &formula.InputError{Formula: "among", Input: "who", Reason: "unknown word"}
	}
	return a.Own[at], nil
},
	formula.Output[float64]{Name: "among_own_size", Title: "What is the final size of one individual, drawn towards all?", Also: []string{amongRow + "Asym {kind} {who}"}, Value: func(v float64) float64 { return v }},
)...)
