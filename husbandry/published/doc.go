// Package published holds answers against figures that others have printed.
//
// A file of published figures has a row for each: which quantity, of which
// inputs, what was printed, within which tolerance, and by whom. Sources print
// in many ways, and this package reads them as a person would:
//
//	printed                          is taken as
//	0.0502, 1,5, 7.46e-05            a number
//	0.225 (prints 0.23)              the number; words in brackets are remarks
//	5.5-6.5, 30 to 60                a range; both ends must agree
//	<3, >=5                          a bound
//	~5, about 5                      the number; how near is for the tolerance
//	20 000, 1,234,567, 20,000        the number; a single comma may be either
//	5.02 %, 4 t                      the number, in that unit
//	0.7/1.05/0.95, 14 -> 0.5         figures in a row; each must agree
//	error, refused, out of range     that no answer may be given
//	anything else                    words, which must be the same words
//
//	tolerance                        is taken as
//	abs 0.01, 0.01, +- 0.01          so much on either side
//	rel 1%, rel 1e-8, 0.5 %          so great a part of the number
//	abs 0.02 or rel 1%               the wider of the two
//	exact, 0                         nothing but the last bits of the arithmetic
//	exact, 2 s.f.                    the same when both are rounded alike
//	rel 1e-3 (lower is fine)         also anything lower
//	range, approx, typical, none     the same digits as printed
//	other words with a figure        that figure, in percent or as it stands
//
// A wrong row is reported and never adapted to. Nothing here computes: the
// answers come from the formulas that a grower asks.
//
//	what is asked                                   function
//	does an answer agree with a row                 Judge, which gives a Verdict
//	is a row known to be wrong, and how so          DisputeOf, Disputes
//	which column of a file of data an input means   ParseReference, Reference.List, Columns
//	by what one unit becomes another                Factor
package published

// A Row is one published figure.
type Row struct {
	Quantity  string // what it is a figure of: the name of a formula, or another name it answers to
	Inputs    string // "name=value;name=value"
	Expected  string // as printed
	Unit      string // of what is printed
	Tolerance string
	Source    string // who printed it
	Tag       string // SEEN, MEMORY, DERIVED, TRAP ...
}
