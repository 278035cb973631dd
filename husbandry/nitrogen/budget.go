package nitrogen

import (
	"math"
	"strconv"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// An Amount is a mass of nitrogen over the time of the budget, with the
// standard error of how it was found.
type Amount struct {
	Value GramsN
	Error GramsN // standard error, 0 when it is exact or unknown
}

// AmountOf returns the nitrogen in a mass, with the standard errors of the
// mass and of its share of nitrogen, taken as independent (first-order
// propagation of error). Mass is within 1e9 g, share 0 to 1.
func AmountOf(mass, massError quantity.Grams, share, shareError quantity.Fraction) (Amount, error) {
	if err := quantity.Within("mass", float64(mass), -maxGrams, maxGrams, "g", quantity.OwnBounds); err != nil {
		return Amount{}, err
	}
	if err := checkGrams("standard error of the mass", float64(massError)); err != nil {
		return Amount{}, err
	}
	for _, s := range [...]quantity.Fraction{share, shareError} {
		if err := checkShare("share of nitrogen", s); err != nil {
			return Amount{}, err
		}
	}
	spread := math.Hypot(float64(massError)*float64(share), float64(mass)*float64(shareError))
	return Amount{GramsN(float64(mass) * float64(share)), GramsN(spread)}, nil
}

// A Budget is all nitrogen that came into a loop, left it, or was put by in it
// over one span of time.
type Budget struct {
	Feed    Amount // in
	WaterIn Amount // in: make-up and rain

	FishGain     Amount // growth of living, harvested and dead fish; negative when they lost weight
	Plants       Amount // harvest and growth of what still stands
	StoredChange Amount // dissolved in the water at the end less at the start
	WaterOut     Amount // let go or spilled
	Solids       Amount // taken out
}

// A Closed budget says what is left when everything counted is set off.
type Closed struct {
	Budget
	Unaccounted Amount            // in less out: positive when nitrogen is missing
	Low, High   GramsN            // interval of the unaccounted
	Level       quantity.Fraction // chance that the interval covers it
	ShareOfFeed quantity.Fraction // unaccounted as share of the feed's nitrogen; 0 without feed
}

// Amounts are kept to a 2^20th of a gram, a microgram or so. Sums of such
// amounts up to 1e9 g are exact in binary, so that a budget closes exactly in
// whatever order it is added.
const grain = 1 << 20

const percent = 100

// Bounds of the level of an interval.
const (
	minLevel = 0.5
	maxLevel = 0.999
)

// Close sets off what came in against what is accounted for. Amounts are
// within 1e9 g, standard errors from 0, the level 0.5 to 0.999. Errors are
// taken as independent and normal.
func (b Budget) Close(level quantity.Fraction) (Closed, error) {
	if err := quantity.Within("level of the interval", float64(level), minLevel, maxLevel, "", quantity.OwnBounds); err != nil {
		return Closed{}, err
	}
	variance := 0.0
	for _, a := range b.amounts() {
		if err := a.keep(); err != nil {
			return Closed{}, err
		}
		variance += float64(a.Error) * float64(a.Error)
	}
	left := b.Feed.Value + b.WaterIn.Value - b.FishGain.Value - b.Plants.Value - b.StoredChange.Value - b.WaterOut.Value - b.Solids.Value
	spread := GramsN(math.Sqrt(variance))
	reach := GramsN(chance.NormalQuantile((1+float64(level))/2)) * spread
	c := Closed{Budget: b, Unaccounted: Amount{left, spread}, Low: left - reach, High: left + reach, Level: level}
	if b.Feed.Value > 0 {
		c.ShareOfFeed = quantity.Fraction(left / b.Feed.Value)
	}
	return c, nil
}

func (b *Budget) amounts() [7]*Amount {
	return [...]*Amount{&b.Feed, &b.WaterIn, &b.FishGain, &b.Plants, &b.StoredChange, &b.WaterOut, &b.Solids}
}

func (a *Amount) keep() error {
	if err := quantity.Within("nitrogen of a budget", float64(a.Value), -maxGrams, maxGrams, "g", quantity.OwnBounds); err != nil {
		return err
	}
	if err := checkGrams("standard error of a budget", float64(a.Error)); err != nil {
		return err
	}
	a.Value = GramsN(math.Round(float64(a.Value)*grain) / grain)
	return nil
}

// Words names the unaccounted as a grower would say it.
func (c Closed) Words() string {
	switch {
	case c.Low > 0:
		return "unaccounted: likely denitrification and ammonia lost to air, " + c.amount()
	case c.High < 0:
		return "more nitrogen is accounted for than came in, by " + c.amount() + ": check weights, volumes and test readings"
	}
	return "unaccounted: " + c.amount() + ", not told apart from nothing"
}

func (c Closed) amount() string {
	if c.Feed.Value > 0 {
		return strconv.FormatFloat(math.Abs(float64(c.ShareOfFeed))*percent, 'f', 0, 64) + " % of feed"
	}
	return strconv.FormatFloat(math.Abs(float64(c.Unaccounted.Value)), 'f', 0, 64) + " g"
}

// Left returns what remains of a day's nitrogen after all that is accounted
// for; in a steady loop, what bacteria turn to gas. Amounts are within 1e9 g.
func Left(added GramsN, accounted ...GramsN) (GramsN, error) {
	left := added
	if err := quantity.Within("nitrogen", float64(added), -maxGrams, maxGrams, "g", quantity.OwnBounds); err != nil {
		return 0, err
	}
	for _, a := range accounted {
		if err := quantity.Within("nitrogen", float64(a), -maxGrams, maxGrams, "g", quantity.OwnBounds); err != nil {
			return 0, err
		}
		left -= a
	}
	return left, nil
}
