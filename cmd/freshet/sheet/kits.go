package sheet

import (
	"errors"
	"maps"
	"slices"
	"strings"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/cmd/freshet/words"
	"freshet.example/husbandry/quantity"
)

// wishKits takes units and bases that a person gave.
func (p *Plan) wishKits(w Wishes) error {
	for _, name := range sortedKeys(w.Unit) {
		if err := p.Kit(name, w.Unit[name]); err != nil {
			return err
		}
	}
	for _, name := range sortedKeys(w.Basis) {
		if err := p.Kit(name, "as "+w.Basis[name]); err != nil {
			return err
		}
	}
	return nil
}

// Kit says what a column or a quantity is in: "ppm", "as NH3", "ppm as NH3".
func (p *Plan) Kit(name, text string) error {
	kit, ok := kitOf(strings.TrimSpace(text))
	if !ok || kit == (words.Kit{}) {
		return problem(freshetv1.ErrorReason_ERROR_REASON_UNIT_MISMATCH, "\""+text+"\" is neither unit nor basis", "write it like ppm, or mg/L as NO3")
	}
	if c, err := p.column(name); err == nil {
		c.Kit = joined(c.Kit, kit)
		c.read()
		return nil
	}
	q, err := words.FindQuantity(name)
	if err != nil {
		_, noColumn := p.column(name)
		return noColumn
	}
	p.kits[q] = joined(p.kits[q], kit)
	for i := range p.Columns {
		if p.Columns[i].Quantity == q {
			p.Columns[i].Kit = joined(p.Columns[i].Kit, kit)
		}
	}
	return nil
}

func joined(before, more words.Kit) words.Kit {
	if more.Unit != quantity.NoUnit {
		before.Unit = more.Unit
	}
	if more.Basis != quantity.NoBasis {
		before.Basis = more.Basis
	}
	return before
}

// A Question is what a sheet does not tell and nobody may guess.
type Question struct {
	About string // name to answer under: a header, a quantity, or "dates"
	Words string
	Flag  string // how to answer beforehand
}

// sampled is how many rows are looked at before questions are asked.
const sampled = 500

// Missing looks at the first rows and asks what is not told: the order of day
// and month, units, bases.
func (p *Plan) Missing() ([]Question, error) {
	asked := map[string]Question{}
	var order []string
	add := func(q Question) {
		if _, ok := asked[q.About]; !ok {
			asked[q.About] = q
			order = append(order, q.About)
		}
	}
	if p.Order == OrderUnknown {
		if err := p.findOrder(); err != nil {
			return nil, err
		}
	}
	if p.Order == OrderUnknown {
		add(Question{"dates", "Days like 3/4/2026: is the day first or the month (dmy or mdy)?", "--dates dmy"})
	}
	seen := 0
	err := Each(p.File, len(p.Columns), func(r Row, bad *Bad) error {
		if seen++; seen > sampled {
			return errEnough
		}
		if bad == nil {
			p.ask(r, add)
		}
		return nil
	})
	if err != nil && !errors.Is(err, errEnough) {
		return nil, err
	}
	questions := make([]Question, len(order))
	for i, about := range order {
		questions[i] = asked[about]
	}
	return questions, nil
}

var errEnough = errors.New("enough rows were looked at")

// judged is how many different days are looked at to find their order.
const judged = 400

// findOrder looks at the days of the whole sheet: the first that can be read
// in one order only may stand far down.
func (p *Plan) findOrder() error {
	different := map[string]bool{}
	err := Each(p.File, len(p.Columns), func(r Row, bad *Bad) error {
		if bad == nil {
			day, _, _ := strings.Cut(strings.TrimSpace(p.cell(r, When)), "T")
			day, _, _ = strings.Cut(day, " ")
			different[day] = true
		}
		if len(different) == judged {
			return errEnough
		}
		return nil
	})
	if err != nil && !errors.Is(err, errEnough) {
		return err
	}
	p.Order = orderOf(slices.Collect(maps.Keys(different)), p.zone)
	return nil
}

// ask finds cells whose unit or basis nothing tells.
func (p *Plan) ask(r Row, add func(Question)) {
	if p.Kind == "reading" {
		q, err := words.FindQuantity(p.cell(r, What))
		if err == nil {
			p.askKit(words.QuantityName(q), q, p.cell(r, Value), p.kitFor(r, q), add)
		}
		return
	}
	for i, c := range p.Columns {
		if c.Role == Measured && !empty(r.Cells[i]) {
			p.askKit(c.Header, c.Quantity, r.Cells[i], c.Kit, add)
		}
		if c.Role == Counted && !empty(r.Cells[i]) {
			p.askUnit(c, r.Cells[i], add)
		}
	}
}

func (p *Plan) askKit(about string, q freshetv1.Quantity, cell string, kit words.Kit, add func(Question)) {
	_, err := words.Reading(q, cell, kit)
	var wrong *words.Problem
	if !errors.As(err, &wrong) {
		return
	}
	known := words.Known(q)
	switch {
	case wrong.Reason == freshetv1.ErrorReason_ERROR_REASON_UNIT_MISMATCH && kit.Unit == quantity.NoUnit:
		add(Question{about, "\"" + about + "\": in which unit" + orBasis(known) + "? One of " + unitNames(known), "--unit \"" + about + "=" + known.Unit().String() + asBasis(known) + "\""})
	case wrong.Reason == freshetv1.ErrorReason_ERROR_REASON_BASIS_MISMATCH && kit.Basis == quantity.NoBasis:
		add(Question{about, "\"" + about + "\": " + wrong.Hint + "?", "--basis \"" + about + "=" + known.Basis().String() + "\""})
	}
}

func unitNames(known quantity.Quantity) string {
	var names []string
	for _, u := range known.Units() {
		names = append(names, u.String())
	}
	return strings.Join(names, ", ")
}

func orBasis(known quantity.Quantity) string {
	if len(known.Bases(known.Unit())) > 1 {
		return ", and as what"
	}
	return ""
}

func asBasis(known quantity.Quantity) string {
	if len(known.Bases(known.Unit())) > 1 {
		return " as " + known.Basis().String()
	}
	return ""
}

// askUnit finds a column of another noun whose numbers carry no unit.
func (p *Plan) askUnit(c Column, cell string, add func(Question)) {
	unit := words.SlotUnit(c.Noun)
	if unit == "" || c.Kit.Unit != quantity.NoUnit {
		return
	}
	if m, err := quantity.ParseMeasure(cell); err == nil && m.Unit == quantity.NoUnit {
		add(Question{c.Header, "\"" + c.Header + "\": in which unit? Such as " + unit, "--unit \"" + c.Header + "=" + unit + "\""})
	}
}

// empty cells hold nothing, or a sign for nothing.
func empty(cell string) bool {
	switch strings.ToLower(strings.TrimSpace(cell)) {
	case "", "-", "–", "—", "na", "n/a", "nan", "null", "none", "?":
		return true
	}
	return false
}
