package mutate

import (
	"fmt"
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"math"
	"path/filepath"
	"strings"

	"golang.org/x/tools/go/packages"
)

// A Literal is one number written in the code of a package. Its file,
// declaration, text and place among the same in that declaration name it, and
// stay as they are when lines move.
type Literal struct {
	File        string `json:"file"` // from the module's root
	Line        int    `json:"line"`
	Declaration string `json:"declaration"` // a function, Type.Method, variable, constant or type
	Text        string `json:"text"`        // as written
	Nth         int    `json:"nth"`         // which of its text in this declaration, from 1
	Changed     string `json:"changed"`     // what is put in its place

	number int // from 1 within the package
	alone  bool
	node   *ast.BasicLit
}

func (l *Literal) String() string {
	return fmt.Sprintf("%s:%d  %s  %s (%d) -> %s", l.File, l.Line, l.Declaration, l.Text, l.Nth, l.Changed)
}

// literals lists the numbers in a package's code, tests excepted.
func literals(root string, p *packages.Package) []*Literal {
	var found []*Literal
	for _, file := range p.Syntax {
		name := fileOf(p, file)
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		if short, err := filepath.Rel(root, name); err == nil {
			name = filepath.ToSlash(short)
		}
		finder := finder{p: p, file: name, seen: map[[2]string]int{}}
		for _, d := range file.Decls {
			finder.declaration(d)
		}
		found = append(found, finder.found...)
	}
	for i, l := range found {
		l.number = i + 1
	}
	return found
}

func fileOf(p *packages.Package, file *ast.File) string {
	return p.Fset.Position(file.Package).Filename
}

// A finder collects the literals of one file.
type finder struct {
	p     *packages.Package
	file  string
	seen  map[[2]string]int // by declaration and text
	found []*Literal
}

func (f *finder) declaration(d ast.Decl) {
	switch d := d.(type) {
	case *ast.FuncDecl:
		f.within(functionName(d), d)
	case *ast.GenDecl:
		for _, spec := range d.Specs {
			switch spec := spec.(type) {
			case *ast.ValueSpec:
				f.within(spec.Names[0].Name, spec)
			case *ast.TypeSpec:
				f.within(spec.Name.Name, spec)
			}
		}
	}
}

func functionName(d *ast.FuncDecl) string {
	if d.Recv == nil || len(d.Recv.List) == 0 {
		return d.Name.Name
	}
	receiver := d.Recv.List[0].Type
	for {
		switch r := receiver.(type) {
		case *ast.StarExpr:
			receiver = r.X
		case *ast.IndexExpr:
			receiver = r.X
		case *ast.IndexListExpr:
			receiver = r.X
		case *ast.Ident:
			return r.Name + "." + d.Name.Name
		default:
			return d.Name.Name
		}
	}
}

func (f *finder) within(declaration string, node ast.Node) {
	ast.PreorderStack(node, nil, func(n ast.Node, stack []ast.Node) bool {
		if l, ok := n.(*ast.BasicLit); ok && (l.Kind == token.INT || l.Kind == token.FLOAT) {
			f.seen[[2]string{declaration, l.Value}]++
			f.found = append(f.found, &Literal{
				File: f.file, Line: f.p.Fset.Position(l.Pos()).Line, Declaration: declaration,
				Text: l.Value, Nth: f.seen[[2]string{declaration, l.Value}], Changed: change(f.p.TypesInfo, l, stack), node: l,
			})
		}
		return true
	})
}

// change says what to put in the place of a number: twice the number, except
// where twice would mean the same.
func change(info *types.Info, l *ast.BasicLit, stack []ast.Node) string {
	mantissa, exponent, power := strings.Cut(strings.ToLower(l.Value), "e-")
	switch {
	case strings.Trim(l.Value, "0._xX") == "": // twice nothing
		return "1"
	case power && strings.Trim(mantissa, "0.") == "1": // 1e-9, a tolerance as a rule: twice as near is near still
		return mantissa + "e" + exponent
	case isSign(info, l, stack): // math.Inf(1), -1 for all: only the sign is looked at
		return "(-1)"
	case isBitSize(info, l, stack): // anything but 32 is 64
		return "32"
	case isHuge(l): // twice would not fit into 64 bits
		return "(" + l.Value + " - 1)"
	}
	return "(2*" + l.Value + ")"
}

func isHuge(l *ast.BasicLit) bool {
	if l.Kind != token.INT {
		return false
	}
	v, fits := constant.Int64Val(constant.MakeFromLiteral(l.Value, l.Kind, 0))
	return !fits || v > math.MaxInt64/2
}

func isSign(info *types.Info, l *ast.BasicLit, stack []ast.Node) bool {
	if l.Value != "1" {
		return false
	}
	negative, ok := stack[len(stack)-1].(*ast.UnaryExpr)
	if !ok || negative.Op != token.SUB {
		return ofInfinity(called(info, stack))
	}
	basic, ok := info.TypeOf(negative).Underlying().(*types.Basic)
	return ok && basic.Info()&types.IsInteger != 0
}

func ofInfinity(function string) bool { return function == "math.Inf" || function == "math.IsInf" }

func isBitSize(info *types.Info, l *ast.BasicLit, stack []ast.Node) bool {
	function := called(info, stack)
	return l.Value == "64" && strings.HasPrefix(function, "strconv.") && strings.HasSuffix(function, "Float")
}

// called names the function of which the innermost node is an argument.
func called(info *types.Info, stack []ast.Node) string {
	if call, ok := stack[len(stack)-1].(*ast.CallExpr); ok {
		if selector, ok := call.Fun.(*ast.SelectorExpr); ok {
			if f, ok := info.Uses[selector.Sel].(*types.Func); ok {
				return f.FullName()
			}
		}
	}
	return ""
}
