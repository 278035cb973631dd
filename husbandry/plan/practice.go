package plan

// practice is what many growers do without a plan: every second week something
// of each crop is sown, as much as bears its use until the next such sowing
// does, wherever there is most room; crops take turns at being first. Common
// practice, no source: it is the yardstick of a plan.
func practice(t Task) *ledger {
	l := newLedger(t)
	turn := 0
	for week := 0; week < t.Weeks; week += apart {
		for i := range t.Wants {
			l.practise((i+turn)%len(t.Wants), week)
		}
		turn++
	}
	return l
}

// apart is the weeks between two sowings by practice.
const apart = 2

// practise sows one crop in one week.
func (l *ledger) practise(want, week int) {
	best, most := -1, 0.0
	for i, o := range l.t.Wants[want].Options {
		if o.Sow != week {
			continue
		}
		if free := l.room[o.Room][week]; free > most {
			best, most = i, free
		}
	}
	if best < 0 {
		return
	}
	o := l.t.Wants[want].Options[best]
	if part := min(apart/float64(o.To-o.From), l.fits(o)); part > 0 {
		l.sow(sown{want, best, part})
	}
}
