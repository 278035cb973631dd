package words

import (
	"strings"
	"time"

	"freshet.example/husbandry/crop"
	"freshet.example/husbandry/fish"
)

// nameInTable reads a name that must stand in one of the contract's tables.
// Tables that this program does not hold are left to the server.
func nameInTable(table, text string) (string, error) {
	switch table {
	case "species":
		name, err := listed("species", text, fish.SpeciesNames())
		return Snake(name), err
	case "crop":
		if c, err := crop.Find(spaced(text)); err == nil {
			return c.Name, nil
		}
		return listed("crop", text, crop.CropNames())
	case "time_zone":
		if _, err := time.LoadLocation(text); err != nil {
			return "", problem("", unknownName, "\""+text+"\" is no time zone", "write it like Europe/Rome")
		}
	case "month_day":
		if _, err := time.Parse("2006-01-02", "2000-"+text); err != nil {
			return "", problem("", badDate, "\""+text+"\" is no day of the year", "write it MM-DD, like 04-15")
		}
	case "currency":
		return strings.ToUpper(text), nil
	}
	return text, nil
}

// listed finds a name, or the one name that holds the words typed.
func listed(table, text string, names []string) (string, error) {
	want := spaced(text)
	var near []string
	for _, n := range names {
		if strings.EqualFold(n, want) {
			return n, nil
		}
		if strings.Contains(strings.ToLower(n), want) || strings.Contains(want, strings.ToLower(n)) {
			near = append(near, n)
		}
	}
	if len(near) == 1 {
		return near[0], nil
	}
	if len(near) == 0 {
		near = names
	}
	return "", problem("", unknownName, "\""+text+"\" is not in the table of "+plural(table), "it has "+some(near))
}

// spaced is a name as the tables write it: words in lower case.
func spaced(text string) string { return strings.ReplaceAll(Snake(text), "_", " ") }

func plural(noun string) string {
	if strings.HasSuffix(noun, "s") {
		return noun
	}
	return noun + "s"
}
