package crop

// Flowering says where a planting flowers and what help it has.
type Flowering struct {
	Covered bool // under a closed cover, where neither wind nor bees come in
	Bees    bool // bees or bumblebees are kept under the cover
	ByHand  bool // someone pollinates by hand, or shakes the flowers
}

// PollinationWarning returns the sentence to give a grower whose crop will not
// set fruit, or will set poorly, where it stands. It is empty when there is
// nothing to warn of. The kinds of pollination are common knowledge of
// horticulture, without a source.
func PollinationWarning(crop string, f Flowering) (string, error) {
	c, err := Find(crop)
	if err != nil {
		return "", err
	}
	if !f.Covered || f.ByHand {
		return "", nil
	}
	switch c.Pollination {
	case Insects:
		if f.Bees {
			return "", nil
		}
		return "Under a closed cover no insects reach the flowers: " + c.Name +
			" sets no fruit unless you pollinate by hand, let bees in, or grow a kind that needs none.", nil
	case Wind:
		return "Under a closed cover there is no wind: shake the " + c.Name +
			" when it flowers, or it sets few seeds.", nil
	case SelfShaken:
		if f.Bees {
			return "", nil
		}
		return "Under a closed cover nothing shakes the flowers: tap or shake the " + c.Name +
			" every other day around noon, or it sets poorly.", nil
	}
	return "", nil
}
