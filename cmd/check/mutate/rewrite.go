package mutate

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"maps"
	"path/filepath"
	"slices"
	"strings"

	"golang.org/x/tools/go/packages"
)

const runtime = "freshet.example/cmd/check/mutate/choice"

// A rewriting is a package in which each constant expression that stands where
// a variable may stand is a switch between itself and its variants.
type rewriting struct {
	p         *packages.Package
	constants *constants
	kinds     map[string]string // names for types, by how the support file writes them
	imports   map[string]string // names for packages, by path
}

// An edit replaces a stretch of a file.
type edit struct {
	from, to token.Pos
	text     string
}

// rewrite returns the new files by name, as an overlay wants them. Literals
// that must stay constant are marked as alone and left as they are.
func rewrite(p *packages.Package, c *constants) map[string]string {
	r := &rewriting{p: p, constants: c, kinds: map[string]string{}, imports: map[string]string{}}
	for _, file := range p.Syntax {
		r.each(file, func(e ast.Expr, stack []ast.Node) {
			if mustBeConstant(p.TypesInfo, e, stack) {
				for _, l := range c.within(e) {
					l.alone = true
				}
			}
		})
	}
	written := map[string]string{}
	for _, file := range p.Syntax {
		written[fileOf(p, file)] = r.file(file)
	}
	written[filepath.Join(p.Dir, "choice_of.go")] = r.support()
	written[filepath.Join(p.Dir, "choice_of_test.go")] = testMain(p)
	return written
}

// each visits the constant expressions of a file that are part of no larger
// one, those of constant declarations excepted.
func (r *rewriting) each(file *ast.File, visit func(e ast.Expr, stack []ast.Node)) {
	ast.PreorderStack(file, nil, func(n ast.Node, stack []ast.Node) bool {
		if d, ok := n.(*ast.GenDecl); ok && (d.Tok == token.CONST || d.Tok == token.IMPORT) {
			return false
		}
		e, ok := n.(ast.Expr)
		if !ok || r.p.TypesInfo.Types[e].Value == nil {
			return true
		}
		visit(e, stack)
		return false
	})
}

// mustBeConstant says that Go wants a constant here: the length of an array,
// or an index in a list that is written out.
func mustBeConstant(info *types.Info, e ast.Expr, stack []ast.Node) bool {
	switch parent := stack[len(stack)-1].(type) {
	case *ast.ArrayType:
		return parent.Len == e
	case *ast.KeyValueExpr:
		list, ok := stack[len(stack)-2].(*ast.CompositeLit)
		if !ok || parent.Key != e {
			return false
		}
		switch info.TypeOf(list).Underlying().(type) {
		case *types.Array, *types.Slice:
			return true
		}
	}
	return false
}

func (r *rewriting) file(file *ast.File) string {
	var edits []edit
	r.each(file, func(e ast.Expr, _ []ast.Node) {
		if variants := r.constants.variants(e, 0); len(variants) > 0 {
			edits = append(edits, edit{e.Pos(), e.End(), r.choice(e, variants)})
		}
	})
	ast.Inspect(file, func(n ast.Node) bool {
		if d, ok := n.(*ast.GenDecl); ok && d.Tok == token.CONST {
			edits = append(edits, edit{d.End(), d.End(), r.constants.shadows(d)})
		}
		return true
	})
	slices.SortFunc(edits, func(a, b edit) int { return int(a.from - b.from) })
	var out strings.Builder
	at := file.FileStart
	for _, e := range edits {
		out.WriteString(r.constants.between(at, e.from) + e.text)
		at = e.to
	}
	return out.String() + r.constants.between(at, file.FileEnd)
}

// choice is the switch that stands for an expression.
func (r *rewriting) choice(e ast.Expr, variants []variant) string {
	text := r.constants.between(e.Pos(), e.End())
	kind := r.kind(r.p.TypesInfo.TypeOf(e))
	for _, v := range variants {
		text = fmt.Sprintf("choiceOf[%s](%d, %s, %s)", kind, v.literal.number, text, v.text)
	}
	return text
}

// kind is a name for a type that means the same anywhere in the package. Types
// of a function's own and type parameters have only the one they have.
func (r *rewriting) kind(t types.Type) string {
	t = types.Default(t)
	var object *types.TypeName
	switch t := t.(type) {
	case *types.Named:
		object = t.Obj()
	case *types.Alias:
		object = t.Obj()
	}
	if object == nil || object.Pkg() == nil || object.Parent() != object.Pkg().Scope() {
		return types.TypeString(t, nil)
	}
	full := object.Name()
	if path := object.Pkg().Path(); path != r.p.PkgPath {
		full = r.imported(path) + "." + full
	}
	return named(r.kinds, full, "choiceKind")
}

func (r *rewriting) imported(path string) string { return named(r.imports, path, "choiceImport") }

func named(names map[string]string, of, prefix string) string {
	name, ok := names[of]
	if !ok {
		name = fmt.Sprint(prefix, len(names))
		names[of] = name
	}
	return name
}

// support is a file more: what the switches are made of.
func (r *rewriting) support() string {
	var out strings.Builder
	fmt.Fprintf(&out, "package %s\n\nimport choice %q\n", r.p.Name, runtime)
	for _, path := range slices.Sorted(maps.Keys(r.imports)) {
		fmt.Fprintf(&out, "import %s %q\n", r.imports[path], path)
	}
	for _, full := range slices.Sorted(maps.Keys(r.kinds)) {
		fmt.Fprintf(&out, "type %s = %s\n", r.kinds[full], full)
	}
	out.WriteString("func choiceOf[T any](literal int, written, changed T) T { return choice.Of(literal, written, changed) }\n")
	return out.String()
}

// testMain is a file more for the tests.
func testMain(p *packages.Package) string {
	return fmt.Sprintf("package %s\n\nimport (\n\t\"os\"\n\t\"testing\"\n\n\tchoice %q\n)\n\nfunc TestMain(m *testing.M) { os.Exit(choice.Run(m)) }\n", p.Name, runtime)
}
