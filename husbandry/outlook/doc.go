// Package outlook moves a loop of water through time and says what it will do
// next, with intervals that keep their word.
//
// Two kinds of answer stand here. The first are small closed ones, for a
// question asked in a line. Nitrogen goes from ammonia to nitrite to nitrate: in
// a Chain each step is in proportion to what is there, which is fair where the
// water holds far less than the bacteria could take; a Saturating one has a
// greatest speed, and stalls where the feed brings more. A DailyTank follows
// the air a few hours late and swings less than it.
//
// The second is a whole loop, hour by hour: warmth, ammonia, nitrite, nitrate,
// alkalinity, pH, oxygen and the ammonia that harms. What decides them (how much
// a filter can turn, how fast water follows the air, what plants take) is
// measured by nobody. So Learn keeps many guesses at it, drawn from the ranges
// that the literature gives, and bends them towards each reading (an ensemble
// Kalman filter); Ahead lets them run on under a plan, each under weather of its
// own, and how far they lie apart is the interval. Otherwise changes a plan: half
// the feed, more fish, a pump that stands. How past forecasts from the same
// readings did widens or narrows what is said now, and Held counts it. The farther
// ahead, the less such a balance of guesses knows, and the more the forecast leans
// towards how the figure was in the last week; how far, and by how much guesses are
// drawn together or apart, is a table learnt from other loops (strays.csv).
//
// Growth is told from others of the kind: Kin learns a mean curve and how single
// ones leave it, and the Prospect of one that has only begun follows its own
// points as far as others' points have been a sign of what came.
//
//	source                                               function
//	Bateman 1910, by matrix exponential                  Chain.After, Chain.NitritePeak
//	Monod 1949                                           Saturating.After, Saturating.Steady
//	Dormand & Prince 1980                                Saturating.After, its steps
//	Michaelis & Menten 1913, by Lambert's W              Left
//	Newton's cooling under a daily sine                  DailyTank.After, DailyTank.Swing, DailyTank.PowerFor
//	Evensen 1994; Burgers et al. 1998                    Learn, Outlook.Ahead, Ahead.Fan, Ahead.Past
//	variance that one reading leaves (Kalman 1960)       Ahead.Narrowing
//	arithmetic                                           Otherwise.Plan, Outlook.Held, Ahead.Rising
//	Taylor, Cumberland & Sy 1994, restricted likelihood  LearnKin, Kin.Ahead, Prospect
//
// What the traits of a loop are taken for before anything is read stands with its
// source in the table of priors; several are common practice without one, and
// say so. An interval of 8 in 10 is passed once in five times, so a forecast is a
// reason to measure and never one to leave the water alone.
package outlook
