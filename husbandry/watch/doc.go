// Package watch looks at readings through time: has something changed, is
// there a trend, what comes next, and was the last forecast any good.
//
//	source                                        function
//	Shewhart 1931                                 Individuals
//	Roberts 1959                                  EWMA
//	Page 1954                                     CUSUM
//	Hampel 1974; Iglewicz & Hoaglin 1993          MAD, ModifiedZ
//	Theil 1950; Sen 1968                          TheilSen
//	Mann 1945; Kendall 1938                       MannKendall
//	Pettitt 1979                                  Pettitt
//	least squares; Jackson et al. 2005            OneBreak, Segments
//	Brown 1959; Holt 1957; Winters 1960           Simple, Holt, HoltWinters
//	Hyndman et al. 2002                           ETS
//	definitions                                   Naive, Drift, Rolling, MASE
//	Gneiting & Raftery 2007; Baran & Lerch 2015   CRPSNormal, CRPSLogNormal, Pinball, IntervalScore
//
// Readings of water follow one another closely; charts made for independent
// values then signal too often. Watch what is left after the daily and
// seasonal course is taken out, or ask for more before believing a signal.
//
// It is one of five packages of statistics; package trial names the others.
package watch
