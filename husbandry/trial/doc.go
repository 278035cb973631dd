// Package trial compares few beds, tanks or weeks honestly: the interval
// first, the chance second, and a refusal where the numbers cannot tell.
//
//	source                                        function
//	Welch 1947; Satterthwaite 1946                Welch
//	Student 1908; Fisher 1925                     Pooled, Paired
//	Hyndman & Fan 1996                            Quantile
//	Wilson 1927                                   Wilson
//	noncentral t                                  BedsNeeded, Power
//
// Fish in one tank are not independent of each other, nor are plants in one
// bed: what was drawn by lot (the tank, the bed) is what counts as one value.
//
// It is one of five packages of statistics: chance (distributions), trial,
// pool (partial pooling of sites), fit (curves by least squares) and watch
// (readings through time); together they would have been one package of forty
// files.
package trial
