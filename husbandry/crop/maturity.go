package crop

// A Maturity is the days from field planting to market under the best growing
// conditions; in cool weather it takes longer. For crops marked as transplants
// the weeks from seed to setting out come on top.
type Maturity struct {
	Crop   string
	Early  float64 // days of an early variety
	Common float64 // days of the common type, 0 where none is given
	Late   float64 // days of a late variety
}

// maturities holds NDSU Extension H-912 (revised June 2010), whole. The leaflet's
// summer and winter squash are taken to be printed the wrong way round: it gives
// summer squash 80 to 120 days and winter squash 50 to 68.
var maturities = []Maturity{
	{"beans, bush", 46, 0, 65},
	{"beans, pole", 56, 0, 72},
	{"beans, lima (bush)", 65, 0, 78},
	{"beets", 50, 0, 80},
	{"broccoli (direct seeded)", 70, 0, 150},
	{"brussels sprouts (transplant)", 90, 0, 100},
	{"cabbage (transplant)", 62, 0, 110},
	{"carrots", 60, 0, 85},
	{"cauliflower (transplant)", 55, 0, 65},
	{"chinese cabbage", 70, 0, 80},
	{"chives", 90, 90, 90},
	{"corn", 70, 0, 100},
	{"cucumbers", 60, 0, 70},
	{"eggplant", 70, 0, 85},
	{"kohlrabi", 55, 0, 65},
	{"lettuce, head", 60, 0, 85},
	{"lettuce, leaf", 40, 0, 50},
	{"melon, honey ball", 105, 105, 105},
	{"melon, honey dew", 115, 115, 115},
	{"muskmelon", 75, 83, 90},
	{"mustard", 40, 0, 60},
	{"okra", 50, 0, 60},
	{"onions", 85, 0, 120},
	{"parsley", 70, 0, 85},
	{"parsnips", 100, 0, 130},
	{"peas", 58, 0, 77},
	{"pepper (sweet, transplant)", 60, 0, 80},
	{"potatoes", 90, 0, 120},
	{"pumpkin", 110, 0, 120},
	{"radishes", 22, 0, 40},
	{"radishes, winter type", 50, 0, 60},
	{"rutabagas", 90, 90, 90},
	{"spinach", 40, 0, 50},
	{"squash, summer", 50, 0, 68},
	{"squash, winter", 80, 0, 120},
	{"tomatoes (transplant)", 65, 0, 100},
	{"turnips", 40, 0, 75},
	{"watermelon", 65, 75, 95},
}

// MaturityOf returns the days from field planting to market (NDSU H-912). A
// crop that the leaflet does not list is a NotListedError.
func MaturityOf(crop string) (Maturity, error) {
	i, err := findRow("NDSU H-912", namesOf(maturities, func(m Maturity) string { return m.Crop }), crop)
	if err != nil {
		return Maturity{}, err
	}
	return maturities[i], nil
}
