package nitrogen

import "freshet.example/husbandry/formula"

const fao2nd = "FAO TP 589, second hand"

// facts are single published figures of filters, feed and plants.
var facts = []formula.Fact{
	{
		Quantity: "FAO biofilter rate", Low: 0.57, High: 0.57, Unit: "g NH3/m2/d", Source: fao2nd,
		Title: "How much ammonia does FAO count on for each square metre of filter?", Caution: startUpCaution,
	},
	{
		Quantity: "FAO biofilter rate range", Low: 0.2, High: 2, Unit: "g NH3/m2/d", Source: "FAO TP 589, from memory",
		Title: "How widely do filters differ in the ammonia that a square metre takes?", Caution: startUpCaution,
	},
	{
		Quantity: "media bed stocking limit", Low: 15, High: 15, Unit: "kg/m3", Source: fao2nd,
		Title: "Above which stocking do media beds clog without another filter?", Caution: startUpCaution,
	},
	{
		Quantity: "feed ratios tested", Low: 56, High: 169, Unit: "g feed/m2/d", Source: "Al-Hafedh 2008, second hand",
		Title: "Which ratios of feed to plants were tried with tilapia?", Caution: ammoniaCaution,
	},
	{Quantity: "tilapia stocking tested", Low: 32, High: 44, Unit: "kg/m3", Source: "Al-Hafedh 2008, second hand", Title: "How densely were tilapia stocked in those trials?", Caution: startUpCaution},
	{Quantity: "FCR tested", Low: 1, High: 1.7, Unit: "kg/kg", Source: "Al-Hafedh 2008, second hand", Title: "How much feed did a kilogram of tilapia take in those trials?"},
	{
		Quantity: "stocking density", Given: "system=FAO", Low: 10, High: 20, Unit: "kg/m3", Source: fao2nd,
		Title: "How densely does FAO stock small units?", Caution: startUpCaution,
	},
	{Quantity: "plant area UVI", Low: 214, High: 214, Unit: "m2", Source: uviSystem, Title: "How large are the beds of the Virgin Islands unit?"},
	{Quantity: "system volume UVI", Low: 110, High: 110, Unit: "m3", Source: uviSystem, Title: "How much water holds the Virgin Islands unit?"},
}

const uviSystem = "UVI commercial aquaponic system"
