// Package crop knows how plants behave: how long they take, what they need,
// what they give, and what to sow when.
//
// A crop's calendar is driven by warmth. Days to harvest are a fair guess for
// one place and season; degree days, the warmth above a base temperature added
// up day by day, carry over from one season to the next. There are several ways
// to count them and they do not agree, so a sum here keeps its Rule: method,
// base and upper limit. Sums of two rules cannot be put together.
//
// Water use follows the sun. The FAO-56 chain goes from latitude and day to the
// sun above the air, to what reaches the ground, to what stays there as net
// radiation, and with the wind and the dryness of the air to the water that
// short grass gives off. A crop's coefficient turns grass into crop. All of it
// is for open ground; under cover see GreenhouseCaveat.
//
// The crop table (Crops) names the source of every figure. Where none is
// published it says "from memory" or "common practice, no source". Whole
// published tables stand beside it and are asked by the words of their rows.
//
// Planning is plain. A planting bears in a window; windows added up show weeks
// of gap and glut; a gap that only this week's sowing can close is a reason to
// sow now. The grower's own past plantings draw the window away from the books,
// the more the more there are.
//
// Days are numbers (Day), not clocks; temperatures are the air's unless said.
//
//	source                                            -> function
//	Iowa State Agronomy 541; Peet (NCSU) appendix 2   -> Rule.Day: SimpleMean, Modified
//	Baskerville & Emin 1969                           -> Rule.Day: SingleSine, SingleSineTo
//	Perry & Wehner 1996                               -> Rule.Day: CucumberHeat
//	Oregon State University; Peet; Delaware           -> HeatNeedOf, BaseTemperature
//	Ottoson (ISHS); University of Connecticut         -> Rule.SowingInterval
//	FAO-56 eq. 7 to 19                                -> SaturationVapourPressure ... VapourPressureFromWetBulb
//	FAO-56 eq. 21 to 34                               -> ExtraterrestrialRadiation, DaylightHours, HourAngle
//	FAO-56 eq. 35 to 52                               -> SolarRadiation ... NetLongwave, MonthlySoilHeat, Hargreaves
//	FAO-56 eq. 6, chapters 3 and 4                    -> Evapotranspiration, ReferenceEvapotranspiration
//	FAO-56 eq. 53, example 19                         -> ReferenceEvapotranspirationOfHour
//	FAO-56 Tables 11 and 12, eq. 58 to 66             -> StagesOf, CropCoefficientOf, CropEvapotranspiration
//	McCree 1972                                       -> DailyLight
//	FAO 589 appendix 1                                -> GuidelineFor
//	FAO 589; Rakocy and others 2004                   -> FeedRatio
//	NDSU H-912                                        -> MaturityOf
//	Midwest Vegetable Production Guide 2022           -> FieldYieldOf, ExpectedYield
//	Rakocy and others 2004 (UVI)                      -> LoopYieldOf
//	Maas 1990; FAO-61 annex 1                         -> SalinityToleranceOf, RelativeYield
//	Hoagland & Arnon 1950; FAO 589                    -> NutrientNeed
//	IPNI 4R manual; Green, Maloy & Capizzi            -> Suspects, DeficiencySigns
//	trials named with each                            -> CompanionsOf
//	Hyndman & Fan 1996, type 8                        -> LastFrost, FirstFrost, FrostChanceAfter
//	normal theory                                     -> Shrink, BearingWindow
//	NDSU H-912; degree days; ten hours of light       -> Pace, GoodDays
//	common practice, no source                        -> GapsAndGluts, SowThisWeek, StandsOpen, PollinationWarning
//	single published figures                          -> Formulas, by "published_" names
package crop
