package crop

// A Maturity is the days from field planting to market under the best growing
// conditions; in cool weather it takes longer. For crops marked as transplants
// the weeks from seed to setting out come on top.
type Maturity struct {
	Crop  string
	Early float64 // days of an early variety
	Late  float64 // days of a late variety
}

// maturities holds NDSU Extension H-912 (revised June 2010), whole. The leaflet's
// summer and winter squash are taken to be printed the wrong way round: it gives
// summer squash 80 to 120 days and winter squash 50 to 68.
var maturities = []Maturity{
	{"beans, bush", 46, 65},
	{"beans, pole", 56, 72},
	{"beans, lima (bush)", 65, 78},
	{"beets", 50, 80},
	{"broccoli (direct seeded)", 70, 150},
	{"brussels sprouts (transplant)", 90, 100},
	{"cabbage (transplant)", 62, 110},
	{"carrots", 60, 85},
	{"cauliflower (transplant)", 55, 65},
	{"chinese cabbage", 70, 80},
	{"chives", 90, 90},
	{"corn", 70, 100},
	{"cucumbers", 60, 70},
	{"eggplant", 70, 85},
	{"kohlrabi", 55, 65},
	{"lettuce, head", 60, 85},
	{"lettuce, leaf", 40, 50},
	{"melon, honey ball", 105, 105},
	{"melon, honey dew", 115, 115},
	{"muskmelon", 75, 90},
	{"mustard", 40, 60},
	{"okra", 50, 60},
	{"onions", 85, 120},
	{"parsley", 70, 85},
	{"parsnips", 100, 130},
	{"peas", 58, 77},
	{"pepper (sweet, transplant)", 60, 80},
	{"potatoes", 90, 120},
	{"pumpkin", 110, 120},
	{"radishes", 22, 40},
	{"radishes, winter type", 50, 60},
	{"rutabagas", 90, 90},
	{"spinach", 40, 50},
	{"squash, summer", 50, 68},
	{"squash, winter", 80, 120},
	{"tomatoes (transplant)", 65, 100},
	{"turnips", 40, 75},
	{"watermelon", 65, 95},
}

// commonDays holds the days of the common type, where the leaflet prints them
// between those of early and late varieties.
var commonDays = map[string]float64{"muskmelon": 83, "watermelon": 75}

// Common returns the days of the common type, or false where the leaflet gives
// none. Where it gives one figure for all, that is it.
func (m Maturity) Common() (days float64, given bool) {
	if m.Early == m.Late {
		return m.Early, true
	}
	days, given = commonDays[m.Crop]
	return days, given
}

// MaturityOf returns the days from field planting to market (NDSU H-912). A
// crop that the leaflet does not list is a NotListedError.
func MaturityOf(crop string) (Maturity, error) {
	return rowOf("NDSU H-912", maturities, func(m Maturity) string { return m.Crop }, crop)
}
