// Package signs looks through what was read of a loop for what nobody noted: a
// probe that sticks, falls silent or drifts, a unit typed wrongly, a pump that
// stands, a heater that fails, a filter that cannot follow, a pH that slides,
// fish that eat less or die. A sign is a question to the grower, never a repair:
// no reading is changed.
//
// Look asks for all kinds of signs at once. A sign is told where what is read lies
// farther from what the loop's own past leads one to expect than chance would
// leave it, and far enough to matter; both bounds stand beside the code of each
// kind. Each kind rests on this:
//
//	source                                              Look's signs of Kind
//	oxygen's balance of breathing (Boyd) and stirring   StillPump, Foul
//	quartiles of what the water was kept at             Cooling
//	median and its spread, of logarithms (Hampel 1974)  WeakFilter
//	Poisson counts, by chance.PoissonCDF                Dying
//	order of words, median of those before              Hungerless
//	Mann 1945, by watch.MannKendall                     Sliding
//	Page 1954, by watch.RunningSums                     Adrift, Foul
//	factors of units and bases, by package quantity     Misread, Outlier
//	least squares of two levels, by watch.OneBreak      Shifted
//	runs of equal readings, Feller 1968, ch. XIII       Stuck
//	usual gaps between readings                         Silent
//	common practice, no source                          how far off matters
//
// How often signs come where nothing is wrong, and how soon planted faults are
// found, is measured by make alarms.
package signs
