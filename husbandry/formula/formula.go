// Package formula describes computations so that they can be asked for by
// name: by a grower at the command line, over the network, on a phone, and by
// files of published check values.
//
// Each husbandry package lists its public functions as Formulas; package
// husbandry gathers the lists. A Formula adds words to a typed function, never
// arithmetic of its own.
//
//	what is asked                                    function
//	is this the formula that is meant                Formula.Matches
//	which inputs does a line of words hold           Parse, Grouped
//	what does it answer to them                      Formula.Ask, which gives an Answer
//	an input as a number, a range, a word, a list    Given.Float, Given.Band, Given.Word, Given.Numbers
//	an input outside its range or not to be read     RangeError, InputError
//	one Formula for each figure of a computation     Outputs
//	one Formula for each figure that stands alone    Facts, of a table of Fact
package formula

// A Formula is one computation that can be asked for by name.
type Formula struct {
	Name     string   // lower_snake, the name used in every layer: "uia_fraction"
	Title    string   // what it answers, one sentence as a grower would ask it
	Inputs   []Input  // in the order a person would give them
	Unit     string   // unit of the answer, empty for a pure number or words
	Source   string   // where it is published
	Range    string   // in words, where it is valid
	Cautions []string // what to beware of when acting on the answer
	Figures  Figures  // how finely people are shown the answer
	Also     []string // other names under which published check values ask for it

	// Work computes the answer. It reads its inputs from the Given.
	Work func(in *Given) (Answer, error)
}

// An Input is one value that a Formula needs.
type Input struct {
	Name    string   // lower_snake with its unit where it has one: "temperature_celsius"
	Meaning string   // what it is, in words
	Unit    string   // "degC", "mg/L as N"; empty for a pure number or words
	Low     float64  // lowest valid value, inclusive
	High    float64  // highest valid value, inclusive
	Default string   // what is taken when it is not given; empty: it must be given
	Choices []string // when the input is a word: the words allowed
	Also    []Alias  // other names, perhaps in other units, that people and check files use
}

// An Alias is another name of an input.
type Alias struct {
	Name   string
	Change func(float64) float64 // into the Input's unit; nil when the unit is the same
}

// An Answer is what a Formula gives back.
type Answer struct {
	Value    float64 // NaN when the answer is a range or words
	Low      float64 // with High: a published range or an interval; both NaN when there is none
	High     float64
	Text     string // the answer in words, where it is words
	Unit     string
	Source   string   // the source of this very answer, when it depends on the inputs
	Cautions []string // cautions that this very answer calls for
	Others   []Other  // what other published bases would say
}

// An Other is what another published basis gives for the same question.
type Other struct {
	Basis  string
	Value  float64
	Unit   string
	Source string
}
