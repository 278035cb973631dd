package words

import (
	"strings"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/quantity"
)

// saidFor are everyday names of quantities, beside the contract's own.
var saidFor = map[string]string{
	"temp": "water_temperature", "temperature": "water_temperature", "water_temp": "water_temperature",
	"air": "air_temperature", "air_temp": "air_temperature", "outside": "air_temperature",
	"acidity": "ph", "ammonia": "total_ammonia", "tan": "total_ammonia", "nh3": "total_ammonia", "nh4": "total_ammonia",
	"ammonium": "total_ammonia", "no2": "nitrite", "no3": "nitrate", "oxygen": "dissolved_oxygen", "do": "dissolved_oxygen",
	"saturation": "oxygen_saturation", "do_sat": "oxygen_saturation", "kh": "alkalinity", "carbonate_hardness": "alkalinity",
	"gh": "hardness", "general_hardness": "hardness", "ec": "conductivity", "tds": "conductivity", "salt": "salinity",
	"co2": "carbon_dioxide", "fe": "iron", "po4": "phosphate", "phosphorus": "phosphate", "k": "potassium",
	"ca": "calcium", "mg": "magnesium", "par": "light", "ppfd": "light", "lux": "light", "rh": "humidity",
	"barometer": "pressure", "feeding_response": "appetite", "turbidity": "clarity",
}

// FindQuantity finds a quantity by the contract's name, an everyday name, or
// the beginning of one that nothing else begins with.
func FindQuantity(text string) (freshetv1.Quantity, error) {
	name := Snake(text)
	if full, ok := saidFor[name]; ok {
		name = full
	}
	if v, ok := freshetv1.Quantity_value["QUANTITY_"+strings.ToUpper(name)]; ok && v != 0 {
		return freshetv1.Quantity(v), nil
	}
	var begun []freshetv1.Quantity
	for v := freshetv1.Quantity(1); v.Descriptor().Values().ByNumber(v.Number()) != nil; v++ {
		if name != "" && strings.HasPrefix(QuantityName(v), name) {
			begun = append(begun, v)
		}
	}
	if len(begun) == 1 {
		return begun[0], nil
	}
	return 0, problem("", unknownName, "\""+text+"\" is no quantity known here", "one of "+strings.Join(Quantities(), ", "))
}

// Quantities lists the contract's names of quantities.
func Quantities() []string {
	var names []string
	for v := freshetv1.Quantity(1); v.Descriptor().Values().ByNumber(v.Number()) != nil; v++ {
		names = append(names, QuantityName(v))
	}
	return names
}

// QuantityName is the contract's name in lower case: "total_ammonia".
func QuantityName(q freshetv1.Quantity) string {
	return strings.ToLower(strings.TrimPrefix(q.String(), "QUANTITY_"))
}

// Known is the quantity as husbandry knows it; UnknownQuantity for one of a
// later release.
func Known(q freshetv1.Quantity) quantity.Quantity {
	known, err := quantity.ParseQuantity(QuantityName(q))
	if err != nil {
		return quantity.UnknownQuantity
	}
	return known
}

// Snake turns what is typed into a name as the contract writes it:
// "Filter cleaned" into "filter_cleaned".
func Snake(text string) string {
	return strings.ToLower(strings.Join(strings.FieldsFunc(text, func(r rune) bool {
		return r == ' ' || r == '-' || r == '_' || r == '\t'
	}), "_"))
}

// QuantityCalled finds a quantity by a whole name only: what a header begins
// with is no promise.
func QuantityCalled(text string) (freshetv1.Quantity, bool) {
	name := Snake(text)
	if full, ok := saidFor[name]; ok {
		name = full
	}
	v, ok := freshetv1.Quantity_value["QUANTITY_"+strings.ToUpper(name)]
	return freshetv1.Quantity(v), ok && v != 0
}
