package main

import (
	"strconv"
	"strings"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/published"
	"freshet.example/husbandry/quantity"
)

// meant finds the input that a row means by a name which the formula does not
// know, and the value with the unit that the name carries: "temp_F=75.2" is
// "temperature_celsius=75.2degF". Where several or none could be meant, name
// and value stay as they are, and the formula refuses them.
func meant(f *formula.Formula, name, value string) (string, string) {
	if takes(f, name) {
		return name, value
	}
	if same := sameLetters(f, name); same != "" {
		return same, value
	}
	stem, unit := stemAndUnit(name)
	found := ""
	for _, in := range f.Inputs {
		if known, _ := stemAndUnit(in.Name); known != stem {
			continue
		}
		if found != "" {
			return name, value
		}
		found = in.Name
		if in.Unit != "" && unit == "" {
			found = known(in, stem)
		}
	}
	if found == "" {
		return alikeUnit(f, name, value)
	}
	return found, value + unit
}

// alikeUnit finds the input that a name means which carries another unit put
// together alike: "feed_kg_d" is "feed_g_d", a thousand times as much, and
// "exchange_pct" is "exchange_fraction".
func alikeUnit(f *formula.Formula, name, value string) (string, string) {
	v, err := strconv.ParseFloat(strings.TrimSpace(value), 64)
	for _, percent := range []string{"_pct", "_percent"} {
		if stem, found := strings.CutSuffix(name, percent); found && err == nil && takes(f, stem+"_fraction") {
			return stem + "_fraction", strconv.FormatFloat(v/100, 'g', -1, 64)
		}
	}
	theirs := strings.Split(name, "_")
	for _, in := range f.Inputs {
		for _, a := range append([]formula.Alias{{Name: in.Name}}, in.Also...) {
			ours := strings.Split(a.Name, "_")
			same := 0
			for same < min(len(ours), len(theirs)) && ours[same] == theirs[same] {
				same++
			}
			if err != nil || same == 0 || same == len(ours) || len(ours) != len(theirs) {
				continue
			}
			if factor, ok := published.Factor(strings.Join(theirs[same:], "/"), strings.Join(ours[same:], "/")); ok {
				return a.Name, strconv.FormatFloat(v*factor, 'g', -1, 64)
			}
		}
	}
	return name, value
}

// known is a name of the input without its unit, so that a bare number is
// asked for its unit.
func known(in formula.Input, stem string) string {
	short, _, _ := strings.Cut(in.Name, "_")
	if strings.HasPrefix(in.Name, stem+"_") {
		return stem
	}
	return short
}

// sameLetters finds a name that differs in case and in what stands between
// words only.
func sameLetters(f *formula.Formula, name string) string {
	found := ""
	for _, in := range f.Inputs {
		for _, a := range append([]formula.Alias{{Name: in.Name}}, in.Also...) {
			if !strings.EqualFold(plainName(a.Name), plainName(name)) {
				continue
			}
			if found != "" && found != a.Name {
				return ""
			}
			found = a.Name
		}
	}
	return found
}

// plainName leaves out what people write between words.
func plainName(name string) string {
	return strings.NewReplacer("_", "", "-", "", " ", "", ".", "").Replace(name)
}

// stems are words that people use for one another.
var stems = map[string]string{
	"temp": "temperature", "t": "temperature", "water_temp": "temperature", "water_temperature": "temperature", "water": "temperature",
	"vol": "volume", "tank_volume": "volume", "sal": "salinity", "alk": "alkalinity", "total_alkalinity": "alkalinity",
	"do": "oxygen", "dissolved_oxygen": "oxygen", "wt": "weight", "len": "length", "elev": "elevation", "altitude": "elevation",
	"press": "pressure", "lat": "latitude",
}

// stemAndUnit cuts the unit off a name: "temp_F" is temperature and degF,
// "volume_gal" volume and gal, "flow_l_min" flow and L/min.
func stemAndUnit(name string) (stem, unit string) {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return r == '_' || r == '-' || r == ' ' })
	for from := 1; from < len(words) && unit == ""; from++ {
		for _, spelt := range []string{strings.Join(words[from:], "/"), strings.Join(words[from:], "")} {
			if u, _, err := quantity.ParseUnit(strings.ReplaceAll(spelt, "/per/", "/")); err == nil && u != quantity.NoUnit {
				words, unit = words[:from], u.String()
				break
			}
		}
	}
	stem = strings.Join(words, "_")
	if other := stems[stem]; other != "" {
		stem = other
	}
	return stem, unit
}
