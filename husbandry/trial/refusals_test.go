package trial

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"freshet.example/husbandry/formula/formulatest"
	"freshet.example/husbandry/quantity"
)

var same = []float64{2, 2, 2}

// outside reports whether an error says that something is out of range.
func outside(err error) bool {
	var r *quantity.RangeError
	return errors.As(err, &r)
}

// second is the error, beside which no value may stand: where one does, an error
// that is none of those wanted.
func second[T any](value T, err error) error {
	if v := reflect.ValueOf(value); err != nil && v.IsValid() && !v.IsZero() {
		return errors.New(fmt.Sprint(value, " stands beside ", err))
	}
	return err
}

// third is second of two values.
func third[T, U any](value T, other U, err error) error {
	if beside := second(value, err); beside != err { //nolint:errorlint // the very same
		return beside
	}
	return second(other, err)
}

// named is nil unless err refuses a value of this name.
func named(name string, err error) error {
	var r *quantity.RangeError
	if errors.As(err, &r) && r.Name != name {
		return nil
	}
	return err
}

// words are so many different words.
func words(n int) (list []string) {
	for i := range n {
		list = append(list, strconv.Itoa(i))
	}
	return list
}

// formulaOf is the error of a formula that is asked.
func formulaOf(name, inputs string) error {
	typed := map[string]string{}
	for one := range strings.SplitSeq(inputs, ";") {
		input, text, _ := strings.Cut(one, "=")
		typed[input] = text
	}
	f, _ := formulatest.Find(Formulas, name)
	return second(f.Ask(typed))
}

// TestRefusals: what cannot be answered is refused, and with which words.
func TestRefusals(t *testing.T) {
	many := make([]float64, 301)
	for i := range many {
		many[i] = float64(i + 1)
	}
	nan := []float64{1, math.NaN()}
	flat := [][]float64{same, same}
	north := Factor{"block", []string{"n", "n", "s", "s"}}
	feed := Factor{"feed", []string{"a", "b", "a", "b"}}
	for name, c := range map[string]struct {
		err  error
		want error // nil: a RangeError
	}{
		"welch without spread":           {second(Welch(same, same, 0.95)), ErrNoSpread},
		"welch of one":                   {second(Welch([]float64{1}, same, 0.95)), nil},
		"welch against one":              {second(Welch(drug1, []float64{1}, 0.95)), nil},
		"pooled without spread":          {second(Pooled(same, same, 0.95)), ErrNoSpread},
		"pairs of unlike length":         {second(Paired(drug1, same, 0.95)), nil},
		"pairs of nothing":               {second(Differences(nil, nil)), nil},
		"pairs against nothing":          {second(Differences(same, nil)), nil},
		"one pair":                       {second(Paired([]float64{1}, []float64{2}, 0.95)), nil},
		"pairs without spread":           {second(Paired(drug1, drug1, 0.95)), ErrNoSpread},
		"summary of nothing":             {second(Summary(nil)), nil},
		"summary of no number":           {second(Summary(nan)), nil},
		"d without spread":               {second(CohenD(same, same)), ErrNoSpread},
		"U of nothing":                   {second(MannWhitneyU(nil, same)), nil},
		"U against nothing":              {second(MannWhitneyU(same, nil)), nil},
		"exact ranks of many":            {second(MannWhitneyExact(many[:50], many[50:101])), ErrTooMany},
		"shift of many":                  {second(HodgesLehmann(many[:50], many[50:101], 0.95)), ErrTooMany},
		"shift of no number":             {second(HodgesLehmann(nan, same, 0.95)), nil},
		"paired shift of many":           {second(HodgesLehmannPaired(many, 0.95)), ErrTooMany},
		"paired shift of nothing":        {second(HodgesLehmannPaired(nil, 0.95)), nil},
		"normal ranks without spread":    {second(MannWhitneyNormal(same, same, true)), ErrNoSpread},
		"signs of many":                  {second(PermuteSigns(many[:27])), ErrTooMany},
		"signs of nothing":               {second(PermuteSigns(nil)), nil},
		"relabelling of many":            {second(PermuteMeans(many[:14], many[14:29])), ErrTooMany},
		"relabelling of nothing":         {second(PermuteMeans(nil, same)), nil},
		"ratio without spread":           {second(Fieller(same, same, false, 0.95)), ErrNoSpread},
		"ratio to nothing":               {second(Fieller(drug1, []float64{-1, 1}, false, 0.95)), nil},
		"log ratio without spread":       {second(LogRatio(same, same, 0.95)), ErrNoSpread},
		"log ratio of a loss":            {second(LogRatio([]float64{-3, 1}, same, 0.95)), nil},
		"log ratio to a loss":            {second(LogRatio(drug2, []float64{-3, 1}, 0.95)), nil},
		"geometric ratio with nothing":   {second(GeometricRatio(drug1, drug2, 0.95)), nil},
		"geometric ratio to nothing":     {second(GeometricRatio(same, []float64{0, 1}, 0.95)), nil},
		"geometric ratio, no spread":     {second(GeometricRatio(same, same, 0.95)), ErrNoSpread},
		"one group":                      {second(OneWay([][]float64{drug1})), nil},
		"201 groups":                     {second(OneWay(slices.Repeat([][]float64{drug1}, 201))), nil},
		"an empty group":                 {second(OneWay([][]float64{drug1, nil})), nil},
		"groups of one":                  {second(OneWay([][]float64{{1}, {2}})), nil},
		"groups without spread":          {second(OneWay(flat)), ErrNoSpread},
		"welch groups without spread":    {second(WelchOneWay(flat)), ErrNoSpread},
		"welch groups of one":            {second(WelchOneWay([][]float64{drug1, {1}})), nil},
		"ranks of groups all tied":       {second(KruskalWallis(flat)), ErrNoSpread},
		"ranks of one group":             {second(KruskalWallis([][]float64{drug1})), nil},
		"tukey without spread":           {second(Tukey(flat, 0.95)), ErrNoSpread},
		"tukey too sure":                 {second(Tukey([][]float64{drug1, drug2}, 1)), nil},
		"factorial of two":               {second(Factorial([]float64{1, 2}, []Factor{feed}, true)), nil},
		"factorial without factors":      {second(Factorial([]float64{1, 2, 3, 5}, nil, true)), nil},
		"factorial with seven":           {second(Factorial([]float64{1, 2, 3, 5}, []Factor{north, feed, north, feed, north, feed, north}, true)), nil},
		"factor of unlike length":        {second(Factorial([]float64{1, 2, 3}, []Factor{north}, true)), nil},
		"factor of one level":            {second(Factorial([]float64{1, 2, 3}, []Factor{{"x", []string{"a", "a", "a"}}}, true)), nil},
		"factorial that fits exactly":    {second(Factorial([]float64{1, 2, 3, 5}, []Factor{north, feed, {"c", []string{"1", "2", "2", "1"}}}, true)), ErrNoSpread},
		"adjusted for what is not":       {second(Adjusted([]float64{1, 2, 3, 5}, []Factor{north, feed}, "lamp", 0.95)), nil},
		"adjusted, confounded":           {second(Adjusted([]float64{1, 2, 3, 5}, []Factor{north, {"lamp", north.Levels}}, "lamp", 0.95)), ErrNoSpread},
		"adjusted, exact":                {second(Adjusted([]float64{1, 2, 3, 4}, []Factor{north, feed}, "feed", 0.95)), ErrNoSpread},
		"design of no kind":              {second(Power(5, 1, 1, 0.05, 2)), nil},
		"design below kinds":             {second(BedsNeeded(1, 1, 0.8, 0.05, -1)), nil},
		"difference hardly there":        {second(BedsNeeded(0.0199, 1, 0.8, 0.05, TwoGroups)), nil},
		"difference too plain":           {second(PowerUnequal(3, 3, 30.1, 1, 0.05)), nil},
		"spread of nothing":              {second(Power(3, 1, 0, 0.05, Pairs)), nil},
		"quantile of no type":            {second(Quantile(drug1, 0.5, 5)), nil},
		"quantile of another type":       {second(Quantile(drug1, 0.5, 9)), nil},
		"weights of unlike length":       {second(WeightedQuantile(drug1, same, 0.5)), nil},
		"weights of nothing":             {second(CountedQuantile(nil, nil, 0.5)), nil},
		"medians of an empty group":      {second(GroupMedians([][]float64{drug1, nil})), nil},
		"rates of no event":              {second(RateRatio(Exposure{0, 1}, Exposure{0, 1}, 0.95)), nil},
		"rate over nothing":              {second(RateRatio(Exposure{1, 1}, Exposure{1, 0}, 0.95)), nil},
		"more events than fish":          {second(Wilson(4, 3, 0.95)), nil},
		"fewer than none":                {second(MidP(-1, 3, 0.95)), nil},
		"shares with no event":           {second(ChiSquaredShares(Count{0, 3}, Count{0, 4})), ErrNoSpread},
		"shares with all":                {second(ChiSquaredShares(Count{3, 3}, Count{4, 4})), ErrNoSpread},
		"shares of nobody":               {second(ChiSquaredShares(Count{0, 3}, Count{0, 0})), nil},
		"fisher of many":                 {second(Fisher(Count{60000, 1e6}, Count{40001, 1e6}, 0.95)), nil},
		"lives of nobody":                {second(KaplanMeier(nil, 0.95)), nil},
		"log-rank of nobody":             {second(LogRank(nil, []Life{{1, true}})), nil},
		"log-rank against nobody":        {second(LogRank([]Life{{1, true}}, nil)), nil},
		"log-rank without an end":        {second(LogRank([]Life{{1, false}}, []Life{{2, false}})), ErrNoSpread},
		"smallest p of nobody":           {second(SmallestP(0, 3)), nil},
		"equivalence without spread":     {second(Equivalent(same, same, -1, 1, 0.05)), ErrNoSpread},
		"equivalence, margins reversed":  {second(Equivalent(drug1, drug2, 1, -1, 0.05)), nil},
		"d of one":                       {second(CohenD(same, same[:1])), nil},
		"equivalence, alpha of 0.26":     {named("alpha", second(Equivalent(drug1, drug2, -1, 1, 0.26))), nil},
		"margin below all":               {second(Equivalent(drug1, drug2, -1.5e150, 1, 0.05)), nil},
		"margin from above nothing":      {second(Equivalent(drug1, drug2, 0.5, 1, 0.05)), nil},
		"margin above all":               {second(Equivalent(drug1, drug2, -1, 1.5e150, 0.05)), nil},
		"beds to notice too surely":      {second(BedsNeeded(1, 1, 0.9995, 0.05, Pairs)), nil},
		"a share of more than a million": {second(Wilson(1, 1e6+1, 0.95)), nil},
		"smallest p of 501":              {second(SmallestP(3, 501)), nil},
		"power of more than a million":   {second(Power(1e6+1, 1, 1, 0.05, Pairs)), nil},
		"power of a million and two":     {second(PowerUnequal(2, 1e6+1, 1, 1, 0.05)), nil},
		"notice of a million and one":    {second(Detectable(1e6+1, 1, 0.8, 0.05, Pairs)), nil},
		"power at an alpha of 0.6":       {second(Power(3, 1, 1, 0.6, Pairs)), nil},
		"weighed beyond all":             {second(WeightedQuantile(same[:1], same[:1], 1.5)), nil},
		"exposure without end":           {third(Rate(Exposure{1, 1.5e150}, 0.95)), nil},
		"life to a horizon beyond all":   {second(RestrictedMeanLife([]Step{{Time: 1}}, 1.5e150)), nil},
		"power of a lone pair":           {second(Blocks{1, 2, 1}.Power(1, 1, 0.05)), nil},
		"notice of a lone pair":          {second(Blocks{1, 2, 1}.Detectable(1, 0.8, 0.05)), nil},
		"notice with a power of 0.4":     {second(Blocks{4, 2, 1}.Detectable(1, 0.4, 0.05)), nil},
		"notice too surely":              {second(Blocks{4, 2, 1}.Detectable(1, 0.9995, 0.05)), nil},
		"beds for next to nothing":       {second(Blocks{1, 2, 1}.BedsFor(0.03, 1, 0.8, 0.05)), nil},
		"spread without end":             {named("standard deviation", second(Power(3, 1.5e150, 1.5e150, 0.05, Pairs))), nil},
		"power of one bed":               {second(Power(1, 1, 1, 0.05, TwoGroups)), nil},
		"power of unlike kinds":          {second(PowerUnequal(3, 3, 0, 1, 0.05)), nil},
		"power of one against three":     {second(PowerUnequal(1, 3, 1, 1, 0.05)), nil},
		"notice of no spread":            {second(Detectable(3, 0, 0.8, 0.05, Pairs)), nil},
		"notice of one bed":              {second(Detectable(1, 1, 0.8, 0.05, Pairs)), nil},
		"notice too surely, in pairs":    {second(Detectable(3, 1, 0.9995, 0.05, Pairs)), nil},
		"quantile of nothing":            {second(Quantile(nil, 0.5, Type7)), nil},
		"quantile beyond all":            {second(Quantile(drug1, 1.5, Type7)), nil},
		"a million events and one":       {third(Rate(Exposure{1e6 + 1, 1}, 0.95)), nil},
		"rate, unsure":                   {third(Rate(Exposure{1, 1}, 0.4)), nil},
		"signed ranks of no difference":  {third(SignedRank([]float64{0, 0})), nil},
		"signed ranks of nothing":        {third(SignedRank(nil)), nil},
		"signed ranks of 301":            {third(SignedRank(many)), nil},
		"a control that is not there":    {third(Dunnett([][]float64{drug1, drug2}, 2, 0.95)), nil},
		"dunnett without spread":         {third(Dunnett(flat, 0, 0.95)), ErrNoSpread},
		"risk ratio without events":      {third(RiskRatio(Count{0, 9}, Count{2, 9}, 0.95)), nil},
		"risk ratio of nobody":           {third(RiskRatio(Count{0, 0}, Count{2, 9}, 0.95)), nil},
		"difference of nobody":           {third(ShareDifference(Count{0, 0}, Count{2, 9}, 0.95)), nil},
		"life to no horizon":             {second(RestrictedMeanLife([]Step{{Time: 1}}, -1)), nil},
		"a factor of 201 levels":         {second(Factorial(many[:201], []Factor{{"bed", words(201)}}, false)), nil},
		"survivors beyond all":           {second(At(nil, 1.5e150)), nil},
		"three arms":                     {formulaOf("log_rank", "time=[1 2 3 4 5 6];event=[1 1 1 1 1 1];arm=[a a b b c c]"), nil},
	} {
		if c.want == nil && !outside(c.err) || c.want != nil && !errors.Is(c.err, c.want) {
			t.Errorf("%s: %v, want %v", name, c.err, c.want)
		}
	}
}

// TestLargestTaken: just inside the bounds an answer comes.
func TestLargestTaken(t *testing.T) {
	many := make([]float64, 300)
	for i := range many {
		many[i] = float64(i%7) + 0.01*float64(i)
	}
	if _, err := MannWhitneyExact(many[:50], many[50:100]); err != nil {
		t.Error(err)
	}
	if s, err := HodgesLehmann(many[:50], many[50:100], 0.95); err != nil || s.Short {
		t.Error(err, s)
	}
	if _, err := HodgesLehmannPaired(many, 0.95); err != nil {
		t.Error(err)
	}
	if _, _, err := SignedRank(many[1:]); err != nil {
		t.Error(err)
	}
	if p, err := PermuteSigns(many[:20]); err != nil || p.Arrangements != 1<<20 {
		t.Error(err, p)
	}
	if _, err := Fisher(Count{60000, 1e6}, Count{40000, 1e6}, 0.95); err != nil {
		t.Error(err)
	}
	groups := make([][]float64, 200)
	for i := range groups {
		groups[i] = []float64{float64(i), float64(i) + 1}
	}
	if _, err := OneWay(groups); err != nil {
		t.Error(err)
	}
}
