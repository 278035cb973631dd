// Package trial compares few beds, tanks or weeks honestly: the interval
// first, the chance second, and a refusal where the numbers cannot tell.
//
//	source                                              function
//	Welch 1947; Satterthwaite 1946                      Welch, the default for two means
//	Student 1908; Fisher 1925                           Pooled, Paired, OneWay
//	Schuirmann 1987                                     Equivalent
//	Cohen 1988; Hedges 1981                             CohenD, HedgesG
//	Mann & Whitney 1947, exact given the ties           MannWhitneyExact, MannWhitneyNormal
//	Wilcoxon 1945, exact given the ties                 SignedRank
//	Hodges & Lehmann 1963                               HodgesLehmann, HodgesLehmannPaired
//	Fisher 1935; Pitman 1937                            PermuteMeans, PermuteSigns
//	Fieller 1954                                        Fieller; LogRatio and GeometricRatio beside it
//	Welch 1951; Kruskal & Wallis 1952                   WelchOneWay, KruskalWallis
//	Tukey 1953; Kramer 1956; Dunnett 1955               Tukey, Dunnett
//	Fisher 1935; Yates 1933                             Factorial, Adjusted
//	noncentral t                                        BedsNeeded, Power, Detectable
//	Wilson 1927; Clopper & Pearson 1934 and others      Wilson, ClopperPearson, Jeffreys, MidP
//	Newcombe 1998; Fisher 1935; Katz et al. 1978        ShareDifference, Fisher, RiskRatio
//	Garwood 1936; Przyborowski & Wilenski 1940          Rate, RateRatio
//	Kaplan & Meier 1958; Greenwood 1926; Mantel 1966    KaplanMeier, LogRank
//	Hyndman & Fan 1996                                  Quantile
//
// Fish in one tank are not independent of each other, nor are plants in one
// bed: what was drawn by lot (the tank, the bed) is what counts as one value.
//
// Quantities that go by one name differ between programs; each function says
// which definition it has. Two-sided for a relabelling is the difference as
// large on either side, not twice the smaller tail; U is that of x, not the
// smaller of the two; the odds ratio is the conditional one, not ad/bc; the
// interval of a shift has the confidence that its steps allow, and says so.
//
// It is one of five packages of statistics: chance (distributions), trial,
// pool (partial pooling of sites), fit (curves by least squares) and watch
// (readings through time); together they would have been one package of eighty
// files.
package trial
