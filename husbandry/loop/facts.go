package loop

import "freshet.example/husbandry/formula"

const (
	fao2nd    = "FAO TP 589, second hand"
	uviSystem = "UVI commercial aquaponic system"
)

// facts are single published figures of how loops are built.
var facts = []formula.Fact{
	{Quantity: "turnover wanted", Given: "density=high", Low: 2, High: 2, Unit: "1/h", Source: fao2nd, Title: "How often an hour should the water go round?", Caution: BackupCaution},
	{Quantity: "turnover wanted", Given: "density=low", Low: 1, High: 1, Unit: "1/h", Source: fao2nd},
	{Quantity: "NFT flow", Low: 1, High: 2, Unit: "L/min", Source: fao2nd, Title: "How much water does each pipe of a film system need?"},
	{Quantity: "raft canal depth", Low: 30, High: 30, Unit: "cm", Source: fao2nd, Title: "How deep is a raft canal?"},
	{Quantity: "raft retention", Given: "system=FAO", Low: 1, High: 4, Unit: "h", Source: fao2nd, Title: "How long should water stay in a raft canal?"},
	{Quantity: "raft retention", Given: "system=UVI", Low: 3, High: 3, Unit: "h", Source: uviSystem},
	{Quantity: "clarifier retention", Given: "system=UVI", Low: 20, High: 20, Unit: "min", Source: uviSystem, Title: "How long does water stay in the Virgin Islands unit's clarifier?", Caution: SludgePitCaution},
	{Quantity: "void fraction", Given: "media=gravel", Low: 0.4, High: 0.4, Unit: "fraction", Source: "trade rule, from memory", Title: "What share of a gravel bed is water?", Caution: OverflowCaution},
	{Quantity: "Hazen-Williams C", Given: "material=plastic", Low: 140, High: 150, Source: "Hazen-Williams, as in handbooks", Title: "How smooth is a plastic pipe, by Hazen and Williams?", Caution: OversizeCaution},
	{Quantity: "stocking by gallons, novice", Given: "tank=plain", Low: 0.25, High: 0.25, Unit: "lb/gal", Source: mississippi, Title: "How many pounds of fish to a gallon may a novice keep?", Caution: BackupCaution},
	{Quantity: "stocking by gallons, novice", Given: "tank=with oxygen", Low: 0.5, High: 1, Unit: "lb/gal", Source: mississippi},
}

const mississippi = "Mississippi State Ext., Tilapia in Mississippi"
