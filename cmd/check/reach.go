package main

import (
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

const withoutFormula = "cmd/check/no_formula.txt"

// reach wants each exported function of husbandry to be named where its room
// lists its formulas (formulas*.go), so that it can be asked over the network
// and at the command line, or to stand in no_formula.txt with a reason.
func reach(root string) ([]string, error) {
	exported, named, err := functions(root)
	if err != nil {
		return nil, err
	}
	text, err := os.ReadFile(filepath.Join(root, withoutFormula)) //nolint:gosec // a file of the tree
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	excused := map[string]bool{}
	var faults []string
	for line := range strings.Lines(string(text)) {
		words := strings.Fields(line)
		if len(words) == 0 || words[0] == "#" {
			continue
		}
		f := words[0]
		excused[f] = true
		switch {
		case len(words) == 1:
			faults = append(faults, withoutFormula+": "+f+" stands without a reason")
		case !exported[f]:
			faults = append(faults, withoutFormula+": "+f+" is no exported function; take its line out")
		case named[f]:
			faults = append(faults, withoutFormula+": "+f+" is among the formulas; take its line out")
		}
	}
	for f := range exported {
		if !named[f] && !excused[f] {
			faults = append(faults, f+": cannot be asked. Add it to its room's formulas*.go, or to "+withoutFormula+" with the reason why not")
		}
	}
	return faults, nil
}

// functions are the exported functions of husbandry, and what the files that
// list formulas name.
func functions(root string) (exported, named map[string]bool, err error) {
	exported, named = map[string]bool{}, map[string]bool{}
	err = filepath.WalkDir(filepath.Join(root, "husbandry"), func(path string, entry fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case entry.IsDir() && (entry.Name() == "formula" || entry.Name() == "testdata"):
			return filepath.SkipDir
		case !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go"):
			return nil
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		for _, d := range file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Recv == nil && f.Name.IsExported() {
				exported[file.Name.Name+"."+f.Name.Name] = true
			}
		}
		if strings.HasPrefix(filepath.Base(path), "formulas") {
			names(file, named)
		}
		return nil
	})
	if errors.Is(err, fs.ErrNotExist) {
		err = nil
	}
	return exported, named, err
}

// names collects what a file names, as package.Name.
func names(file *ast.File, named map[string]bool) {
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.SelectorExpr:
			if other, ok := n.X.(*ast.Ident); ok {
				named[other.Name+"."+n.Sel.Name] = true
			}
		case *ast.Ident:
			named[file.Name.Name+"."+n.Name] = true
		}
		return true
	})
}
