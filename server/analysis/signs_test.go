package analysis

import (
	"math"
	"testing"
	"time"

	"github.com/google/uuid"

	"freshet.example/husbandry/quantity"
	"freshet.example/husbandry/signs"
	"freshet.example/store"
)

// oneLoop is a loop watched for so many hours until 12:00 on 25 November, in UTC.
func oneLoop(hours int) *watched {
	system := uuid.New()
	place := &site{Picture: &store.Picture{Cohorts: []store.Cohort{{Name: "Perch", SystemID: system}}}, zone: time.UTC}
	w := &watched{loop: &loop{place, store.System{ID: system}}, from: time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC).Add(-time.Duration(hours) * time.Hour)}
	w.record = signs.Record{Hours: make([]signs.Hour, hours), Probe: map[quantity.Quantity][]float64{}, Tests: map[quantity.Quantity][]signs.Test{}}
	return w
}

// Probes that fell silent in the same hour have one cause and are one sign.
func TestProbesThatFellSilentTogetherAreOneSign(t *testing.T) {
	const hours, quiet = 200, 7
	w := oneLoop(hours)
	for _, q := range []quantity.Quantity{quantity.WaterTemperature, quantity.Acidity, quantity.Conductivity} {
		series := make([]float64, hours)
		for h := range series {
			series[h] = 7 + float64(h%7)
			if h >= hours-quiet || q == quantity.Conductivity && h >= hours-quiet-3 {
				series[h] = math.NaN()
			}
		}
		w.record.Probe[q] = series
	}
	list, err := w.look(t.Context())
	if err != nil || len(list) != 2 {
		t.Fatalf("%v, %v", list, err)
	}
	for i, want := range []string{"2 probes have said nothing since 04:00: water temperature, pH.", "The conductivity probe has said nothing since 01:00."} {
		if got := list[i].GetAnswer().GetSentence(); got != want {
			t.Errorf("%q", got)
		}
	}
}

// Each kind is said with its figures, when it began, and what to do.
func TestSignsAreSaidInWords(t *testing.T) {
	const hours = 1008
	w := oneLoop(hours)
	typed := quantity.Measure{Digits: 90, Unit: quantity.UnitMgPerL, Basis: quantity.AsN}
	w.record.Tests[quantity.Nitrate] = []signs.Test{{Hour: 900, Value: 90, Typed: typed}}
	ion := quantity.Measure{Unit: quantity.UnitMgPerL, Basis: quantity.AsNO3}
	for want, s := range map[string]signs.Sign{
		"Oxygen fell to 3.1 mg/L where 6.0 is usual, since 10:00: so it falls when pump or air stand.":                                                               {Kind: signs.StillPump, Quantity: quantity.DissolvedOxygen, Since: hours - 2, Is: 3.1, Was: 6},
		"The water is 24.6 degC and falling, since 09:00; it was kept at 25.5.":                                                                                      {Kind: signs.Cooling, Quantity: quantity.WaterTemperature, Since: hours - 3, Is: 24.6, Was: 25.5},
		"Total ammonia is 1.5 mg/L as N, since yesterday 22:00; 0.20 was usual: as if the filter could not follow.":                                                  {Kind: signs.WeakFilter, Quantity: quantity.TotalAmmonia, Since: hours - 14, Is: 1.5, Was: 0.2},
		"Total ammonia is 1.2 mg/L as N, since 10:00; 0.20 was usual: as if the filter could not follow.":                                                            {Kind: signs.WeakFilter, Quantity: quantity.TotalAmmonia, Since: hours - 2, Is: 1.2, Was: 0.2},
		"5 of Perch died within three days; by their record it would be 0.1.":                                                                                        {Kind: signs.Dying, Count: 5, Is: 5, Was: 0.1},
		`The fish's appetite is noted as "slow", usually as "keen", in water no colder.`:                                                                             {Kind: signs.Hungerless, Quantity: quantity.Appetite, Is: 1, Was: 3},
		"pH slid from 7.2 to 6.6, since 29 October.":                                                                                                                 {Kind: signs.Sliding, Quantity: quantity.Acidity, Since: hours - 27*24 - 12, Is: 6.6, Was: 7.2},
		"The pH probe reads 0.3 more than your tests, since 20 November; before, no other.":                                                                          {Kind: signs.Adrift, Quantity: quantity.Acidity, Since: hours - 130, Is: 0.3, Was: 0.01},
		"Oxygen reads 0.4 mg/L less than this loop's fish and warmth would make it, and more so each day since 20 November: the probe drifts, or less air comes in.": {Kind: signs.Foul, Quantity: quantity.DissolvedOxygen, Since: hours - 130, Is: 6, Was: 6.4},
		"One test of nitrate on 21 November stands at 90 mg/L as N; before, 20. Had it been mg/L as NO3, it would be 20. Was it that?":                               {Kind: signs.Misread, Quantity: quantity.Nitrate, Since: 900, Until: 900, Count: 1, Is: 90, Was: 20, As: ion},
		"3 tests of nitrate from 21 November to 22 November stand at 90 mg/L as N; before, 9.0. With the point moved it would be 9.0. Did it slip?":                  {Kind: signs.Misread, Quantity: quantity.Nitrate, Since: 900, Until: 930, Count: 3, Is: 90, Was: 9, Times: 0.1},
		"Nitrite of 0.80 mg/L as N on 21 November stands alone between tests of about 0.10. Was it read right?":                                                      {Kind: signs.Outlier, Quantity: quantity.Nitrite, Since: 900, Is: 0.8, Was: 0.1},
		"Conductivity stands at 730 uS/cm since 20 November; before, at 600.":                                                                                        {Kind: signs.Shifted, Quantity: quantity.Conductivity, Since: hours - 130, Is: 730, Was: 600},
		"The pH probe says 7.21 and nothing else, since 20 November.":                                                                                                {Kind: signs.Stuck, Quantity: quantity.Acidity, Since: hours - 130, Is: 7.21},
		"Nitrite was last tested 9 days ago; usually it is tested every 2 days.":                                                                                     {Kind: signs.Silent, Quantity: quantity.Nitrite, Hand: true, Is: 9*24 + 5, Was: 48},
	} {
		a := w.words(s)
		if a.GetSentence() != want || len(a.GetCautions()) != 1 || a.GetSource() == "" || a.GetStanding() < watch {
			t.Errorf("%v: %q, %v", s.Kind, a.GetSentence(), a)
		}
	}
}
