// Package nitrogen follows nitrogen from the feed bag through fish, water,
// filter, plants and solids, and says what is left over.
//
// Feed is the only large source of nitrogen in a loop. Protein is 16 %
// nitrogen, so a kilogram of 32 % feed brings 51 g of it. The fish keep about
// a quarter; most of the rest leaves their gills as ammonia, some leaves as
// solids. Bacteria on wet surfaces turn the ammonia into nitrate, using oxygen
// and alkalinity. Plants take up ammonia and nitrate; water that is let go
// takes its share along; bacteria in airless corners turn nitrate into
// nitrogen gas, which nobody can weigh. That last part is known only as what
// is left when everything else has been counted: the unaccounted.
//
// Several published ways lead from feed to ammonia, and they do not agree.
// They are separate functions here, and the results of those that count NH3
// and those that count N have different types. The same holds for the
// figures of nitrification: a NitrificationBasis carries the numbers of one
// source only.
//
//	source                                               -> function
//	Timmons & Ebeling, PTAN = F x PC x 0.092             -> TANFromProtein
//	Ebeling slides, 0.03 kg TAN per kg feed              -> TANRuleOfThumb
//	FAO TP 589 Appendix 4                                -> AmmoniaFAO, FilterAreaFAO
//	Piper et al. 1982, Fish Hatchery Management, p. 25   -> TANInFlowFHM
//	protein is 16 % nitrogen (Jones 1931)                -> FeedN
//	Ebeling slides; EPA 1975; Ebeling et al. 2006        -> NitrificationBasis
//	FAO TP 589 Table 4.1 and trade figures               -> MediaByName, FilterVolume
//	Wortman & Wheaton 1991                               -> TemperatureFactor
//	University of the Virgin Islands raft trials         -> RaftRemoval
//	Rakocy 2007, Ten guidelines; FAO TP 589 ch. 8        -> RatioFor, PlantArea, FeedForArea
//	conservation of mass                                 -> Budget.Close
//	single published figures                             -> Formulas, by "published_" names
package nitrogen
