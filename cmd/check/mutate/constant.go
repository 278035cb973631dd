package mutate

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"os"
	"slices"
	"strings"

	"golang.org/x/tools/go/packages"
)

// constants knows, of the constant expressions of a package, which literals
// they depend on, directly or by the names of other constants.
type constants struct {
	p        *packages.Package
	literals map[*ast.BasicLit]*Literal
	declared map[types.Object]definition
	known    map[types.Object][]*Literal
	text     map[string][]byte // of files, by name
}

// A definition is what a constant is declared to be. In a group, it may stand
// with an earlier name.
type definition struct {
	value, kind ast.Expr
	iota        int
}

// A variant is an expression in which one literal is changed.
type variant struct {
	literal *Literal
	text    string
}

func newConstants(p *packages.Package, found []*Literal) (*constants, error) {
	c := &constants{p: p, literals: map[*ast.BasicLit]*Literal{}, declared: map[types.Object]definition{}, known: map[types.Object][]*Literal{}, text: map[string][]byte{}}
	for _, l := range found {
		c.literals[l.node] = l
	}
	for _, file := range p.Syntax {
		name := fileOf(p, file)
		text, err := os.ReadFile(name) //nolint:gosec // the files of the package that is examined
		if err != nil {
			return nil, err
		}
		c.text[name] = text
		ast.Inspect(file, func(n ast.Node) bool {
			if d, ok := n.(*ast.GenDecl); ok && d.Tok == token.CONST {
				c.declare(d)
			}
			return true
		})
	}
	return c, nil
}

func (c *constants) declare(d *ast.GenDecl) {
	var last *ast.ValueSpec
	for i, s := range d.Specs {
		spec := s.(*ast.ValueSpec)
		if len(spec.Values) > 0 {
			last = spec
		}
		for n, name := range spec.Names {
			if object := c.p.TypesInfo.Defs[name]; object != nil && n < len(last.Values) {
				c.declared[object] = definition{last.Values[n], last.Type, i}
			}
		}
	}
}

// of lists the literals a constant depends on.
func (c *constants) of(constant types.Object) []*Literal {
	if found, ok := c.known[constant]; ok {
		return found
	}
	var found []*Literal
	if d, ok := c.declared[constant]; ok {
		found = c.within(d.value)
	}
	c.known[constant] = found
	return found
}

// within lists the literals an expression depends on.
func (c *constants) within(e ast.Expr) []*Literal {
	var found []*Literal
	ast.Inspect(e, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.BasicLit:
			if l := c.literals[n]; l != nil {
				found = append(found, l)
			}
		case *ast.Ident:
			found = append(found, c.of(c.p.TypesInfo.Uses[n])...)
		}
		return true
	})
	slices.SortFunc(found, func(a, b *Literal) int { return a.number - b.number })
	return slices.Compact(found)
}

// variants writes an expression once for each literal it depends on that is
// not to be compiled alone.
func (c *constants) variants(e ast.Expr, iota int) []variant {
	var all []variant
	for _, l := range c.within(e) {
		if !l.alone {
			all = append(all, variant{l, c.write(e, l, iota)})
		}
	}
	return all
}

// write is the text of an expression with one literal changed, or as it is
// written when there is none.
func (c *constants) write(e ast.Expr, changed *Literal, iota int) string {
	var out strings.Builder
	at := e.Pos()
	put := func(n ast.Expr, text string) {
		out.WriteString(c.between(at, n.Pos()) + text)
		at = n.End()
	}
	ast.Inspect(e, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.BasicLit:
			if changed != nil && changed.node == n {
				put(n, changed.Changed)
			}
		case *ast.Ident:
			switch object := c.p.TypesInfo.Uses[n]; {
			case object == types.Universe.Lookup("iota"):
				put(n, fmt.Sprint(iota))
			case changed != nil && slices.Contains(c.of(object), changed):
				put(n, changedName(object, changed))
			}
		}
		return true
	})
	return out.String() + c.between(at, e.End())
}

// changedName is the name of a constant in which a literal is changed.
func changedName(constant types.Object, changed *Literal) string {
	return fmt.Sprintf("%s_changed%d", constant.Name(), changed.number)
}

// shadows declares each constant of a group once more for each literal it
// depends on.
func (c *constants) shadows(d *ast.GenDecl) string {
	var out strings.Builder
	for _, s := range d.Specs {
		for _, name := range s.(*ast.ValueSpec).Names {
			object := c.p.TypesInfo.Defs[name]
			if object == nil || name.Name == "_" {
				continue
			}
			definition := c.declared[object]
			kind := ""
			if definition.kind != nil {
				kind = c.between(definition.kind.Pos(), definition.kind.End())
			}
			for _, v := range c.variants(definition.value, definition.iota) {
				fmt.Fprintf(&out, "\nconst %s %s = %s", changedName(object, v.literal), kind, v.text)
			}
		}
	}
	if out.Len() > 0 {
		out.WriteString("\n")
	}
	return out.String()
}

// between is the text of a file from one place to another.
func (c *constants) between(from, to token.Pos) string {
	start, end := c.p.Fset.Position(from), c.p.Fset.Position(to)
	return string(c.text[start.Filename][start.Offset:end.Offset])
}
