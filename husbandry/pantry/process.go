package pantry

import (
	"strings"

	"freshet.example/husbandry/quantity"
)

// A Process is one cell of the guide's tables: how long, at what gauge pressure
// (zero in a boiling-water canner), and whether acid must be added.
type Process struct {
	Food    string
	Minutes quantity.Minutes
	Psi     float64
	Acidify bool
}

// boilingTops are the upper altitudes of the boiling-water columns in feet; the
// last column is printed "above 6,000", and we stop at 10,000.
var boilingTops = [...]quantity.Feet{1000, 3000, 6000, 10_000}

// A boilingRow is a food in a boiling-water canner: minutes by column.
type boilingRow struct {
	food   string
	pints  [4]quantity.Minutes
	quarts [4]quantity.Minutes
}

// boilingRows: AIB 539, guide 3. Every one needs acid in the jar.
var boilingRows = []boilingRow{
	{"raw whole tomatoes", [4]quantity.Minutes{85, 90, 95, 100}, [4]quantity.Minutes{85, 90, 95, 100}},
	{"whole tomatoes in juice", [4]quantity.Minutes{85, 90, 95, 100}, [4]quantity.Minutes{85, 90, 95, 100}},
	{"whole tomatoes in water", [4]quantity.Minutes{40, 45, 50, 55}, [4]quantity.Minutes{45, 50, 55, 60}},
}

var (
	dialTops     = [...]quantity.Feet{2000, 4000, 6000, 8000}
	weightedTops = [...]quantity.Feet{1000, 10_000} // printed "above 1,000"
)

// A pressureRow is a food in a pressure canner.
type pressureRow struct {
	food          string
	pints, quarts quantity.Minutes
	dial          [4]float64
	weighted      [2]float64
	acidify       bool
}

// pressureRows: AIB 539, guides 3 and 4. A dial gauge asks 11 and not 10 psi at
// the lowest altitudes; a list in circulation that prints 10 is an older table.
var pressureRows = []pressureRow{
	{"snap beans", 20, 25, [4]float64{11, 12, 13, 14}, [2]float64{10, 15}, false},
	{"whole tomatoes in juice", 25, 25, [4]float64{11, 12, 13, 14}, [2]float64{10, 15}, true},
}

// column returns the first column whose top is not below the altitude.
func column(tops []quantity.Feet, altitude quantity.Feet) (i int, err error) {
	if err = quantity.Within("altitude", float64(altitude), 0, float64(tops[len(tops)-1]), "ft", guide); err != nil {
		return i, err
	}
	for altitude > tops[i] {
		i++
	}
	return i, nil
}

// BoilingWater returns the minutes in a boiling-water canner for an acidified
// food, a jar and an altitude from 0 to 10,000 ft. Low-acid food has none, at
// any altitude.
func BoilingWater(food string, jar Jar, altitude quantity.Feet) (Canning[Process], error) {
	row, err := boilingOf(food)
	if err != nil {
		return Canning[Process]{}, err
	}
	i, err := column(boilingTops[:], altitude)
	if err != nil {
		return Canning[Process]{}, err
	}
	minutes := row.quarts[i]
	if jar == Pint {
		minutes = row.pints[i]
	}
	return canned(Process{Food: row.food, Minutes: minutes, Acidify: true}, nil)
}

// DialGauge returns the minutes and pressure in a canner with a dial gauge, from
// 0 to 8,000 ft.
func DialGauge(food string, jar Jar, altitude quantity.Feet) (Canning[Process], error) {
	row, err := pressureOf(food)
	if err != nil {
		return Canning[Process]{}, err
	}
	i, err := column(dialTops[:], altitude)
	if err != nil {
		return Canning[Process]{}, err
	}
	return canned(row.process(jar, row.dial[i]), nil)
}

// WeightedGauge returns the minutes and pressure in a canner with a weighted
// gauge, from 0 to 10,000 ft.
func WeightedGauge(food string, jar Jar, altitude quantity.Feet) (Canning[Process], error) {
	row, err := pressureOf(food)
	if err != nil {
		return Canning[Process]{}, err
	}
	i, err := column(weightedTops[:], altitude)
	if err != nil {
		return Canning[Process]{}, err
	}
	return canned(row.process(jar, row.weighted[i]), nil)
}

// boilingOf and pressureOf find a food by its whole name only: "beans" might be
// dry beans, which take far longer than snap beans.
func boilingOf(food string) (*boilingRow, error) {
	for i := range boilingRows {
		if strings.EqualFold(boilingRows[i].food, food) {
			return &boilingRows[i], nil
		}
	}
	return nil, &NotInTableError{"boiling-water time of \"" + food + "\""}
}

func pressureOf(food string) (*pressureRow, error) {
	for i := range pressureRows {
		if strings.EqualFold(pressureRows[i].food, food) {
			return &pressureRows[i], nil
		}
	}
	return nil, &NotInTableError{"pressure process of \"" + food + "\""}
}

func (r *pressureRow) process(jar Jar, psi float64) Process {
	minutes := r.quarts
	if jar == Pint {
		minutes = r.pints
	}
	return Process{Food: r.food, Minutes: minutes, Psi: psi, Acidify: r.acidify}
}
