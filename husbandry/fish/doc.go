// Package fish holds what is published about raising fish in tanks: how they
// grow with warmth, what they eat and breathe, how many a loop can carry, and
// how long they last when something fails.
//
// Fish are as warm as their water. Below one temperature they do not eat,
// between two they grow best, above another they die; a Species holds these
// with the source of each. Within hatchery temperatures the cube root of
// weight rises in a straight line with degree days (the thermal-unit growth
// coefficient); above the optimum growth falls again, so the bell-shaped
// GrowthResponse takes its place and is zero outside the feeding range.
//
// Feed is the load of the whole loop. Each kilogram takes oxygen, becomes
// ammonia and solids, and uses up alkalinity, so that every limit of a loop
// can be told as feed a day and, through the ration, as kilograms of fish;
// Capacity finds the one that binds. When the pump stops, the oxygen left in
// the tank lasts for minutes: of two estimates the shorter is always given.
//
// How long treated fish must wait before they are eaten stands in package
// remedy, beside what the medicine does to plants and filter.
//
//	source                                               -> function
//	thermal-unit growth coefficient (Iwama & Tautz 1981) -> GrowthCoefficient, WeightByHeat, IwamaTautz
//	Henderson 1975                                       -> GrowthWithKin
//	Yan & Hunt 1999                                      -> GrowthResponse
//	definitions                                          -> SpecificGrowthRate, DailyGain, FeedConversion, ...
//	von Bertalanffy, Gompertz, logistic                  -> Bertalanffy, Gompertz, Logistic
//	lognormal sizes within a cohort                      -> ShareAbove, WeightAtShare
//	Leitritz & Lewis 1980                                -> TroutRation
//	SRAC 283; FAO AFFRIS; Texas A&M AgriLife             -> RationPercent, CatfishWinterRation
//	Piper et al. 1982, Fish Hatchery Management          -> EnglishCondition, FlowIndexAt, LoadAt
//	FAO TP 589                                           -> StockingLimit
//	mass balance of oxygen                               -> OxygenMinutes, PumpStopMinutes
//	ASCE 2, oxygen transfer in clean water (from memory) -> Aeration
//	Newton's law of cooling                              -> HoursToTemperature
//	UVI trials                                           -> HarvestDensity, AnnualProduction
//	counts, deaths and moves                             -> Alive
//	single published figures                             -> Formulas, by "published_" names
package fish
