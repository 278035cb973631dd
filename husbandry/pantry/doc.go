// Package pantry turns a harvest into jars, bags and dried stores, and a wish
// for jars back into a harvest.
//
// Home canning kills when it goes wrong: the spores of Clostridium botulinum
// survive boiling water, and in a closed jar of low-acid food they make a poison
// that cannot be seen, smelled or tasted with safety. So two rules hold here.
// Every answer about canning is a Canning, which gives its value and the caution
// together and in no other way. And processing times come only from the public
// guide (USDA Complete Guide to Home Canning, AIB 539, and the National Center
// for Home Food Preservation), cell by cell: a food, jar or altitude that is not
// in our table is refused, never interpolated.
//
// Units are those the guide prints, because a cook with the guide open must find
// the same figures: pounds, quarts, feet, degrees Fahrenheit.
//
//	source                                 function
//	AIB 539, quantity paragraphs           Load, BushelWeight, QuartsPerBushel, PoundsPerQuart
//	arithmetic on those                    JarsFrom, ProduceFor
//	AIB 539, process tables                BoilingWater, DialGauge, WeightedGauge
//	AIB 539, acidification                 Acidify, IsLowAcid, LowAcidLimit
//	AIB 539, botulism text                 SafetyBoil, SterilisingTemperature, JarStorage
//	AIB 539, altitude table                BoilingPoint
//	Michigan State, extension texts        FrozenPints, Blanch, FreezerLife
//	University of Georgia; drying chart I  DriedFruitMonths, DriedMonths
//	So Easy to Preserve (from memory)      DriedWeight
//	NCHFP, herbs (from memory)             HerbDrying
//	single figures of the guides           Formulas, by "published_" names
package pantry
