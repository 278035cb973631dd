// Package chance holds the distributions of probability that the comparisons
// of trials, the pooling of sites and the watching of readings rest on.
//
// As in package math, the functions are total: asked outside its domain a
// function answers NaN (a probability above one, degrees of freedom of zero),
// and the packages that take a grower's numbers refuse those first with a
// quantity.RangeError, as Formulas here does. Degrees of freedom may be
// fractions: Welch's comparison needs them so, and rounding them is wrong.
//
//	source                                         function
//	definition, error function of package math     NormalCDF, NormalSurvival, NormalDensity
//	Wichura 1988, AS 241, then Newton's method      NormalQuantile
//	Abramowitz & Stegun 1964, 6.5.29 and 6.5.31    GammaCDF, GammaSurvival
//	Abramowitz & Stegun 1964, 26.5.8               BetaCDF
//	Abramowitz & Stegun 1964, 26.7.1 with 26.5.27  TCDF, TSurvival, TQuantile
//	Abramowitz & Stegun 1964, 26.6.2               FCDF, FSurvival, FQuantile
//	Abramowitz & Stegun 1964, 26.4.19              ChiSquaredCDF, ChiSquaredSurvival, ChiSquaredQuantile
//	definition, by quadrature                      NoncentralTCDF, StudentizedRangeCDF, DunnettCDF
//	definitions                                    BinomialCDF, PoissonCDF, HypergeometricCDF
//
// It stands apart from packages trial, pool, fit and watch because all four
// ask it.
package chance
