// Package water answers what is dissolved in the water of a loop and what it
// does to the fish: ammonia, oxygen, carbon dioxide, alkalinity, nitrite,
// chlorine, and the doses that change them.
//
// # Ammonia
//
// Fish and filter give and take total ammonia, but only its un-ionized part,
// NH3, crosses a gill. The share is set by pH and temperature: tenfold for each
// pH unit, about half as much again for each 5 degC. A reading that was
// harmless in the morning can kill at the afternoon peak of pH, so it is the
// peak that must be judged.
//
//	share = 1 / (1 + 10^(pKa - pH)),  pKa = 0.09018 + 2729.92/T
//
// This holds in pure water. Dissolved salts shield the ammonium ion, so that
// in a working loop (conductivity about 1 mS/cm) the plain formula reads 10 to
// 14 % high and in sea water 25 % high. That errs on the safe side; answers
// must not claim a third digit. UnionizedFractionIonic and
// UnionizedFractionSaline correct for it.
//
// # Carbon dioxide, alkalinity and pH
//
// Any two of the three give the third. Fish and filters breathe out carbon
// dioxide, which lowers pH; nitrification eats alkalinity, which lets pH fall
// for good. A base raises both at once: straight after the dose, with no gas
// lost (closed), and later when carbon dioxide has come back to what it was
// (open). Raising pH turns stored ammonium into NH3 within minutes, so a plan
// of doses states the NH3 that each step leads to.
//
// # Oxygen
//
// What water holds falls with warmth, salt and height. The pressure is that at
// the site, never the one that a weather report gives reduced to sea level.
//
//	source                                            function
//	Emerson, Russo, Lund & Thurston 1975              PKa, UnionizedFraction
//	Khoo, Culberson & Bates 1977                      UnionizedFractionSaline
//	Kielland 1937; Robinson & Stokes 1959             UnionizedFractionIonic, CarbonDioxideIonic
//	EPA-822-R-13-001 (2013)                           EPA2013AcuteSalmonid and its neighbours
//	EPA-822-R-99-014 (1999)                           EPA1999AcuteSalmonid and its neighbours
//	EPA-440/5-85-001 (1985), as of 1986               EPA1986AcuteSalmonid and its neighbours
//	Benson & Krause 1980, 1984; Standard Methods      OxygenSaturation
//	Standard atmosphere (ISO 2533)                    PressureAtElevation
//	Plummer & Busenberg 1982                          PK1, PK2, PKH, PKw, CarbonDioxide
//	FAO Fisheries Technical Paper 589                 Tolerance
//	SRAC, Purdue, Gutierrez et al. 2019               ChlorideRatioFor
//	University of the Virgin Islands                  IronTarget
//	atomic weights (IUPAC 2021)                       Bases, SaltForChloride, Hardness
//	Shapley 1953                                      Split
//	single published figures                          Formulas, by "published_" names
//
// The EPA criteria protect wild rivers with their mussels and trout. They are
// a yardstick for a loop and no limit of culture.
package water
