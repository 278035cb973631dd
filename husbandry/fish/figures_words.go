package fish

// said is what a person asks to be told a figure, and the caution it carries,
// empty where it does no harm to be mistaken in it.
type said struct{ title, caution string }

// figureWords holds the words of each quantity in the table of figures.
var figureWords = map[string]said{
	"harvest weight Nile tilapia, 24-week cohort": {"How heavy were the Nile tilapia of a research loop after 24 weeks?", ""},
	"harvest weight red tilapia, 24-week cohort":  {"How heavy were the red tilapia of a research loop after 24 weeks?", ""},
	"survival Nile tilapia":                       {"How many of a research loop's Nile tilapia lived to harvest?", ""},
	"survival red tilapia":                        {"How many of a research loop's red tilapia lived to harvest?", ""},
	"FCR Nile tilapia":                            {"How much feed did a kilogram of Nile tilapia take in a research loop?", ""},
	"FCR red tilapia":                             {"How much feed did a kilogram of red tilapia take in a research loop?", ""},
	"stocking weight Nile tilapia UVI":            {"How heavy were the Nile tilapia that a research loop stocked?", ""},
	"stocking weight red tilapia UVI":             {"How heavy were the red tilapia that a research loop stocked?", ""},
	"nursery end weight UVI":                      {"How heavy were a research loop's tilapia at the end of the nursery?", ""},
	"mean weight at day":                          {"How heavy was one commercial batch of tilapia after so many days?", ""},
	"specific growth rate lake hapa fingerlings":  {"How many percent a day did tilapia fingerlings grow in lake hapas?", ""},
	"FCR lake hapa fingerlings":                   {"How much feed did a kilogram of fingerlings take in lake hapas?", ""},
	"survival geothermal pond":                    {"How many tilapia lived to harvest in a geothermal pond?", ""},
	"best feeding rate red tilapia":               {"At which ration did red tilapia fry grow best?", feedCaution},
	"stage: final weight":                         {"How heavy are tilapia at the end of this stage of tank culture?", stockCaution},
	"expected mortality final grow-out (max)":     {"How many tilapia die at most in the final grow-out?", ""},
	"expected mortality fry stage":                {"How many tilapia die as fry?", ""},
	"cull at each grading":                        {"How many tilapia are culled at each grading?", ""},

	"lower lethal temperature tilapia, few days (low end)":           {"At which cold do tilapia die within a few days, at the lowest?", coldCaution},
	"lower lethal temperature tilapia, few days (high end)":          {"At which cold do tilapia die within a few days, at the highest?", coldCaution},
	"blue tilapia tolerated minimum":                                 {"What cold do blue tilapia bear?", coldCaution},
	"tilapia stop feeding below":                                     {"Below which temperature do I stop feeding tilapia?", feedCaution},
	"tilapia handling mortality below":                               {"Below which temperature does handling kill tilapia?", coldCaution},
	"tilapia no reproduction below":                                  {"Below which temperature do tilapia not spawn?", ""},
	"tilapia optimal growth (low end)":                               {"From which temperature do tilapia grow best?", ""},
	"tilapia optimal growth (high end)":                              {"Up to which temperature do tilapia grow best?", ""},
	"growth ratio optimum : 72 F":                                    {"How many times faster do tilapia grow at their best temperature than at 72 degF?", ""},
	"24-h survival after acute cold transfer from 28 C":              {"How many young tilapia live through a day of sudden cold?", coldCaution},
	"24-h LT50 cold, from 28 C":                                      {"At which sudden cold do half of young tilapia die within a day?", coldCaution},
	"tilapia no feeding or growth below":                             {"Below which temperature do tilapia neither feed nor grow?", feedCaution},
	"tilapia die below":                                              {"Below which temperature do tilapia die?", coldCaution},
	"tilapia brief extremes":                                         {"Which extremes do tilapia bear for a short time?", coldCaution},
	"tilapia ideal temperature":                                      {"Which temperature suits tilapia best?", ""},
	"channel catfish optimal growth low":                             {"From which temperature do channel catfish grow best?", ""},
	"channel catfish optimal growth high":                            {"Up to which temperature do channel catfish grow best?", ""},
	"channel catfish poor growth below":                              {"Below which temperature do channel catfish grow poorly?", ""},
	"channel catfish no growth below":                                {"Below which temperature do channel catfish not grow?", ""},
	"channel catfish upper lethal":                                   {"At which heat do channel catfish die, by the warmth they are used to?", coldCaution},
	"rainbow trout chronic thermal limit (EPA, Brungs & Jones 1977)": {"What warmth do rainbow trout bear for long?", coldCaution},
	"rainbow trout optimum growth studies":                           {"At which temperatures did studies see rainbow trout grow best?", ""},
	"rainbow trout upper optimum":                                    {"Up to which temperature did studies see rainbow trout do well?", ""},
	"common carp grows above":                                        {"Above which temperature do common carp grow?", ""},
	"barramundi temperature of max SGR":                              {"At which temperature do young barramundi grow fastest?", ""},
	"barramundi temperature of max feed intake":                      {"At which temperature do young barramundi eat most?", feedCaution},
	"barramundi temperature of max protein efficiency":               {"At which temperature do young barramundi make most of protein?", ""},
	"barramundi temperature of max energy efficiency":                {"At which temperature do young barramundi make most of energy?", ""},
	"barramundi survival range":                                      {"Between which temperatures do barramundi survive?", coldCaution},
	"yellow perch optimum growth low":                                {"From which temperature do yellow perch grow best?", ""},
	"yellow perch optimum growth high":                               {"Up to which temperature do yellow perch grow best?", ""},
	"yellow perch no growth below":                                   {"Below which temperature do yellow perch not grow?", ""},
	"yellow perch stress above":                                      {"Above which temperature do yellow perch suffer?", coldCaution},
	"silver perch optimum growth low":                                {"From which temperature do silver perch grow best?", ""},
	"silver perch optimum growth high":                               {"Up to which temperature do silver perch grow best?", ""},
	"silver perch torpor below":                                      {"Below which temperature do silver perch lie torpid?", coldCaution},
	"silver perch tolerated range":                                   {"Which temperatures do silver perch bear?", coldCaution},
	"goldfish optimum temperature (aerobic scope)":                   {"At which temperature do goldfish have most breath to spare?", ""},
	"goldfish upper critical temperature":                            {"At which heat do goldfish fail, by the warmth they are used to?", coldCaution},

	"fry feeding rate first day of 30-day stage": {"What share of their weight do tilapia fry eat on their first day in the tank?", feedCaution},
	"fry feeding rate day 30":                    {"What share of their weight do tilapia fry eat on their thirtieth day?", feedCaution},
	"catfish winter ration":                      {"How much do catfish eat in winter, and how often?", feedCaution},
	"catfish feeding rate":                       {"What share of their weight do catfish eat in a day at this stage?", feedCaution},
	"feed_pct_body_weight":                       {"What share of their weight do fish eat in a day while they grow out?", feedCaution},
	"oxygen_per_feed":                            {"How much oxygen do fish use for each kilogram of feed?", oxygenCaution},

	"Nile tilapia fillet yield":             {"What share of a Nile tilapia is fillet?", ""},
	"Nile tilapia dress-out, Sagana strain": {"What share of a Nile tilapia of the Sagana strain is left when dressed?", ""},
	"Nile tilapia headless carcass yield":   {"What share of a Nile tilapia is left without its head?", ""},
	"rainbow trout eviscerated yield":       {"What share of a rainbow trout is left when gutted?", ""},
	"crude protein of eviscerated trout":    {"How much protein is in a gutted trout?", ""},
	"crude protein of trout fillet":         {"How much protein is in the fillet of a trout?", ""},
}

// cautions is a list of one caution, or of none.
func cautions(caution string) []string {
	if caution == "" {
		return nil
	}
	return []string{caution}
}
