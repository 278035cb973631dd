// Package pool pools sites fairly: a site with a short record is drawn towards
// the mean of all, as far as its own record leaves room, and every answer
// carries its interval. Between-site variance may come out as 0; then no
// difference between sites can be told, and none is shown.
//
//	source                                                  function
//	DerSimonian & Laird 1986; Paule & Mandel 1982; REML     Meta
//	Hartung & Knapp 2001; Sidik & Jonkman 2002              Summary.HKSJ
//	Higgins, Thompson & Spiegelhalter 2009                  Summary.Predict
//	Raudenbush & Bryk 1985                                  Summary.Shrink
//	Lin, Louis, Paddock & Ridgeway 2006                     Summary.Rank
//	Patterson & Thompson 1971                               RandomIntercept
//	Laird & Ware 1982                                       RandomSlopes
//	James & Stein 1961; Efron & Morris 1975                 JamesStein
//	Benjamini & Hochberg 1995                               Discoveries
//	Andersen 1977                                           Standardise
//	Gower 1971                                              Distance
//	Domingo-Ferrer & Torra 2005                             Alike
//
// It is one of five packages of statistics: chance (distributions), trial
// (comparisons of few beds), pool, fit (curves by least squares) and watch
// (readings through time); together they would have been one package of eighty
// files.
package pool
