package fish

import "freshet.example/husbandry/quantity"

// These keep the rows of the species table on few lines.

func celsius(v quantity.Celsius, source string) Sourced[quantity.Celsius] {
	return Sourced[quantity.Celsius]{v, source}
}

func oxygen(v quantity.MgPerL, source string) Sourced[quantity.MgPerL] {
	return Sourced[quantity.MgPerL]{v, source}
}

func ammonia(v quantity.AmmoniaN, source string) Sourced[quantity.AmmoniaN] {
	return Sourced[quantity.AmmoniaN]{v, source}
}

func ratio(v float64, source string) Sourced[float64] { return Sourced[float64]{v, source} }

// faoDensity is what small loops are advised to hold, whatever the species.
var faoDensity = Sourced[KilogramsPerM3]{20, faoStock}
