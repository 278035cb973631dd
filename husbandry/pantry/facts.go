package pantry

import "freshet.example/husbandry/formula"

// facts are single figures of the public guides.
var facts = []formula.Fact{
	{Quantity: "low-acid process time", Given: "gauge_psig=10-15", Low: 20, High: 100, Unit: "min", Source: guide, Title: "How long do low-acid foods stay in a pressure canner?", Caution: CanningCaution},
	{Quantity: "botulinum toxin formation", Given: "T_F=40-120", Low: 3, High: 4, Unit: "days", Source: guide, Title: "How soon can poison form in a jar that was not canned right?", Caution: CanningCaution},
	{Quantity: "gauge pressure for 240 F", Given: "altitude_ft=0-1000", Low: 10.5, High: 10.5, Unit: "psi", Source: "Missouri Ext.", Title: "Which pressure makes 240 degF near sea level?", Caution: CanningCaution},
	{Quantity: "blanching water", Low: 1, High: 1, Unit: "gal/lb", Source: "extension freezing text", Title: "How much water do I blanch a pound in?", Caution: FreezingCaution},
	{Quantity: "dried vegetable storage", Given: "T_F=60", Low: 6, High: 6, Unit: "months", Source: "UGA Ext., Preserving Food: Drying, vegetables about half of fruit", Title: "How long do dried vegetables keep?", Caution: DryingCaution},
	{Quantity: "dried vegetable storage", Given: "T_F=80", Low: 3, High: 3, Unit: "months", Source: "UGA Ext., Preserving Food: Drying, vegetables about half of fruit"},
}
