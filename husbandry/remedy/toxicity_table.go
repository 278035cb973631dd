package remedy

const (
	catfishCopper = "Acute toxicity of copper sulfate and chelated copper to channel catfish (abstract)"
	straus        = "Straus 2003 Aquaculture 219:233-240 (abstract)"
	linPerch      = "Lin et al. 2003 J. Taiwan Fish. Res. 11:47"
	linEel        = "Lin 2012 J. Taiwan Fish. Res. 20:25 (abstract)"
	hinton        = "Hinton, SEAFWA (abstract)"
	soaps         = "Acute toxicity of soaps to estuarine fishes (abstract), 23 g/kg salt"
	detergent     = "Acute toxicity of an ABS detergent to estuarine fishes (abstract), 20 g/kg salt"
	liquidSoaps   = "Braz. J. Aquat. Sci. Technol. 17:35 (2013, abstract)"
	mauck         = "Mauck, Olson & Marking, natural pyrethrins and five pyrethroids (abstract), six species, 12 degC"
	salako        = "Salako et al. 2020 Scientific African 9:e00504 (abstract)"
	wipfli        = "Wipfli et al. 1994 CJFAS 51:1451 (abstract); from the formulation, not the toxin"
	btiThesis     = "thesis on Bti and four water animals (abstract)"
	formalinLabel = "approved formalin label, after Bills et al. 1977 and 1993"
	therapeutants = "Toxicity of hydrogen peroxide and formalin in Nile tilapia (abstract), fish of 75 g"
	spinosadData  = "spinosad registration data (from memory)"
	tilapiaCopper = "Waterborne copper sulfate toxicity in Nile tilapia, 2022 (abstract)"
	extoxnet      = "EXTOXNET, sulfur dust"
)

// tests: each row as printed by its source.
var tests = []Test{
	{"copper", "channel catfish", 96, 0.05, 0.05, MilligramPerL, false, 16, 0, catfishCopper},
	{"copper", "channel catfish", 96, 0.73, 0.73, MilligramPerL, false, 76, 0, catfishCopper},
	{"copper", "channel catfish", 96, 0.95, 0.95, MilligramPerL, false, 127, 0, catfishCopper},
	{"copper", "channel catfish", 96, 0.98, 0.98, MilligramPerL, false, 240, 0, catfishCopper},
	{"copper", "blue tilapia", 96, 0.18, 0.18, MilligramPerL, false, 16, 0, straus},
	{"copper", "blue tilapia", 96, 0.69, 0.69, MilligramPerL, false, 57, 0, straus},
	{"copper", "blue tilapia", 96, 6.61, 6.61, MilligramPerL, false, 112, 0, straus},
	{"copper", "blue tilapia", 96, 43.06, 43.06, MilligramPerL, false, 225, 0, straus},
	{"copper sulfate", "silver perch", 96, 2.12, 2.12, MilligramPerL, false, 0, 20, linPerch},
	{"copper sulfate", "silver perch", 96, 1.07, 1.07, MilligramPerL, false, 0, 30, linPerch},
	{"copper sulfate", "marbled eel elvers", 96, 3.90, 3.90, MilligramPerL, false, 0, 20, linEel},
	{"copper sulfate", "marbled eel elvers", 96, 3.06, 3.06, MilligramPerL, false, 0, 30, linEel},
	{"copper sulfate", "nile tilapia", 96, 6.96, 6.96, MilligramPerL, false, 0, 0, tilapiaCopper},

	{"pyrethrins", "six species, coho salmon to yellow perch", 96, 24.6, 114, MicrogramPerL, false, 0, 12, mauck},
	{"pyrethroids", "six species, coho salmon to yellow perch", 96, 0.110, 1140, MicrogramPerL, false, 0, 12, mauck},
	{"pyrethroids", "guppy, cypermethrin", 96, 27.07, 27.07, MicrogramPerL, false, 0, 0, salako},
	{"pyrethroids", "guppy, deltamethrin", 96, 31.51, 31.51, MicrogramPerL, false, 0, 0, salako},
	{"pyrethroids", "guppy, lambda-cyhalothrin", 96, 81.83, 81.83, MicrogramPerL, false, 0, 0, salako},

	{"azadirachtin product", "common carp 14.2 g", 96, 1.19, 1.19, MilligramPerL, false, 0, 0, "Persian Gulf Univ. abstract, product of 10 g/L azadirachtin"},
	{"azadirachtin", "rainbow trout", 96, 0.48, 0.48, MilligramPerL, false, 0, 0, "EPA/EXTOXNET data (from memory)"},
	{"neem oil", "Tilapia mossambica", 120, 0.12, 0.12, MillilitrePerL, false, 0, 0, "Bakthavathsalam, Environ. Ecol. 21:864 (abstract)"},
	{"neem oil", "zebrafish", 96, 0.22, 0.22, MillilitrePerL, false, 0, 0, "Maranho et al. 2014 JAST 16:105, formulation"},

	{"household soap", "mummichog soap L", 96, 1540, 1540, MilligramPerL, false, 0, 20, soaps},
	{"household soap", "mummichog soap I", 96, 750, 750, MilligramPerL, false, 0, 20, soaps},
	{"household soap", "mullet soap L", 96, 580, 580, MilligramPerL, false, 0, 0, soaps},
	{"household soap", "silverside soap L", 96, 790, 790, MilligramPerL, false, 0, 0, soaps},
	{"detergent", "silverside", 96, 7.0, 7.0, MilligramPerL, false, 0, 20, detergent},
	{"detergent", "eel", 96, 7.5, 7.5, MilligramPerL, false, 0, 20, detergent},
	{"detergent", "winter flounder", 96, 8.2, 8.2, MilligramPerL, false, 0, 20, detergent},
	{"detergent", "mullet", 96, 10.1, 10.1, MilligramPerL, false, 0, 20, detergent},
	{"detergent", "mummichog", 96, 22.5, 22.5, MilligramPerL, false, 0, 20, detergent},
	{"liquid soap", "guppy, first soap", 96, 0.062, 0.062, MillilitrePerL, false, 0, 0, liquidSoaps},
	{"liquid soap", "guppy, second soap", 96, 0.085, 0.085, MillilitrePerL, false, 0, 0, liquidSoaps},

	{"Bti", "brown and brook trout alevins", 48, 1561, 2321, MilligramPerL, false, 0, 0, wipfli},
	{"Bti", "nile tilapia", 96, 4036, 4036, MilligramPerL, false, 0, 0, btiThesis},
	{"Bti", "guppy", 96, 5346, 5346, MilligramPerL, false, 0, 0, btiThesis},
	{"spinosad", "rainbow trout", 96, 30, 30, MilligramPerL, false, 0, 0, spinosadData},
	{"spinosad", "bluegill", 96, 5.94, 5.94, MilligramPerL, false, 0, 0, spinosadData},
	{"spinosad", "carp", 96, 5, 5, MilligramPerL, false, 0, 0, spinosadData},
	{"sulfur", "bluegill and rainbow trout", 96, 180, 180, MilligramPerL, true, 0, 0, extoxnet},

	{"hydrogen peroxide", "nile tilapia", 96, 314.6, 314.6, MilligramPerL, false, 0, 0, therapeutants},
	{"potassium permanganate", "American eel (glass eel)", 96, 3.06, 3.06, MilligramPerL, false, 0, 22, hinton},
	{"potassium permanganate", "silver perch", 96, 2.13, 2.13, MilligramPerL, false, 0, 20, linPerch},
	{"potassium permanganate", "silver perch", 96, 1.97, 1.97, MilligramPerL, false, 0, 30, linPerch},
	{"potassium permanganate", "marbled eel elvers", 96, 1.75, 1.75, MilligramPerL, false, 0, 20, linEel},
	{"potassium permanganate", "marbled eel elvers", 96, 1.65, 1.65, MilligramPerL, false, 0, 30, linEel},
	{"salt", "American eel (glass eel)", 96, 17.88, 17.88, GramPerL, false, 0, 22, hinton},
	{"salt", "silver barb", 96, 13.92, 13.92, GramPerL, false, 0, 0, "Progress. Agric. 20:193 (2009)"},
	{"salt", "goldfish 39.5 g", 96, 10.96, 10.96, GramPerL, false, 0, 0, "IASJ abstract aId=90258, abrupt"},

	{"formalin", "American eel (glass eel)", 96, 83.96, 83.96, MilligramPerL, false, 0, 22, hinton},
	{"formalin", "silver perch", 96, 112.81, 112.81, MilligramPerL, false, 0, 20, linPerch},
	{"formalin", "silver perch", 96, 84.71, 84.71, MilligramPerL, false, 0, 30, linPerch},
	{"formalin", "marbled eel elvers", 96, 146.44, 146.44, MilligramPerL, false, 0, 20, linEel},
	{"formalin", "marbled eel elvers", 96, 131.46, 131.46, MilligramPerL, false, 0, 30, linEel},
	{"formalin", "nile tilapia", 96, 231.2, 231.2, MilligramPerL, false, 0, 0, therapeutants},
	{"formalin", "rainbow trout", 3, 1230, 1230, MicrolitrePerL, false, 0, 0, formalinLabel},
	{"formalin", "rainbow trout", 96, 100, 100, MicrolitrePerL, false, 0, 0, formalinLabel},
	{"formalin", "channel catfish", 3, 495, 495, MicrolitrePerL, false, 0, 0, formalinLabel},
	{"formalin", "channel catfish", 96, 65.8, 65.8, MicrolitrePerL, false, 0, 0, formalinLabel},
	{"formalin", "bluegill", 3, 2290, 2290, MicrolitrePerL, false, 0, 0, formalinLabel},
	{"formalin", "bluegill", 96, 100, 100, MicrolitrePerL, false, 0, 0, formalinLabel},
	{"formalin", "largemouth bass", 6, 1030, 1030, MicrolitrePerL, false, 0, 0, formalinLabel},
	{"formalin", "largemouth bass", 96, 143, 143, MicrolitrePerL, false, 0, 0, formalinLabel},
	{"formalin", "striped bass", 6, 940, 940, MicrolitrePerL, false, 0, 0, formalinLabel},
	{"formalin", "striped bass", 96, 30, 30, MicrolitrePerL, false, 0, 0, formalinLabel},
}
