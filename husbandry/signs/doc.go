// Package signs looks through what was read of a loop for what nobody noted: a
// probe that sticks, falls silent or drifts, a unit typed wrongly, a pump that
// stands, a heater that fails, a filter that cannot follow, a pH that slides,
// fish that eat less or die. A sign is a question to the grower, never a repair:
// no reading is changed.
//
//	source                                              function
//	runs of equal readings, Feller 1968, ch. XIII       stuck
//	Page 1954, by watch.RunningSums                     adrift, foul
//	oxygen's balance of breathing and stirring          stillPump, foul
//	Mann 1945, by watch.MannKendall                     slides
//	least squares of two levels, by watch.OneBreak      shifts
//	Poisson counts                                      dying
//
// How often signs come where nothing is wrong, and how soon planted faults are
// found, is measured by make alarms.
package signs
