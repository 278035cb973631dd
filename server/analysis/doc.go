// Package analysis answers growers' questions from stored records: is the water
// safe, why is it changing, how much to feed, where the nitrogen goes, what the
// loop can carry, when fish and beds are ready, what to sow.
//
// It reads records from the store, hands numbers to husbandry, and puts the
// answers into words. It holds no formulas of its own. Who may ask is decided
// before a call arrives here (package auth).
package analysis
