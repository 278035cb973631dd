package fish

import "freshet.example/husbandry/formula"

// A figure is one published number that stands for itself: the outcome of a
// trial, a temperature at which something was seen. Figures that disagree
// stand beside each other.
type figure struct {
	Quantity  string // what was measured, in words
	Given     string // under which conditions: "acclimated_C=30;stage=adult"
	Low, High float64
	Unit      string
	Source    string
}

// facts are the figures, each with the words in which it is asked.
var facts = func() []formula.Fact {
	all := make([]formula.Fact, len(figures))
	for i, f := range figures {
		words := figureWords[f.Quantity]
		all[i] = formula.Fact{Quantity: f.Quantity, Title: words.title, Given: f.Given, Low: f.Low, High: f.High, Unit: f.Unit, Source: f.Source, Caution: words.caution}
	}
	return all
}()
