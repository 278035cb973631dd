package husbandry

import (
	"regexp"
	"testing"
)

// harmful are formulas whose misuse could kill fish or hurt people: what is
// dosed, fed, stocked, breathed, heated, flooded, plugged in, sprayed, canned.
var harmful = regexp.MustCompile(`^(` +
	`water\.(uia_[cf].*|nh3_.*|ammonia_.*|.*_at_ammonia_limit|do_.*|co2_[cfw].*|base_.*|alkalinity_from_base|ph_after.*|chlor.*|salt_.*|thiosulfate.*|iron_dose|dose_.*|tolerance_range)` +
	`|fish\.(.*ration.*|feed_(from|per).*|oxygen_.*|aeration.*|carbon_dioxide.*|stocking_.*|load_.*|loop_capacity|harvest_density|flow_index.*|hours_to_.*|tank_time.*` +
	`|species_(lethal|feeding|oxygen|unionized|density).*|published_.*(lethal|survival_range|survival_after|lt50|critical|tolerated|torpor|die_below|feeding_rate|feed_pct|oxygen).*|rainbow_trout_daily_feed|trout_feed.*)` +
	`|nitrogen\.(biofilter_.*|fao_.*|tan_.*|feed(ing)?_(from|rate).*|media_.*|nitrification_(oxygen|alk).*|solids.*)` +
	`|loop\.(drain.*|siphon.*|timer.*|backup.*|battery.*|cooling.*|daily_energy|duty_point|friction.*|fitting.*|makeup.*|settler.*|water_(power|warming).*|.*heat_loss.*)` +
	`|outlook\.(daily_tank|flooded_bed).*` +
	`|crop\.(deficiency_.*|lamp_light)` +
	`|remedy\..*)$`)

// asks is an everyday question for formulas of the pantry, whose cautions come
// with every answer.
var asks = map[string]map[string]string{
	"safety_boil": {"altitude_ft": "500"}, "low_acid_limit": {}, "boiling_water_raw_whole_tomatoes": {"altitude_ft": "500", "jar": "quart"},
	"lemon_juice_acidification": {"jar": "quart"}, "citric_acid_acidification": {"jar": "quart"}, "herb_storage": {},
}

func TestWhatCanHarmCarriesItsCaution(t *testing.T) {
	matched := 0
	for _, entry := range Catalogue() {
		if !harmful.MatchString(entry.Room + "." + entry.Name) {
			continue
		}
		matched++
		if len(entry.Cautions) == 0 {
			t.Errorf("%s.%s carries no caution", entry.Room, entry.Name)
		}
	}
	if matched < 180 {
		t.Errorf("only %d formulas are looked at", matched)
	}
	for name, typed := range asks {
		entry, _ := Find(name)
		if answer, err := entry.Ask(typed); err != nil || len(answer.Cautions) == 0 {
			t.Errorf("%s answers with the cautions %q (%v)", name, answer.Cautions, err)
		}
	}
}
