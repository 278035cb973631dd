// Package outlook moves a loop of water through time and says what it will do
// next, with intervals that keep their word.
//
//	source                                               function
//	Bateman 1910, by matrix exponential                  Chain
//	Monod 1949                                           Saturating
//	Michaelis & Menten 1913, by Lambert's W              Left
//	Newton's cooling under a daily sine                  DailyTank
//	Evensen 1994; Burgers et al. 1998                    Learn, Ahead
//	Taylor, Cumberland & Sy 1994, restricted likelihood  Kin, Prospect
package outlook
