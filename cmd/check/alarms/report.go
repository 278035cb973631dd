package alarms

import (
	"cmp"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
)

// Options say how many months are lived and where what is found goes.
type Options struct {
	Months  int    // of each fault, and without one
	To      string // folder for alarms.md
	Command string // what makes it, for the page
}

// outcome is how soon a fault was found in each month that shows it, in hours.
type outcome struct {
	fault
	hours []int
}

// Run lives the months and writes the page.
func Run(o Options) error {
	quiet, err := watchMonths(o.Months, 1)
	if err != nil {
		return err
	}
	var outcomes []outcome
	for _, f := range faults {
		hours, err := findFaults(o.Months, f)
		if err != nil {
			return err
		}
		outcomes = append(outcomes, outcome{f, hours})
	}
	page := fmt.Sprintf("# How often do signs come wrongly, and how soon are faults found?\n\nMade by `%s`.\n\n", o.Command) + quietTable(quiet, o.Months) + faultTable(outcomes, o.Months)
	return os.WriteFile(filepath.Join(o.To, "alarms.md"), []byte(page), 0o644) //nolint:gosec // for everybody to read
}

// watchMonths adds up the signs of months in which nothing is wrong.
func watchMonths(months, every int) (map[what]int, error) {
	all, lock := map[what]int{}, sync.Mutex{}
	err := each(months, func(number int) error {
		found, err := watchMonth(number, every)
		lock.Lock()
		defer lock.Unlock()
		for w, n := range found {
			all[w] += n
		}
		return err
	})
	return all, err
}

// findFaults gives the hours of the months that show a fault, in rising order, those never found last.
func findFaults(months int, f fault) ([]int, error) {
	var all []int
	lock := sync.Mutex{}
	err := each(months, func(number int) error {
		hours, shows, err := findFault(number, f)
		lock.Lock()
		defer lock.Unlock()
		if shows {
			all = append(all, hours)
		}
		return err
	})
	slices.SortFunc(all, func(a, b int) int { return cmp.Compare(uint(a), uint(b)) })
	return all, err
}

func quietTable(found map[what]int, months int) string {
	var b strings.Builder
	fmt.Fprintf(&b, `## Where nothing is wrong: %d invented site-months

Each is one of the demo's six growers with climate, fish and filter scattered about theirs, at some time of the year: six weeks of record, then a month looked at each hour. A sign counts once as long as it is not gone for a week. Loops whose scattered filter is too small for their fish have ammonia that truly rises; their signs are counted too.

| sign | of | signs | a month |
| --- | --- | --: | --: |
`, months)
	total := 0
	for _, w := range slices.SortedFunc(maps.Keys(found), func(a, b what) int {
		return cmp.Or(cmp.Compare(a.kind, b.kind), cmp.Compare(a.quantity, b.quantity))
	}) {
		total += found[w]
		fmt.Fprintf(&b, "| %s | %s | %d | %.2f |\n", w.kind, w.quantity.Title(), found[w], float64(found[w])/float64(months))
	}
	fmt.Fprintf(&b, "| all | | %d | %.2f |\n\n", total, float64(total)/float64(months))
	return b.String()
}

func faultTable(outcomes []outcome, months int) string {
	var b strings.Builder
	fmt.Fprintf(&b, `## Where something is: %d site-months for each fault

The fault begins on the fourth day of the month, at any hour. Months count that show it to somebody: the probe is there; the heater holds the water and the air is 3 K colder; the true ammonia is three times what it was after two days; the true oxygen falls by 0.4 mg/L within the first hour.

| fault | months that show it | wanted within, h | found within | found at all | half within, h |
| --- | --: | --: | --: | --: | --: |
`, months)
	for _, o := range outcomes {
		within, ever := o.found()
		median := "-"
		if n := len(o.hours); n > 0 && o.hours[n/2] != never {
			median = fmt.Sprintf("%d", o.hours[n/2])
		}
		fmt.Fprintf(&b, "| %s | %d | %d | %d | %d | %s |\n", o.title, len(o.hours), o.within, within, ever, median)
	}
	fmt.Fprintf(&b, "\nFaults are looked for twice as long as is wanted; probes' drift and units every six hours. pH is tested by hand on three evenings a week beside the probe, with an error of 0.1. Oxygen is held against the loop's own balance alone: nobody tests it by hand here.\n")
	return b.String()
}

// found counts the months in which a fault was found in time, and at all.
func (o outcome) found() (within, ever int) {
	for _, h := range o.hours {
		if h != never {
			ever++
		}
		if h != never && h <= o.within {
			within++
		}
	}
	return within, ever
}
