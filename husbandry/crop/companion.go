package crop

// A Companion is what is claimed of two plants grown together.
type Companion struct {
	Crop     string
	With     string
	Claim    string
	Evidence bool // a published trial shows it; else it is custom
	Source   string
	Note     string
}

const custom = "custom, no source"

// companions holds the claims worth knowing. Most that are told have never been
// tried; those marked as evidence stand from memory and often held only for one
// pest in one place.
var companions = []Companion{
	{"cabbage", "collards", "a border of collards draws diamondback moth away", true,
		"Mitchell, Hu and Johanowicz 2000, HortScience 35:875, from memory", "a trap crop: watch it and clear it"},
	{"cabbage", "yellow rocket", "diamondback moth lays on it, where its young die", true,
		"Badenes-Perez, Shelton and Nault 2004, Journal of Economic Entomology 97:1365, from memory", "a trap crop; a weed in some places"},
	{"cabbage", "clover", "cabbage pests land less on plants over a green cover", true,
		"Finch and Collier 2000, Entomologia Experimentalis et Applicata 96:91, from memory", "the clover also takes yield; soil beds only"},
	{"broccoli", "mustard greens", "mixed mustards and pak choi draw flea beetles away", true,
		"Parker, Crowder, Eigenbrode and Snyder 2016, Agriculture, Ecosystems and Environment 232:254, from memory", "a trap crop"},
	{"cucumber", "winter squash", "a border of Hubbard squash holds striped cucumber beetles", true,
		"Boucher and Durgy 2004, Journal of Extension 42(5), from memory", "a trap crop: it must be treated or cleared"},
	{"summer squash", "winter squash", "a border of Hubbard squash holds striped cucumber beetles", true,
		"Boucher and Durgy 2004, Journal of Extension 42(5), from memory", "a trap crop: it must be treated or cleared"},
	{"tomato", "marigold", "French marigolds slow whitefly under glass", true,
		"Conboy and others 2019, PLOS ONE 14(3):e0213071, from memory", "from the start, not as a cure"},
	{"tomato", "sorghum", "a border of sorghum and sunflower holds stink bugs", true,
		"Mizell, Riddle and Blount 2008, Proceedings of the Florida State Horticultural Society 121:377, from memory", "a trap crop"},
	{"lettuce", "sweet alyssum", "its flowers feed hoverflies, whose young eat aphids", true,
		"Hogg, Bugg and Daane 2011, Biological Control 56:76, from memory", ""},
	{"carrot", "onion", "fewer carrot flies while the onions are in full leaf", true,
		"Uvah and Coaker 1984, Entomologia Experimentalis et Applicata 36:159, from memory", "no help once the onions bulb"},
	{"sweet corn", "pole bean", "maize, beans and squash together yield more than apart", true,
		"Zhang, Postma, York and Lynch 2014, Annals of Botany 114:1719, from memory", "soil beds; on poor soil most of all"},
	{"tomato", "basil", "better taste, fewer pests", false, custom, "they like the same warmth and do no harm"},
	{"cabbage", "dill", "draws small wasps that eat caterpillars", false, custom, ""},
	{"cabbage", "nasturtium", "draws aphids and whites away", false, custom, ""},
	{"cucumber", "radish", "keeps cucumber beetles off", false, custom, ""},
	{"bean", "onion", "onions stunt beans: keep apart", false, custom, ""},
	{"strawberry", "borage", "draws bees to the flowers", false, custom, ""},
	{"pepper", "basil", "keeps thrips and aphids off", false, custom, ""},
	{"carrot", "rosemary", "hides carrots from the carrot fly", false, custom, ""},
	{"eggplant", "amaranth", "holds flea beetles", false, custom, "a trap crop, if anything"},
}

// CompanionsOf returns what is claimed of growing the crop beside others,
// evidence first. A crop of which nothing is told gives none.
func CompanionsOf(crop string) []Companion {
	shown, told := []Companion{}, []Companion{}
	for _, c := range companions {
		if !sameName(c.Crop, crop) && !sameName(c.With, crop) {
			continue
		}
		if c.Evidence {
			shown = append(shown, c)
		} else {
			told = append(told, c)
		}
	}
	return append(shown, told...)
}
