package main

import (
	"bytes"
	"encoding/csv"
	"errors"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/published"
)

// inputs reads what a row gives, in the formula's own names and units. Nothing
// is added that the row, its name or its data do not say.
func (p *prover) inputs(row figureRow, e answerer) (map[string]string, error) {
	if name := twice(row.Inputs); name != "" {
		return nil, errors.New(name + " is given twice")
	}
	given := formula.Parse(parted(row.Inputs))
	if told := p.told(row, e); told != nil {
		given = told
	}
	for name, value := range openSet(row.Source) {
		if takes(e.Formula, name) && given[name] == "" {
			given[name] = value
		}
	}
	if m := groupsForm.FindStringSubmatch(row.Quantity); m != nil && takes(e.Formula, "labels") && given["labels"] == "" {
		given["labels"] = p.labels(m[1], m[2])
	}
	given = fromNought(e.Formula, given)
	typed := map[string]string{}
	for name, value := range given {
		if remarkNames[strings.ToLower(name)] && !takes(e.Formula, name) {
			continue
		}
		value, err := p.resolve(value)
		if err != nil {
			return nil, err
		}
		name, value = meant(e.Formula, name, published.Bare(value))
		full, plain, err := workInput(e.Formula, name, value)
		if err != nil {
			return nil, err
		}
		if other, twice := typed[full]; twice && other != plain {
			return nil, errors.New(full + " is given twice, as " + min(other, plain) + " and as " + max(other, plain))
		}
		typed[full] = plain
	}
	return typed, nil
}

// twice finds a name that a row gives again between semicolons.
func twice(inputs string) string {
	seen := map[string]bool{}
	for _, piece := range strings.Split(inputs, ";") {
		name, _, pair := strings.Cut(piece, "=")
		if name = strings.TrimSpace(name); pair && seen[name] {
			return name
		}
		seen[name] = true
	}
	return ""
}

// fromNought renames what a row counts from one and we count from nought, where
// the row gives both: W1_g and W2_g are W0_g and W1_g.
func fromNought(f *formula.Formula, given map[string]string) map[string]string {
	for name := range given {
		nought, second := strings.Replace(name, "1", "0", 1), strings.Replace(name, "1", "2", 1)
		if given[second] == "" || given[nought] != "" || nought == name || !takes(f, nought) || !takes(f, name) {
			continue
		}
		renamed := maps.Clone(given)
		renamed[nought], renamed[name] = given[name], given[second]
		delete(renamed, second)
		return renamed
	}
	return given
}

// byCommas are pairs between commas, none of which holds a list.
var byCommas = regexp.MustCompile(`^[^=<>,;\[\]]+[=<>]+[^=<>,;\[\]]+(,\s*[^=<>,;\[\]\d][^=<>,;\[\]]*[=<>]+[^=<>,;\[\]]+)+$`)

// byColons are pairs of a name and a figure, "pH: 8; temp_C: 24".
var byColons = regexp.MustCompile(`^\s*\w+\s*:\s*[-+~]?[\d.,]+[^:;=<>]*(;\s*\w+\s*:\s*[-+~]?[\d.,]+[^:;=<>]*)*;?\s*$`)

// parted writes pairs as we do where a row has commas between them or colons
// within them.
func parted(inputs string) string {
	if byColons.MatchString(inputs) {
		return strings.ReplaceAll(inputs, ":", "=")
	}
	if byCommas.MatchString(inputs) {
		return strings.ReplaceAll(inputs, ",", ";")
	}
	return inputs
}

// remarkNames are given in rows for the reader, not for the formula.
var remarkNames = map[string]bool{"note": true, "notes": true, "remark": true, "comment": true}

func takes(f *formula.Formula, name string) bool {
	for _, in := range f.Inputs {
		if in.Name == name {
			return true
		}
		for _, a := range in.Also {
			if a.Name == name {
				return true
			}
		}
	}
	return false
}

// resolve reads a value that refers to a column of a file of data, which lies
// beside the file of figures. Other values are themselves.
func (p *prover) resolve(value string) (string, error) {
	r, ok := published.ParseReference(value)
	if !ok {
		return value, nil
	}
	table, err := p.table(r.File)
	if err != nil {
		return "", err
	}
	return r.List(table)
}

func (p *prover) table(file string) ([][]string, error) {
	if table, read := p.tables[file]; read {
		return table, nil
	}
	if !filepath.IsLocal(file) {
		return nil, errors.New(file + " does not lie beside the file of figures")
	}
	raw, err := os.ReadFile(filepath.Join(p.folder, file))
	if err != nil {
		return nil, errors.New(file + " cannot be read beside the file of figures")
	}
	table, err := tableOf(file, raw)
	if err != nil {
		return nil, errors.New(file + ": " + err.Error())
	}
	p.tables[file] = table
	return table, nil
}

func tableOf(file string, raw []byte) ([][]string, error) {
	if strings.HasSuffix(file, ".dat") {
		return published.Columns(string(raw))
	}
	return csv.NewReader(bytes.NewReader(raw)).ReadAll()
}

// remember keeps what rows below may refer to.
func (p *prover) remember(row figureRow) {
	given := formula.Parse(row.Inputs)
	if len(given) == 0 {
		return
	}
	p.above = given
	if m := dataName.FindStringSubmatch(row.Source); m != nil {
		p.named[m[1]] = given
	}
}

var dataName = regexp.MustCompile(`\b([a-z]\w+) data\b`)
