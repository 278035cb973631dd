// Package alarms counts the signs that package signs finds in invented
// site-months: how many where nothing is wrong, and how soon planted faults are
// found. The months are the demo's simulator's, whose equations signs does not know.
package alarms

import (
	"runtime"
	"slices"

	"golang.org/x/sync/errgroup"

	"freshet.example/cmd/freshetd/demo"
	"freshet.example/husbandry/quantity"
	"freshet.example/husbandry/signs"
)

// fault is one that is planted, with the signs that find it and within how many hours they must.
type fault struct {
	title  string
	fault  demo.Fault
	found  []signs.Kind
	within int
	each   int // hours between looks
}

var faults = []fault{
	{"pump and air stand", demo.PumpStops, []signs.Kind{signs.StillPump}, 1, 1},
	{"heater fails", demo.HeaterFails, []signs.Kind{signs.Cooling}, 6, 1},
	{"filter hosed clean", demo.FilterLost, []signs.Kind{signs.WeakFilter}, 2 * signs.Day, 1},
	{"pH probe drifts, 0.05 a day", demo.PHProbeDrifts, []signs.Kind{signs.Adrift}, 10 * signs.Day, 6},
	{"oxygen probe drifts, 0.03 mg/L a day", demo.OxygenProbeDrifts, []signs.Kind{signs.Foul, signs.Adrift}, 10 * signs.Day, 6},
	{"nitrate of the ion noted as nitrogen", demo.UnitTypedWrong, []signs.Kind{signs.Misread}, 5 * signs.Day, 6},
}

// what is a kind of sign of a quantity.
type what struct {
	kind     signs.Kind
	quantity quantity.Quantity
}

// watchMonth looks every few hours through a month in which nothing is wrong and
// counts signs that were not there in the week before.
func watchMonth(number, every int) (map[what]int, error) {
	m, err := demo.LiveMonth(number, demo.NoFault)
	if err != nil {
		return nil, err
	}
	found, last := map[what]int{}, map[what]int{}
	for hour := demo.MonthSeen * signs.Day; hour < len(m.Record.Hours); hour += every {
		list, err := signs.Look(m.Until(hour))
		if err != nil {
			return nil, err
		}
		for _, s := range list {
			w := what{s.Kind, s.Quantity}
			if before, seen := last[w]; !seen || hour-before > 7*signs.Day {
				found[w]++
			}
			last[w] = hour
		}
	}
	return found, nil
}

// hours are after how many hours a fault was found in each month that shows it; never is -1.
const never = -1

// findFault looks from the hour after a fault began until it is found.
func findFault(number int, f fault) (hours int, shows bool, err error) {
	m, err := demo.LiveMonth(number, f.fault)
	if err != nil || !m.Shows {
		return 0, false, err
	}
	for hour := m.Began; hour < min(len(m.Record.Hours), m.Began+2*f.within); hour += f.each {
		list, err := signs.Look(m.Until(hour))
		if err != nil {
			return 0, false, err
		}
		for _, s := range list {
			if slices.Contains(f.found, s.Kind) {
				return hour - m.Began + 1, true, nil
			}
		}
	}
	return never, true, nil
}

// each does something for so many months on all cores.
func each(months int, do func(number int) error) error {
	var group errgroup.Group
	group.SetLimit(runtime.NumCPU())
	for i := range months {
		group.Go(func() error { return do(i) })
	}
	return group.Wait()
}
