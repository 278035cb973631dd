// Package remedy answers what a substance put on plants, or into the water, does
// to the fish that live in that water, to the filter and to the plants.
//
// In a loop every spray ends in the fish tank. What drips from the leaves is
// diluted by the loop's volume, and the diluted amount is set against the lowest
// lethal concentration published for fish. An LC50 is the concentration that
// kills half of them in the time named: it is a disaster, not a dose, and being
// some way below it does not say that nothing happens. So no answer of this
// package calls anything harmless: it gives a margin in words and names the
// species, and where nothing is published it says "not known".
//
// The label of the product and the local law come before every number here.
// Lethal concentrations move with the water: copper kills at a fiftieth of the
// amount in soft water, formalin and permanganate in warm water, pyrethrins in
// acid water. Where sources print different thresholds for the same bath, they
// stand beside each other under their own names.
//
//	source                                       function
//	abstracts of toxicity tests, see the rows    Tests, Lowest
//	labels, extension texts, trade practice      Substances, Find
//	arithmetic                                   Dilution, Judge, Mass
//	US EPA levels of concern (from memory)       Concern
//	pond rule alkalinity/100, and its doubters   CopperSulfateRule, CopperRuleMargin
//	molar masses                                 CopperIn
//	UF/IFAS, FDA table, Gaikowski et al. 1999    Baths
//	FDA CVM Appendix 11 (from memory)            Withdrawals
//	J Aquat Anim Health 2009 21:8-13             FlorfenicolDepletion
package remedy
