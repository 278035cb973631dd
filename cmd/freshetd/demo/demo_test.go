package demo

import (
	"fmt"
	"os"
	"testing"
	"time"

	"github.com/google/uuid"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/auth"
	"freshet.example/server/servertest"
	"freshet.example/store"
	"freshet.example/store/storetest"
)

func TestMain(m *testing.M) { os.Exit(storetest.Run(m)) }

func load(t testing.TB) (*servertest.Server, *Loaded, *servertest.Person) {
	t.Helper()
	s := servertest.New(t)
	code, hash := auth.NewCode()
	first := store.Invitation{CodeHash: hash, Role: store.RoleSteward, ExpiresAt: time.Now().Add(time.Hour)}
	if err := s.Store.FoundCooperative(t.Context(), uuid.New(), first); err != nil {
		t.Fatal(err)
	}
	loaded, err := Load(t.Context(), s.Stranger().Conn, code, time.Now())
	if err != nil {
		t.Fatal(err)
	}
	return s, loaded, s.WithToken(loaded.Steward.token)
}

func TestLook(t *testing.T) {
	_, loaded, maren := load(t)
	fmt.Println(loaded.Events, loaded.Took, float64(loaded.Events)/loaded.Took.Seconds())
	site := loaded.Sites["Bracken Barn"]
	m, err := maren.Analysis.GetMorning(t.Context(), &freshetv1.GetMorningRequest{SiteId: site})
	fmt.Println(err)
	for _, s := range m.GetSystems() {
		for _, x := range s.Tasks {
			fmt.Println("TASK", x.Standing, x.PlaceName, x.Sentence)
		}
		for _, x := range s.Water {
			fmt.Println("WATER", x.Standing, x.Sentence, x.Missing)
		}
		for _, x := range s.Fish {
			fmt.Println("FISH", x.Sentence, x.Missing)
		}
		for _, x := range s.Rations {
			fmt.Println("RATION", x.Sentence, x.Missing)
		}
	}
	for _, x := range m.GetBeds() {
		fmt.Println("BED", x.Sentence)
	}
	sys := m.Systems[0].SystemId
	show := func(what string, v any, err error) { fmt.Println("==", what, err); fmt.Println(v) }
	w, err := maren.Analysis.ExplainChange(t.Context(), &freshetv1.ExplainChangeRequest{SystemId: sys})
	show("why", w.GetSentence(), err)
	for _, p := range w.GetParts() {
		fmt.Println(p.Input, p.Before.Value, p.After.Value, p.Share)
	}
	b, err := maren.Analysis.GetNitrogenBudget(t.Context(), &freshetv1.GetNitrogenBudgetRequest{SystemId: sys})
	show("budget", b.GetSentence(), err)
	for _, l := range append(append(b.GetIn(), b.GetOut()...), b.GetUnaccounted()) {
		fmt.Println(l.GetName(), l.GetNitrogen().GetValue(), l.GetNitrogen().GetLow(), l.GetNitrogen().GetHigh(), l.GetShareOfFeed())
	}
	fmt.Println(b.GetMissing(), b.GetClosureG())
	l, err := maren.Analysis.GetStockingLimits(t.Context(), &freshetv1.GetStockingLimitsRequest{SystemId: sys})
	show("limits", l.GetAnswer().GetSentence(), err)
	for _, x := range l.GetLimits() {
		fmt.Println(x.Name, x.Biomass.Value, x.Feed.Value, x.Binding)
	}
	fmt.Println(l.GetAnswer().GetMissing())
	f, err := maren.Analysis.ForecastFishHarvest(t.Context(), &freshetv1.ForecastFishHarvestRequest{SystemId: sys})
	for _, x := range f.GetForecasts() {
		show("fish", x.Answer.Sentence, err)
	}
	tr, err := maren.Analysis.EstimateTrouble(t.Context(), &freshetv1.EstimateTroubleRequest{SystemId: sys})
	for _, x := range tr.GetAnswers() {
		show("trouble", x.Sentence, err)
	}
	sow, err := maren.Analysis.SuggestSowing(t.Context(), &freshetv1.SuggestSowingRequest{SiteId: site})
	show("sow", sow.GetSentence(), err)
	for _, x := range sow.GetSuggestions() {
		fmt.Println(x.Answer.Sentence, x.SeedsCount, x.BearsFromOn, x.BearsToOn)
	}
	fmt.Println(sow.GetCautions())
	br, err := maren.Analysis.ForecastBearing(t.Context(), &freshetv1.ForecastBearingRequest{SiteId: site})
	for _, x := range br.GetWindows() {
		show("bear", x.Answer.Sentence, err)
	}
	la, err := maren.Analysis.GetLarder(t.Context(), &freshetv1.GetLarderRequest{SiteId: site})
	show("larder", la, err)
	for m := range freshetv1.PoolMeasure_name {
		if m == 0 {
			continue
		}
		c, err := maren.Pool.CompareSites(t.Context(), &freshetv1.CompareSitesRequest{Measure: freshetv1.PoolMeasure(m), SiteId: site})
		show("compare "+freshetv1.PoolMeasure(m).String(), c.GetSentence(), err)
		for _, x := range c.GetSites() {
			fmt.Println(x.Name, x.AsRecorded.GetValue(), x.Pulled.GetValue(), x.Pulled.GetLow(), x.Pulled.GetHigh(), x.RankLow, x.RankHigh, x.Completeness, x.Days)
		}
		fmt.Println(c.GetLeftOut(), c.GetOwnSoil().GetSentence())
	}
	j, err := maren.Analysis.JudgeRemedy(t.Context(), &freshetv1.JudgeRemedyRequest{SystemId: sys, RegisterName: "neem oil", MassG: 5})
	show("remedy", j, err)
	ls, err := maren.Analysis.ListSeries(t.Context(), &freshetv1.ListSeriesRequest{SystemId: sys, Quantity: tanQ, Points: 20})
	show("series", len(ls.GetPoints()), err)
}

const tanQ = freshetv1.Quantity_QUANTITY_TOTAL_AMMONIA
