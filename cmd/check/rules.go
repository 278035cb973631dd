package main

import (
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

const module = "freshet.example/"

// allowed says, for each folder, what of this module it may import. A test
// file may import besides what helps it test.
var allowed = map[string][]string{
	"husbandry":      {"husbandry"},
	"api":            {"api"},
	"migrations":     {},
	"store":          {"store", "migrations", "husbandry"},
	"server":         {"server", "api", "store", "husbandry"},
	"clients/device": {"clients/device", "api", "husbandry"},
	"clients/web":    {"clients/web", "husbandry"},
	"cmd":            {"api", "clients", "cmd", "husbandry", "migrations", "server", "store"},
}

// pure is what husbandry may import of the standard library: no clock, files
// (what is embedded is part of the program), network, and nothing that would make
// it large as WebAssembly. Chance comes from a seed, so that the same question has
// the same answer.
var pure = []string{"cmp", "embed", "errors", "iter", "maps", "math", "math/bits", "math/cmplx", "math/rand/v2", "slices", "sort", "strconv", "strings", "sync", "unicode", "unicode/utf8"}

// rules reads every Go file and migration below root and lists what is wrong.
func rules(root string) ([]string, error) {
	var faults []string
	captioned := map[string]bool{}
	err := filepath.WalkDir(root, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || skipped(path, entry) {
			return skip(entry, err)
		}
		if !strings.HasSuffix(path, ".go") {
			return nil
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly|parser.ParseComments)
		if err != nil {
			return err
		}
		folder := filepath.Dir(path)
		captioned[folder] = captioned[folder] || caption(file)
		faults = append(faults, imports(path, file)...)
		return nil
	})
	for folder, ok := range captioned {
		if !ok {
			faults = append(faults, folder+": no package comment says what it is for")
		}
	}
	named, migrationErr := migrations(filepath.Join(root, "migrations"))
	mute, reachErr := reach(root)
	faults = append(append(faults, named...), mute...)
	slices.Sort(faults)
	return faults, errors.Join(err, migrationErr, reachErr)
}

func skipped(path string, entry fs.DirEntry) bool {
	name := entry.Name()
	return entry.IsDir() && path != "." && (strings.HasPrefix(name, ".") || name == "node_modules" || name == "tools" || name == "testdata")
}

func skip(entry fs.DirEntry, err error) error {
	if err == nil && entry.IsDir() {
		return filepath.SkipDir
	}
	return err
}

func caption(file *ast.File) bool {
	return file.Doc != nil && (strings.HasPrefix(file.Doc.Text(), "Package ") || strings.HasPrefix(file.Doc.Text(), "Command ")) ||
		file.Name.Name == "freshetv1" // generated
}

// imports lists what a file imports and may not.
func imports(path string, file *ast.File) []string {
	test := strings.HasSuffix(path, "_test.go") || strings.HasSuffix(filepath.Base(filepath.Dir(path)), "test")
	room := roomOf(path)
	var faults []string
	for _, spec := range file.Imports {
		name, err := strconv.Unquote(spec.Path.Value)
		if err != nil {
			continue
		}
		if fault := importFault(room, name, test); fault != "" {
			faults = append(faults, path+": imports "+name+": "+fault)
		}
	}
	return faults
}

// roomOf is the folder of the table that a file belongs to.
func roomOf(path string) string {
	for room := range allowed {
		if strings.HasPrefix(path, room+"/") {
			return room
		}
	}
	return ""
}

func importFault(room, name string, test bool) string {
	own, ours := strings.CutPrefix(name, module)
	switch {
	case ours && within(own, "cmd") && room != "cmd":
		return "nobody imports cmd"
	case ours && room != "" && !test && !slices.ContainsFunc(allowed[room], func(a string) bool { return within(own, a) }):
		return room + " may not"
	case room == "husbandry" && !ours && !test && !slices.Contains(pure, name):
		return "husbandry is pure"
	}
	return ""
}

func within(path, folder string) bool { return path == folder || strings.HasPrefix(path, folder+"/") }

var migrationName = regexp.MustCompile(`^(\d{4}_[a-z_]+)\.(up|down)\.sql$`)

// migrations are named NNNN_noun, in pairs, each number once: golang-migrate
// skips in silence what it cannot parse. Numbers are given out beforehand to
// those who write steps at the same time, so there may be gaps; a gap is never
// filled once a release has gone past it, for its step would not be applied.
func migrations(folder string) ([]string, error) {
	entries, err := os.ReadDir(folder)
	files, nouns := map[string]int{}, map[string]int{}
	var faults []string
	for _, entry := range entries {
		if !strings.HasSuffix(entry.Name(), ".sql") {
			continue
		}
		parts := migrationName.FindStringSubmatch(entry.Name())
		if parts == nil {
			faults = append(faults, "migrations/"+entry.Name()+": is not named NNNN_noun.up.sql or .down.sql")
			continue
		}
		if files[parts[1]]++; files[parts[1]] == 1 {
			nouns[parts[1][:4]]++
		}
	}
	for step, n := range files {
		if n != 2 || nouns[step[:4]] != 1 {
			faults = append(faults, "migrations/"+step+": has no pair, or its number is another's too")
		}
	}
	return faults, err
}
