package water

// Cautions that answers carry. They are the trade's own, in our words.
const (
	cautionPeak      = "Judge at the afternoon peak of pH; 0.3 pH too low halves the answer."
	cautionBias      = "In a working loop the plain formula reads 10 to 14 % high, which errs on the safe side: do not rely on a third digit."
	cautionAct       = "Where ammonia shows at high pH, stop feeding and add water, and do not raise pH."
	cautionWild      = "A criterion for wild rivers, as total ammonia: a yardstick, not a limit of culture. Always name its year."
	cautionOxygen    = "Fish can die within minutes of oxygen failing: measure, and keep aeration on backup power."
	cautionStation   = "Use the pressure at the site, not the weather report's, which is reduced to sea level."
	cautionSimple    = "Leaving out the shielding by other ions, this reads 4 % high in soft water and 12 to 25 % in nutrient water."
	cautionHighPH    = "Above pH 8.4 carbonate and other bases take their share: a rough figure only."
	cautionBase      = "Strong bases burn eyes and skin: goggles and gloves; add base to water, never water to base; away from fish, slowly; then test again."
	cautionRise      = "Raising pH turns stored ammonium into NH3 within minutes: test ammonia first. A change of 0.3 pH within a day can harm or kill."
	cautionBasis     = "Trade ratios do not say whether nitrite counts as N or NO2; the larger dose is taken."
	cautionSalt      = "Salt harms strawberries and beans and never leaves a loop: a short rescue only. Calcium or potassium chloride spare the plants. Weigh it, and aerate."
	cautionIron      = "Keep iron from children. Too much chelate colours the water and can harm fish; follow the label."
	cautionChlorine  = "Chlorine kills fish and filter within hours. Standing or airing does not reliably remove chloramine: test total chlorine at nought before filling."
	cautionGuide     = "A guide, not a guarantee: watch the fish and measure."
	cautionChloramin = "Binding chloramine leaves its ammonia in the water."
)
