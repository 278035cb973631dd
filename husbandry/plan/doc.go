// Package plan lays out a season: what to sow where and when, so that each
// wanted crop bears week after week within the beds, the frost, the light and
// what the fish feed carries.
//
// It is a room of its own because it puts crops and feed together over a whole
// season and is little else than a search; package crop says how one planting
// behaves, and this package asks it.
//
// A plan comes with a bound that no plan can pass, so what a better plan could
// still gain is known and said.
//
//	source                                               function
//	Dantzig & Wolfe 1960; Dantzig & Orchard-Hays 1954    Lay: the best mixture
//	Fulkerson & Gross 1965                               Lay: one crop at given prices
//	Geoffrion 1974                                       Lay: the bound
//	Kim & Pardalos 1999                                  Lay: few sowings
//	common practice, no source                           Sow's yardstick
package plan
