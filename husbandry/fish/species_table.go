package fish

// Sources of the species table.
const (
	fao       = "FAO TP 589 ch. 7 (third-party copy)"
	faoMemory = "FAO TP 589 Table 7.1, from memory"
	faoWater  = "FAO TP 589 Tables 3.1 and 3.2"
	faoStock  = "FAO TP 589 p. 109, second hand"
	srac      = "SRAC tilapia fact sheet (Life history and biology)"
	uvi       = "Rakocy, Bailey, Shultz & Thoman, UVI aquaponic system (abstract)"
	ifas      = "IFAS FA-16: harm above 0.05 mg/L"
	coldUIA   = "trade text: potentially toxic at 0.02 mg/L"
	habitat   = "habitat suitability text (Shrable 1969; Chen 1976)"
	texas     = "Texas A&M AgriLife winter feeding note"
	chart     = "Leitritz & Lewis 1980, span of the feed chart"
	ncrac     = "NCRAC yellow perch white paper 2003"
	nsw       = "NSW DPI, Monitoring temperature"
	katersky  = "Katersky & Carter 2007, Aquaculture 272:444-450 (abstract)"
	northern  = "Northern Territory barramundi handbook, quoted"
	scope     = "Physiol. Biochem. Zool. 2014 87:599-611 (abstract)"
	carpEssay = "secondary essay on common carp"
	affris    = "FAO AFFRIS"
	memory    = "from memory"
	practice  = "common practice, no source"
)

var species = [...]Species{
	{
		Name: "Nile tilapia", Latin: "Oreochromis niloticus", Class: Warm,
		LethalLow: celsius(12, fao), FeedLow: celsius(17, fao), GrowthLow: celsius(17, fao),
		OptimumLow: celsius(27, fao), OptimumHigh: celsius(30, fao), FeedHigh: celsius(34, practice), LethalHigh: celsius(36, fao),
		OxygenMinimum: oxygen(4, faoWater), AmmoniaLimit: ammonia(0.05, ifas), Conversion: ratio(1.7, uvi), Density: faoDensity,
		rations: tilapiaRations[:],
	},
	{
		Name: "blue tilapia", Latin: "Oreochromis aureus", Class: Warm,
		LethalLow: celsius(8.9, srac+", 48 degF"), FeedLow: celsius(17, fao), GrowthLow: celsius(17, fao),
		OptimumLow: celsius(27, fao), OptimumHigh: celsius(30, fao), FeedHigh: celsius(34, practice), LethalHigh: celsius(36, fao),
		OxygenMinimum: oxygen(4, faoWater), AmmoniaLimit: ammonia(0.05, ifas), Conversion: ratio(1.7, uvi+", Nile tilapia"), Density: faoDensity,
		rations: tilapiaRations[:],
	},
	{
		Name: "red tilapia", Latin: "Oreochromis hybrid", Class: Warm,
		LethalLow: celsius(12, fao), FeedLow: celsius(17, fao), GrowthLow: celsius(17, fao),
		OptimumLow: celsius(27, fao), OptimumHigh: celsius(30, fao), FeedHigh: celsius(34, practice), LethalHigh: celsius(36, fao),
		OxygenMinimum: oxygen(4, faoWater), AmmoniaLimit: ammonia(0.05, ifas), Conversion: ratio(1.8, uvi), Density: faoDensity,
		rations: tilapiaRations[:],
	},
	{
		Name: "goldfish", Latin: "Carassius auratus", Class: Warm,
		LethalLow: celsius(0.5, memory), FeedLow: celsius(10, practice), GrowthLow: celsius(10, practice),
		OptimumLow: celsius(19.3, scope), OptimumHigh: celsius(28.7, scope), FeedHigh: celsius(32, practice), LethalHigh: celsius(37.2, scope),
		OxygenMinimum: oxygen(4, faoWater), AmmoniaLimit: ammonia(0.05, ifas), Conversion: ratio(2.0, practice), Density: faoDensity,
		rations: otherRations[:],
	},
	carp("common carp"),
	carp("koi"),
	{
		Name: "channel catfish", Latin: "Ictalurus punctatus", Class: Warm,
		LethalLow: celsius(5, faoMemory), FeedLow: celsius(winterLow.Celsius(), texas), GrowthLow: celsius(18, habitat),
		OptimumLow: celsius(26, habitat), OptimumHigh: celsius(29, habitat), FeedHigh: celsius(32, practice), LethalHigh: celsius(33.5, habitat),
		OxygenMinimum: oxygen(4, faoWater), AmmoniaLimit: ammonia(0.05, ifas), Conversion: ratio(1.8, practice), Density: faoDensity,
		rations: catfishRations[:],
	},
	{
		Name: "rainbow trout", Latin: "Oncorhynchus mykiss", Class: Cold,
		LethalLow: celsius(0.5, memory), FeedLow: celsius(chartLow.Celsius(), chart), GrowthLow: celsius(chartLow.Celsius(), chart),
		OptimumLow: celsius(14, faoMemory), OptimumHigh: celsius(16, faoMemory), FeedHigh: celsius(chartHigh.Celsius(), chart), LethalHigh: celsius(25, memory),
		OxygenMinimum: oxygen(6, faoWater), AmmoniaLimit: ammonia(0.02, coldUIA), Conversion: ratio(1.2, practice), Density: faoDensity,
	},
	{
		Name: "yellow perch", Latin: "Perca flavescens", Class: Cool,
		LethalLow: celsius(0.5, memory), FeedLow: celsius(10, ncrac), GrowthLow: celsius(10, ncrac),
		OptimumLow: celsius(23, ncrac), OptimumHigh: celsius(25, ncrac), FeedHigh: celsius(26, ncrac+", stress above"), LethalHigh: celsius(30, memory),
		OxygenMinimum: oxygen(5, practice), AmmoniaLimit: ammonia(0.02, coldUIA), Conversion: ratio(1.7, practice), Density: faoDensity,
		rations: otherRations[:],
	},
	{
		Name: "barramundi", Latin: "Lates calcarifer", Class: Warm,
		LethalLow: celsius(16, northern), FeedLow: celsius(20, practice), GrowthLow: celsius(20, practice),
		OptimumLow: celsius(30.2, katersky), OptimumHigh: celsius(32.8, katersky), FeedHigh: celsius(34, practice), LethalHigh: celsius(35, northern),
		OxygenMinimum: oxygen(4, faoWater), AmmoniaLimit: ammonia(0.05, ifas), Conversion: ratio(1.3, practice), Density: faoDensity,
		rations: otherRations[:],
	},
	{
		Name: "silver perch", Latin: "Bidyanus bidyanus", Class: Warm,
		LethalLow: celsius(2, nsw), FeedLow: celsius(10, nsw), GrowthLow: celsius(10, nsw),
		OptimumLow: celsius(23, nsw), OptimumHigh: celsius(28, nsw), FeedHigh: celsius(33, practice), LethalHigh: celsius(38, nsw),
		OxygenMinimum: oxygen(4, faoWater), AmmoniaLimit: ammonia(0.05, ifas), Conversion: ratio(1.8, practice), Density: faoDensity,
		rations: otherRations[:],
	},
}

// carp makes a row for the common carp; koi are carp bred for colour.
func carp(name string) Species {
	return Species{
		Name: name, Latin: "Cyprinus carpio", Class: Warm,
		LethalLow: celsius(4, faoMemory), FeedLow: celsius(10, practice), GrowthLow: celsius(18, affris),
		OptimumLow: celsius(23, carpEssay), OptimumHigh: celsius(30, carpEssay), FeedHigh: celsius(32, practice), LethalHigh: celsius(34, faoMemory),
		OxygenMinimum: oxygen(4, faoWater), AmmoniaLimit: ammonia(0.05, ifas), Conversion: ratio(2.0, practice), Density: faoDensity,
		rations: otherRations[:],
	}
}
