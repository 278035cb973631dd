package main

import (
	"maps"
	"slices"
	"strconv"
	"strings"
)

// Columns of data files by the input that they are.
var columnsOf = map[string][]string{
	"value": {"value", "y", "weight", "yield", "response", "resistance", "count", "length", "len", "height", "size"},
	"group": {"group", "feed", "batch", "month", "g", "treatment", "instrument", "spray", "sample", "variety", "lab", "plate", "tank", "bed"},
	"time":  {"time", "year", "days"}, "event": {"event", "status", "died"}, "arm": {"arm", "group", "treatment", "rx", "trt"},
	"x": {"x"}, "y": {"y"}, "individual": {"individual", "tree", "chick", "subject", "seed", "plant", "fish", "id"}, "tmax_celsius": {"tmax_C"}, "tmin_celsius": {"tmin_C"},
}

// unsaid is what is known of open sets of data and is not in their files.
var unsaid = map[string]map[string]string{
	"data/nottem.csv": {"period": "12"},
	"data/ukgas.csv":  {"period": "4", "season": "multiplicative"},
}

// openSets are small sets of data that everybody who names them means, by words
// of a row's source.
var openSets = map[string]map[string]string{
	// 18 batters of 1970: hits in their first 45 tries, and the averages of the
	// rest of the season, the latter from memory.
	"Efron & Morris": {
		"hits": "18,17,16,15,14,14,13,12,11,11,10x5,9,8,7", "n": "45",
		"later": ".346,.298,.276,.222,.273,.270,.263,.210,.269,.230,.264,.256,.303,.264,.226,.285,.316,.200",
	},
}

// openSet is the set of data that a row's source names, nil where it names none.
func openSet(source string) map[string]string {
	for words, set := range openSets {
		if strings.Contains(source, words) && strings.Contains(source, "baseball") {
			return set
		}
	}
	return nil
}

// wholeFile refers each input that is a list to the column of a file of data
// that it must be. Words behind the file may choose rows: "tree 3".
func (p *prover) wholeFile(file, rest string, e answerer) map[string]string {
	table, err := p.table(file)
	if err != nil {
		return map[string]string{"data": file + ":all"} // refused when it is read, with the reason
	}
	filter, ok := rowsOf(rest, table[0])
	if !ok {
		return nil
	}
	given := map[string]string{}
	for _, in := range e.Inputs {
		if column := columnFor(in.Name, table[0]); column != "" && e.held[in.Name] == "" {
			given[in.Name] = file + ":" + column + filter
		}
	}
	for name, value := range unsaid[file] {
		if takes(e.Formula, name) {
			given[name] = value
		}
	}
	return given
}

// rowsOf reads the words behind a file that choose rows of it: "tree 3",
// "without data row 5".
func rowsOf(words string, header []string) (filter string, ok bool) {
	if words = strings.TrimSpace(words); words == "" {
		return "", true
	}
	if line, found := strings.CutPrefix(words, "without data row "); found {
		return ":without=" + line, true
	}
	where, is, _ := strings.Cut(words, " ")
	return ":" + where + "=" + is, slices.Contains(header, where) && !strings.Contains(is, " ")
}

// blocks refers the inputs of a trial in blocks to the columns that its model
// names: "yield~block+N*P*K".
func blocks(file, rest, response string, factors []string) map[string]string {
	filter, _ := rowsOf(rest, nil)
	given := map[string]string{"value": file + ":" + response + filter, "names": strings.Join(factors, " ")}
	for i, name := range []string{"block", "a", "b", "c"} {
		if i < len(factors) {
			given[name] = file + ":" + factors[i] + filter
		}
	}
	return given
}

// labels are the names of the groups whose means a row gives: those of the file
// that its case names, in order.
func (p *prover) labels(set, number string) string {
	name := "data/" + set + ".csv"
	if number != "" {
		name = "data/" + set + "_" + number + ".csv"
	}
	table, err := p.table(name)
	if err != nil {
		return ""
	}
	at := slices.Index(table[0], columnFor("group", table[0]))
	found := map[string]bool{}
	for _, r := range table[1:] {
		if at >= 0 {
			found[r[at]] = true
		}
	}
	return strings.Join(slices.Sorted(maps.Keys(found)), " ")
}

func columnFor(input string, header []string) string {
	for _, name := range columnsOf[input] {
		for _, h := range header {
			if strings.EqualFold(h, name) {
				return h
			}
		}
	}
	return ""
}

// chick finds the one of the chicks that has these weights, for its days.
func (p *prover) chick(weights []string, e answerer) map[string]string {
	table, err := p.table("data/chickweight.csv")
	if err != nil {
		return nil
	}
	byChick := map[string][]string{}
	for _, r := range table[1:] {
		byChick[r[0]] = append(byChick[r[0]], r[len(r)-1])
	}
	for _, chick := range slices.Sorted(maps.Keys(byChick)) {
		if slices.Equal(byChick[chick], weights) {
			return p.wholeFile("data/chickweight.csv", "chick "+chick, e)
		}
	}
	return nil
}

// year takes the days of one year out of a file of weather; for a formula of a
// single day, that day's.
func (p *prover) year(file, year, latitude string, e answerer) map[string]string {
	given := p.wholeFile(file, "", e)
	for name, reference := range given {
		given[name] = reference + ":date=" + year + "*"
		day, err := strconv.Atoi(e.held["year_day"])
		if err != nil {
			continue
		}
		list, err := p.resolve(given[name])
		if days := strings.Fields(strings.Trim(list, "[]")); err == nil && day >= 1 && day <= len(days) {
			given[name] = days[day-1]
		}
	}
	if takes(e.Formula, "latitude_degrees") {
		given["latitude_degrees"] = latitude
	}
	return given
}
