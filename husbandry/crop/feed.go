package crop

import "freshet.example/husbandry/quantity"

// FeedRatio returns the fish feed that a square metre of the crop lives on,
// g a day: leafy 40 to 50 and fruiting 50 to 80 (FAO 589, from memory); basil
// as measured in raft beds, 81.4 by the batch, which starved, and 99.6
// staggered (Rakocy and others 2004, Acta Horticulturae 648). Feed of about a
// third protein.
func FeedRatio(crop string) (Figure, error) {
	c, err := Find(crop)
	if err != nil {
		return Figure{}, err
	}
	switch {
	case c.Name == "basil":
		return Figure{81.4, 99.6, UVI}, nil
	case c.Kind == Fruiting || c.Kind == PerennialFruit || c.Kind == FlowerHead:
		return Figure{50, 80, FAO589Memory}, nil
	}
	return Figure{40, 50, FAO589Memory}, nil
}

// FeedForArea returns the range of feed, grams a day, that an area of the crop
// lives on.
func FeedForArea(crop string, area quantity.SquareMetres) (low, high quantity.Grams, err error) {
	ratio, err := FeedRatio(crop)
	if err != nil {
		return 0, 0, err
	}
	if err := bedArea(area); err != nil {
		return 0, 0, err
	}
	return quantity.Grams(ratio.Low * float64(area)), quantity.Grams(ratio.High * float64(area)), nil
}

// AreaForFeed returns the range of area of the crop that a daily feed supports.
// 0 to 1,000,000 g a day.
func AreaForFeed(crop string, feed quantity.Grams) (low, high quantity.SquareMetres, err error) {
	ratio, err := FeedRatio(crop)
	if err != nil {
		return 0, 0, err
	}
	if err := feedBound.check(float64(feed)); err != nil {
		return 0, 0, err
	}
	return quantity.SquareMetres(float64(feed) / ratio.High), quantity.SquareMetres(float64(feed) / ratio.Low), nil
}
