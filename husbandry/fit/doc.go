// Package fit lays curves through points by least squares: straight models,
// growth curves, and growth curves that differ among individuals.
//
//	source                                              function
//	Gram-Schmidt, each column cleaned twice             LeastSquares, StraightLine
//	Levenberg 1944; Marquardt 1963                      Fit
//	Verhulst 1838; Gompertz 1825; von Bertalanffy 1938  Logistic, Gompertz, VonBertalanffy
//	Richards 1959; Michaelis & Menten 1913              Richards, MichaelisMenten
//	Nelder & Mead 1965                                  Minimise
//	Lindstrom & Bates 1990                              LogisticAmong
//
// A curve through a short record may fit well and still say nothing of the
// final size: Fitted.Determined tells, and where it says no a final size must
// not be shown. Going back from a logarithm or a cube root gives the median of
// what is to come, not its mean.
//
// It is one of five packages of statistics; package trial names the others.
package fit
