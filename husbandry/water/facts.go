package water

import "freshet.example/husbandry/formula"

const (
	fa16        = "IFAS FA-16"
	fisheryText = "UK fishery-standard figures, second hand"
	fishClinic  = "Clinical Guide to Fish Medicine (copy)"
	pondText    = "pond text after SRAC"
)

// facts are single published figures that people hold their water against.
var facts = []formula.Fact{
	{
		Quantity: "ammonia threshold", Given: "effect=harm", Low: float64(HarmfulUnionized), High: float64(HarmfulUnionized), Unit: "mg/L NH3-N", Source: fa16,
		Title: "From how much poisonous ammonia are fish hurt?", Caution: cautionPeak,
	},
	{Quantity: "ammonia threshold", Given: "effect=deaths", Low: 2, High: 2, Unit: "mg/L NH3-N", Source: fa16},
	{Quantity: "ammonia threshold", Given: "effect=potentially toxic", Low: 0.02, High: 0.02, Unit: "mg/L NH3-N", Source: "trade text"},
	{Quantity: "ammonia threshold", Given: "effect=fishery standard", Low: 0.021, High: 0.05, Unit: "mg/L NH3-N", Source: fisheryText},
	{Quantity: "total ammonia threshold", Low: 1, High: 1, Unit: "mg/L", Source: "FAO TP 589 section 7.3", Title: "From how much total ammonia or nitrite is water called toxic?", Caution: cautionPeak},
	{Quantity: "CO2 target", Low: 20, High: 20, Unit: "mg/L", Source: fishClinic, Title: "Below how much carbon dioxide should I stay?", Caution: cautionGuide},
	{Quantity: "CO2 tolerated with oxygen near saturation", Low: 20, High: 30, Unit: "mg/L", Source: fishClinic, Title: "How much carbon dioxide do fish bear where oxygen is plenty?", Caution: cautionGuide},
	{Quantity: "alkalinity desirable", Given: "system=pond", Low: 75, High: 200, Unit: "mg/L as CaCO3", Source: pondText, Title: "What alkalinity should my water have?", Caution: cautionRise},
	{Quantity: "alkalinity least", Given: "for=productivity", Low: 20, High: 20, Unit: "mg/L as CaCO3", Source: pondText, Title: "What alkalinity does my water need at least?", Caution: cautionRise},
	{Quantity: "alkalinity least", Given: "for=nitrifiers", Low: 40, High: 40, Unit: "mg/L as CaCO3", Source: "thesis after US EPA 1975"},
	{Quantity: "oxygen least", Given: "fish=warm-water", Low: 5, High: 5, Unit: "mg/L", Source: "NMSU Circular 680", Title: "How much oxygen do fish need at least?", Caution: cautionOxygen},
	{Quantity: "oxygen least", Given: "fish=cold-water", Low: 6.5, High: 6.5, Unit: "mg/L", Source: "NMSU Circular 680"},
	{Quantity: "oxygen least", Given: "fish=most", Low: 4, High: 5, Unit: "mg/L", Source: "FAO TP 589 section 7.3.3"},
	{Quantity: "iron wanted", Low: 1, High: 2, Unit: "mg/L", Source: "FAO TP 589, as quoted", Title: "How much iron should the water hold in the first months?", Caution: cautionIron},
	{Quantity: "nitrate in drinking water, limit", Low: 10, High: 10, Unit: "mg/L as N", Source: "drinking-water standards", Title: "How much nitrate may drinking water hold?", Caution: "Water of a loop is not for drinking, whatever its nitrate."},
}
