// Package husbandry gathers the computations of its rooms, so that each can be
// asked for by name. Everything under it is pure: values in, values out, no
// clock, files, network or database, so that the same code answers on the
// server, in the command line and on a phone without signal.
//
// Where a question lives:
//
//	ammonia, oxygen, carbonate, nitrite, dosing    water
//	feed to fish to water to plants; the budget    nitrogen
//	growth, ration, stocking, time to trouble      fish
//	growing time, yield, succession, water use     crop
//	turnover, floods, settling, pipes, pump, heat  loop
//	what may touch a plant over fish water         remedy
//	what a harvest becomes in jars and bags        pantry
//	what to sow where and when, all season         plan
//	comparing few beds; what a trial says          trial
//	comparing sites                                pool
//	noticing that a reading is odd                 watch
//	what a loop's readings show that nobody noted  signs
//	fitting curves; probabilities                  fit, chance
//	units, bases, conversions                      quantity
//	answers held against what others printed       published
//	the loop through time                          outlook
//
// Each room lists its functions as Formulas, with the source and the valid
// range on each; HusbandryService.ListFormulas lists them all. Units and their
// conversions are in quantity, the words around a formula in formula.
package husbandry
