package plan

// ledger is a plan being made: what is sown, what is free, what bears.
type ledger struct {
	t     Task
	room  [][]float64 // m2 free by room and week
	feed  []float64   // g a day free by week; nil where it binds nothing
	sown  []sown
	share [][]float64 // by want and week: part of the use that bears
}

// sown is a part of an option, 1 for its whole area.
type sown struct {
	want, option int
	part         float64
}

func newLedger(t Task) *ledger {
	l := &ledger{t: t}
	for _, r := range t.Rooms {
		l.room = append(l.room, append([]float64{}, r.Free...))
	}
	if t.Feed != nil {
		l.feed = append([]float64{}, t.Feed...)
	}
	for range t.Wants {
		l.share = append(l.share, make([]float64, t.Weeks))
	}
	return l
}

// fits is the part of an option, up to 1, that finds room and feed; 0 where it
// would be smaller than is worth a sowing.
func (l *ledger) fits(o Option) float64 {
	part := 1.0
	loop := l.feed != nil && l.t.Rooms[o.Room].Loop && o.FeedPer > 0
	for week := o.Sow; week < o.gone(l.t.Weeks); week++ {
		part = min(part, l.room[o.Room][week]/o.Area)
		if loop {
			part = min(part, l.feed[week]/(o.Area*o.FeedPer))
		}
	}
	if part < min(1, l.t.Least/o.Area) {
		return 0
	}
	return part
}

// put takes up what a part of an option takes.
func (l *ledger) put(x sown) {
	o := l.t.Wants[x.want].Options[x.option]
	for week := o.Sow; week < o.gone(l.t.Weeks); week++ {
		l.room[o.Room][week] -= x.part * o.Area
		if l.feed != nil && l.t.Rooms[o.Room].Loop {
			l.feed[week] -= x.part * o.Area * o.FeedPer
		}
	}
	for week := o.From; week < o.gone(l.t.Weeks); week++ {
		l.share[x.want][week] += x.part
	}
}

// sow puts and notes a part; of the same option as before it makes that larger.
func (l *ledger) sow(x sown) {
	l.put(x)
	for i := range l.sown {
		if before := &l.sown[i]; before.want == x.want && before.option == x.option {
			before.part += x.part
			return
		}
	}
	l.sown = append(l.sown, x)
}

// served is the weeks of bearing that the plan gives: a needed week counts as
// far as its use is borne, 1 at most.
func (l *ledger) served() float64 {
	sum := 0.0
	for i, w := range l.t.Wants {
		for week, needed := range w.Needed {
			if needed {
				sum += min(1, l.share[i][week])
			}
		}
	}
	return sum
}

// gain is what a part of an option would add to what is served.
func (l *ledger) gain(want int, o Option, part float64) float64 {
	sum := 0.0
	for week := o.From; week < o.gone(l.t.Weeks); week++ {
		if l.t.Wants[want].Needed[week] {
			sum += min(part, max(0, 1-l.share[want][week]))
		}
	}
	return sum
}
