// Package quantity holds units as types, the conversions between them, and
// what is known of every quantity that a grower measures.
//
// Inside husbandry everything is SI or the trade's metric unit. US customary
// units and the bases of test kits live only at the edges, and this package is
// the edge: it reads what a person typed ("<0.25 ppm as NH3"), keeps it as it
// was typed, and gives the canonical value beside it.
//
// Two bases of one substance are two types. A kit that reads ammonia as NH3
// and a criterion that counts it as nitrogen differ by a fifth, nitrate as the
// ion and as nitrogen by a factor of 4.4, and such slips have turned safe water
// into unsafe water and back. Mixing two bases therefore does not compile, and
// at the edge a missing basis is an error and never a guess.
//
//	source                                             function
//	IUPAC, abridged standard atomic weights 2021       WeightN and its neighbours; AmmoniaNH3.N, NitrateIon.N, HardnessCaCO3.GH
//	BIPM, SI brochure, 9th edition; NIST SP 811        Convert; Fahrenheit.Celsius, USGallons.Litres and the like
//	UNESCO EOS-80 (Millero & Poisson 1981)             SpecificGravity.Salinity, SeaWaterDensity
//	Thimijan & Heins 1983, HortScience 18:818-822      Lux.PhotonFlux
//	how growers and kits write                         ParseMeasure, ParseUnit, ParseBasis
//	common practice, no source                         Quantity.Plausible, Quantity.Usual
//
// A value flows like this:
//
//	m, err := quantity.ParseMeasure("78F")
//	celsius, err := m.Canonical(quantity.WaterTemperature)
package quantity
