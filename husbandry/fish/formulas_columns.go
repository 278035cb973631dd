package fish

import "freshet.example/husbandry/quantity"

// The columns of the species table, for asking them by name.

func lethalLow(s Species) Sourced[quantity.Celsius]     { return s.LethalLow }
func feedLow(s Species) Sourced[quantity.Celsius]       { return s.FeedLow }
func growthLow(s Species) Sourced[quantity.Celsius]     { return s.GrowthLow }
func optimumLow(s Species) Sourced[quantity.Celsius]    { return s.OptimumLow }
func optimumHigh(s Species) Sourced[quantity.Celsius]   { return s.OptimumHigh }
func feedHigh(s Species) Sourced[quantity.Celsius]      { return s.FeedHigh }
func lethalHigh(s Species) Sourced[quantity.Celsius]    { return s.LethalHigh }
func oxygenMinimum(s Species) Sourced[quantity.MgPerL]  { return s.OxygenMinimum }
func ammoniaLimit(s Species) Sourced[quantity.AmmoniaN] { return s.AmmoniaLimit }
func conversion(s Species) Sourced[float64]             { return s.Conversion }
func guidance(s Species) Sourced[KilogramsPerM3]        { return s.Density }
