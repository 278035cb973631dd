package plan

// prices are what a square metre of each room and a gram of feed are worth in
// each week, in weeks of bearing. An option's price is what it takes up.
type prices struct {
	room [][]float64 // by room and week, for one m2
	feed []float64   // by week, for one g a day
	// Sums up to, not including, each week: an option's price is then four look-ups.
	roomTo [][]float64
	feedTo []float64
}

func newPrices(t Task) prices {
	p := prices{feed: make([]float64, t.Weeks), roomTo: make([][]float64, len(t.Rooms))}
	for range t.Rooms {
		p.room = append(p.room, make([]float64, t.Weeks))
	}
	return p
}

// add sums the prices up anew.
func (p *prices) add() {
	for i := range p.room {
		p.roomTo[i] = running(p.roomTo[i], p.room[i])
	}
	p.feedTo = running(p.feedTo, p.feed)
}

// running gives sums of what comes before each, in the room of earlier ones.
func running(sums, each []float64) []float64 {
	sums = append(sums[:0], 0)
	for i, v := range each {
		sums = append(sums, sums[i]+v)
	}
	return sums
}

// of is the price of the whole area of an option.
func (p prices) of(t Task, o Option) float64 {
	gone := o.gone(t.Weeks)
	price := o.Area * (p.roomTo[o.Room][gone] - p.roomTo[o.Room][o.Sow])
	if t.Rooms[o.Room].Loop {
		price += o.Area * o.FeedPer * (p.feedTo[gone] - p.feedTo[o.Sow])
	}
	return price
}
