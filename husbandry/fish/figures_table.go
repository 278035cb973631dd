package fish

// Sources of single figures.
const (
	batch      = "Recirculating-system symposium proceedings, one commercial tilapia batch (32 % protein feed)"
	srac283    = "SRAC 283 Tank Culture of Tilapia, Table 1, from memory"
	srac283txt = "SRAC 283 text (copy)"
	srac454    = "SRAC 454 (Rakocy et al. 2006), from memory"
	hofer      = "Hofer, Drackett & Watts abstract (GMT tilapia)"
	seafwa     = "SEAFWA 1967, Heat tolerance of channel catfish (abstract)"
	nevada     = "Nevada DEP thermal tolerance draft 2015"
	souza      = "Souza et al. 2015, Acta Sci. Anim. Sci. 37(2):103-108 (abstract)"
	maranhao   = "Souza & Maranhao, Acta Sci. Anim. Sci. 23:897-901 (abstract)"
	sagana     = "J. Applied Aquaculture 2012 24:342-348 (abstract)"
	hapa       = "Lake-based nursery rearing of Nile tilapia in hapas, scirp 71447 (abstract)"
	geothermal = "Tilapia culture in geothermal waters, IJAVA 2015 8(1):1-6 (abstract)"
	redTrial   = "Int. J. Aquaculture 2015 5(12), red tilapia feeding-rate trial (abstract)"
	uviNursery = "UVI nursery page (copy)"
	tilapiaCut = "tilapia processing trial (abstract)"
	gift       = "Rahmatullah, Das & Rahmatullah, Suitable stocking density of tilapia in an aquaponic system (abstract)"
	hyper      = "Gullian-Klanian & Aramburu-Adame 2013, Lat. Am. J. Aquat. Res. 41(1):150-162 (abstract)"
	cooled     = "gradual cooling of Nile tilapia strains (abstract)"
	tidwell    = "Tidwell 1999 as cited by NCRAC"
	fao71      = "FAO TP 589 Table 7.1, second hand"
	srac464    = "SRAC 464"
	azolla     = "azolla-diet pond trial (abstract)"
	timmons    = "Timmons & Ebeling, from memory"
	cutthroat  = "journal abstract, Snake River cutthroat density study"
)

var figures = [...]figure{
	// Trials.
	{"harvest weight Nile tilapia, 24-week cohort", "stock_per_m3=77;tank_m3=7.8", 813.8, 813.8, "g", uvi},
	{"harvest weight red tilapia, 24-week cohort", "stock_per_m3=154;tank_m3=7.8", 512.5, 512.5, "g", uvi},
	{"survival Nile tilapia", "cohort=UVI", 98.3, 98.3, "%", uvi},
	{"survival red tilapia", "cohort=UVI", 89.9, 89.9, "%", uvi},
	{"FCR Nile tilapia", "cohort=UVI", 1.7, 1.7, "kg/kg", uvi},
	{"FCR red tilapia", "cohort=UVI", 1.8, 1.8, "kg/kg", uvi},
	{"stocking weight Nile tilapia UVI", "cohort=UVI", 79.2, 79.2, "g", srac454},
	{"stocking weight red tilapia UVI", "cohort=UVI", 58.8, 58.8, "g", srac454},
	{"nursery end weight UVI", "W0_g=1;days=84", 50, 50, "g", uviNursery},
	{"mean weight at day", "batch=9000 tilapia stocked;day=0", 0.45, 0.45, "g", batch},
	{"mean weight at day", "batch=9000 tilapia stocked;day=28", 5.2, 5.2, "g", batch},
	{"mean weight at day", "batch=9000 tilapia stocked;day=84", 58.3, 58.3, "g", batch},
	{"mean weight at day", "batch=9000 tilapia stocked;day=172", 232.2, 232.2, "g", batch},
	{"mean weight at day", "batch=9000 tilapia stocked;day=271", 550, 550, "g", batch},
	{"specific growth rate lake hapa fingerlings", "density_per_m3=400", 3.28, 3.28, "%/d", hapa},
	{"FCR lake hapa fingerlings", "density_per_m3=400", 1.42, 1.42, "kg/kg", hapa},
	{"survival geothermal pond", "stocked=10000", 87, 87, "%", geothermal},
	{"harvest per tank Nile tilapia UVI", "cohort=UVI", 480, 480, "kg", srac454},
	{"harvest per tank red tilapia UVI", "cohort=UVI", 551, 551, "kg", srac454},
	{"survival hyper-intensive nursery", "density_per_m3=400-600", 89.5, 93.6, "%", hyper},
	{"survival GIFT coupled system", "density_per_m3=106-177", 96, 99, "%", gift},
	{"FCR GIFT coupled system", "density_per_m3=106-177", 2.19, 2.69, "kg/kg", gift},
	{"end weight geothermal pond", "stocked=10000;months=10", 360, 360, "g", geothermal},
	{"harvest geothermal pond", "stocked=10000", 6000, 6000, "kg/ha", geothermal + ", as printed; its own figures give 6392"},
	{"weight taken by day 298", "batch=9000 tilapia stocked", 10532, 10532, "lb", batch},
	{"best feeding rate red tilapia", "W0_g=0.9", 5, 5, "% body wt/day", redTrial},
	{"stage: final weight", "density_per_m3=8000;W0_g=0.02;days=30;growth_g_per_day=-;feed_pct=20-15", 0.5, 1, "g", srac283},
	{"stage: final weight", "density_per_m3=3200;W0_g=0.5-1;days=30;growth_g_per_day=-;feed_pct=15-10", 5, 5, "g", srac283},
	{"stage: final weight", "density_per_m3=1600;W0_g=5;days=30;growth_g_per_day=0.5;feed_pct=10-7", 20, 20, "g", srac283},
	{"stage: final weight", "density_per_m3=1000;W0_g=20;days=30;growth_g_per_day=1.0;feed_pct=7-4", 50, 50, "g", srac283},
	{"stage: final weight", "density_per_m3=500;W0_g=50;days=30;growth_g_per_day=1.5;feed_pct=4-3.5", 100, 100, "g", srac283},
	{"stage: final weight", "density_per_m3=200;W0_g=100;days=50;growth_g_per_day=2.5;feed_pct=3.5-1.5", 250, 250, "g", srac283},
	{"stage: final weight", "density_per_m3=100;W0_g=250;days=70;growth_g_per_day=3.0;feed_pct=1.5-1.0", 450, 450, "g", srac283},
	{"expected mortality final grow-out (max)", "stage=growout", 2, 2, "%", srac283txt},
	{"expected mortality fry stage", "stage=fry", 20, 20, "%", srac283txt},
	{"cull at each grading", "", 10, 10, "%", srac283txt},

	// Temperatures of tilapia.
	{"lower lethal temperature tilapia, few days (low end)", "genus=Oreochromis", 50, 50, "degF", srac},
	{"lower lethal temperature tilapia, few days (high end)", "genus=Oreochromis", 52, 52, "degF", srac},
	{"blue tilapia tolerated minimum", "genus=Oreochromis", 48, 48, "degF", srac},
	{"tilapia stop feeding below", "genus=Oreochromis", 63, 63, "degF", srac},
	{"tilapia handling mortality below", "genus=Oreochromis", 65, 65, "degF", srac},
	{"tilapia no reproduction below", "genus=Oreochromis", 68, 68, "degF", srac},
	{"tilapia optimal growth (low end)", "genus=Oreochromis", 85, 85, "degF", srac},
	{"tilapia optimal growth (high end)", "genus=Oreochromis", 88, 88, "degF", srac},
	{"growth ratio optimum : 72 F", "species=tilapia", 3, 3, "ratio", srac},
	{"24-h survival after acute cold transfer from 28 C", "species=O. niloticus (5 g);T_C=16", 97, 97, "%", hofer},
	{"24-h survival after acute cold transfer from 28 C", "species=O. niloticus (5 g);T_C=14", 88, 88, "%", hofer},
	{"24-h survival after acute cold transfer from 28 C", "species=O. niloticus (5 g);T_C=12", 0, 0, "%", hofer},
	{"24-h LT50 cold, from 28 C", "species=O. niloticus (5 g)", 13, 13, "degC", hofer},
	{"tilapia no feeding or growth below", "species=tilapia", 17, 17, "degC", fao},
	{"tilapia die below", "species=tilapia", 12, 12, "degC", fao},
	{"tilapia brief extremes", "species=tilapia", 14, 36, "degC", fao},
	{"tilapia ideal temperature", "species=tilapia", 27, 30, "degC", fao},
	{"lethal temperature gradual cooling", "strain=GIFT", 8.4, 11, "degC", cooled},
	{"lethal temperature gradual cooling", "strain=others", 7.4, 7.4, "degC", cooled},

	// Temperatures of other fish.
	{"channel catfish optimal growth low", "stage=adult", 26, 26, "degC", habitat},
	{"channel catfish optimal growth high", "stage=adult", 29, 29, "degC", habitat},
	{"channel catfish poor growth below", "stage=adult", 21, 21, "degC", habitat},
	{"channel catfish no growth below", "stage=adult", 18, 18, "degC", habitat},
	{"channel catfish upper lethal", "acclimated_C=25", 33.5, 33.5, "degC", habitat},
	{"channel catfish upper lethal", "acclimated_C=26", 36.6, 36.6, "degC", seafwa},
	{"channel catfish upper lethal", "acclimated_C=30", 37.3, 37.3, "degC", seafwa},
	{"channel catfish upper lethal", "acclimated_C=34", 37.8, 37.8, "degC", seafwa},
	{"rainbow trout chronic thermal limit (EPA, Brungs & Jones 1977)", "stage=juvenile/adult;season=summer", 19, 19, "degC", nevada},
	{"rainbow trout optimum growth studies", "species=rainbow trout", 13.1, 19, "degC", nevada},
	{"rainbow trout upper optimum", "species=rainbow trout", 18.2, 22, "degC", nevada},
	{"rainbow trout upper lethal", "species=rainbow trout", 25, 25, "degC", memory},
	{"rainbow trout tolerated range", "species=rainbow trout", 10, 18, "degC", fao71},
	{"rainbow trout optimum", "species=rainbow trout", 14, 16, "degC", fao71},
	{"common carp weight at months", "months=2-3", 0.2, 0.3, "kg", affris},
	{"common carp weight at months", "months=5-7", 1, 1.2, "kg", affris},
	{"common carp weight at months", "months=10-14", 2.5, 3.5, "kg", affris},
	{"common carp grows above", "species=common carp", 18, 20, "degC", affris},
	{"barramundi temperature of max SGR", "size_g=3-5", 31.4, 31.4, "degC", katersky},
	{"barramundi temperature of max feed intake", "size_g=3-5", 32.8, 32.8, "degC", katersky},
	{"barramundi temperature of max protein efficiency", "size_g=3-5", 31.2, 31.2, "degC", katersky},
	{"barramundi temperature of max energy efficiency", "size_g=3-5", 30.2, 30.2, "degC", katersky},
	{"barramundi survival range", "species=barramundi", 16, 35, "degC", northern},
	{"yellow perch optimum growth low", "system=any", 23, 23, "degC", ncrac},
	{"yellow perch optimum growth high", "system=any", 25, 25, "degC", ncrac},
	{"yellow perch no growth below", "system=any", 10, 10, "degC", ncrac},
	{"yellow perch stress above", "system=any", 26, 26, "degC", ncrac},
	{"yellow perch stress above", "system=tanks", 21, 22, "degC", ncrac},
	{"yellow perch best of three temperatures", "temperatures=20/24/28", 24, 24, "degC", tidwell},
	{"silver perch optimum growth low", "", 23, 23, "degC", nsw},
	{"silver perch optimum growth high", "", 28, 28, "degC", nsw},
	{"silver perch torpor below", "", 10, 10, "degC", nsw},
	{"silver perch tolerated range", "", 2, 38, "degC", nsw},
	{"goldfish optimum temperature (aerobic scope)", "acclimated_C=12", 19.9, 19.9, "degC", scope},
	{"goldfish optimum temperature (aerobic scope)", "acclimated_C=20", 19.3, 19.3, "degC", scope},
	{"goldfish optimum temperature (aerobic scope)", "acclimated_C=28", 28.7, 28.7, "degC", scope},
	{"goldfish upper critical temperature", "acclimated_C=12", 37.2, 37.2, "degC", scope},
	{"goldfish upper critical temperature", "acclimated_C=28", 44.7, 44.7, "degC", scope},
	{"goldfish embryos lethal", "", 34, 34, "degC", scope},
	{"pond pH range", "", 6.5, 9, "pH", srac464},
	{"pond pH lethal", "", 5, 10, "pH", srac464},

	// Feeding.
	{"fry feeding rate first day of 30-day stage", "T_F=86;stage=fry", 20, 20, "% body wt/day", srac283txt},
	{"fry feeding rate day 30", "T_F=86;stage=fry", 15, 15, "% body wt/day", srac283txt},
	{"catfish winter ration", "T_F=55-65;interval=every other day", 1, 1, "% body wt", texas},
	{"catfish winter ration", "T_F=45-54;interval=twice a week", 1, 1, "% body wt", texas},
	{"catfish feeding rate", "stage=fry", 6, 10, "% body wt/day", affris},
	{"catfish feeding rate", "stage=fingerling", 2, 5, "% body wt/day", affris},
	{"catfish feeding rate", "stage=broodfish", 1, 2, "% body wt/day", affris},
	{"feed_pct_body_weight", "stage=grow-out", 1, 2, "% bw/d", "FAO TP 589 7.2-7.3"},
	{"oxygen_per_feed", "species=cutthroat trout;feed_pct_bw=1.3", 274, 274, "g O2 per kg feed", cutthroat},
	{"oxygen per feed of a whole loop", "user=fish", 0.25, 0.25, "kg/kg", timmons},
	{"oxygen per feed of a whole loop", "user=nitrification", 0.12, 0.12, "kg/kg", timmons},
	{"oxygen per feed of a whole loop", "user=heterotrophs", 0.13, 0.13, "kg/kg", timmons},
	{"oxygen per feed of a whole loop", "user=all", 0.5, 0.5, "kg/kg", timmons},
	{"oxygen rate while feeding", "species=cutthroat trout;feed_pct_bw=1.3", 167, 167, "mg/kg fish/h", cutthroat},

	// Cuts and bodies.
	{"Nile tilapia fillet yield", "W_g=300-400", 36.5, 36.5, "% live wt", maranhao},
	{"Nile tilapia fillet yield", "W_g=401-500", 36.84, 36.84, "% live wt", maranhao},
	{"Nile tilapia dress-out, Sagana strain", "W_g=434", 29.6, 29.6, "% live wt", sagana},
	{"Nile tilapia dress-out", "", 29.6, 33.1, "% live wt", sagana},
	{"Nile tilapia headless carcass yield", "", 78.18, 78.18, "% live wt", tilapiaCut},
	{"rainbow trout eviscerated yield", "W_g=300-370", 83, 83, "% live wt", souza},
	{"nitrogen retention", "", 25, 30, "%", memory},
	{"feed phosphorus not retained, azolla diet", "", 84.8, 87.8, "%", azolla},
	{"crude protein of eviscerated trout", "", 17.81, 17.81, "% wet wt", souza},
	{"crude protein of trout fillet", "", 19.05, 19.05, "% wet wt", souza},
}
