package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// A mutant is one change: a piece of a file in other words.
type mutant struct {
	in, file  string // the package and its file
	line      int
	from, to  int // bytes of the file
	was, gets string
	kind      string
}

func (m mutant) String() string {
	one := func(s string) string { return strings.Join(strings.Fields(s), " ") }
	return fmt.Sprintf("%s/%s:%d\t%s\t%s → %s", m.place(), filepath.Base(m.file), m.line, m.kind, one(m.was), one(m.gets))
}

// place is the package within the module, room the folder at its top.
func (m mutant) place() string { _, in, _ := strings.Cut(m.in, "/"); return in }
func (m mutant) room() string  { room, _, _ := strings.Cut(m.place(), "/"); return room }

// mutants are all changes of a package.
func (p pack) mutants() ([]mutant, error) {
	var all []mutant
	for _, name := range p.GoFiles {
		file := filepath.Join(p.Dir, name)
		text, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		found, err := changes(string(text))
		if err != nil {
			return nil, fmt.Errorf("%s: %w", file, err)
		}
		for i := range found {
			found[i].in, found[i].file = p.ImportPath, file
		}
		all = append(all, found...)
	}
	return all, nil
}

// changes are those that a source may be given.
// A switch over the kinds of expression, of which each is changed in its own way.
//
//gocyclo:ignore
func changes(text string) ([]mutant, error) {
	files := token.NewFileSet()
	tree, err := parser.ParseFile(files, "", text, parser.SkipObjectResolution)
	if err != nil {
		return nil, err
	}
	var all []mutant
	add := func(kind string, from, to token.Pos, gets string) {
		a, b := files.Position(from), files.Position(to)
		all = append(all, mutant{line: a.Line, from: a.Offset, to: b.Offset, was: text[a.Offset:b.Offset], gets: gets, kind: kind})
	}
	source := func(n ast.Node) string {
		return text[files.Position(n.Pos()).Offset:files.Position(n.End()).Offset]
	}
	var inspect func(ast.Node) bool
	inspect = func(n ast.Node) bool {
		switch x := n.(type) {
		case *ast.ImportSpec, *ast.IndexExpr, *ast.SliceExpr, *ast.ArrayType, *ast.Field:
			return false // where a number counts places
		case *ast.ForStmt:
			ast.Inspect(x.Body, inspect)
			return false
		case *ast.CallExpr:
			if f, ok := x.Fun.(*ast.Ident); ok && len(x.Args) == 2 {
				if other, ok := map[string]string{"min": "max", "max": "min"}[f.Name]; ok {
					add("compared", f.Pos(), f.End(), other)
				}
			}
			return !words(x)
		case *ast.BasicLit:
			if less, ok := off(x, 0.8); ok {
				add("a fifth less", x.Pos(), x.End(), less)
			}
			if more, ok := off(x, 1.2); ok {
				add("a fifth more", x.Pos(), x.End(), more)
			}
		case *ast.BinaryExpr:
			if isText(x) || isNil(x.Y) {
				return false
			}
			at, end := x.OpPos, x.OpPos+token.Pos(len(x.Op.String()))
			if to, ok := signs[x.Op]; ok {
				add("sign", at, end, to)
				add("dropped", x.Pos(), x.End(), source(x.X))
			}
			if to, ok := orders[x.Op]; ok {
				add("compared", at, end, to)
			}
		}
		return true
	}
	ast.Inspect(tree, inspect)
	return all, nil
}

// signs and orders are the operators that are turned, each into what it becomes.
var (
	signs  = map[token.Token]string{token.ADD: "-", token.SUB: "+", token.MUL: "/", token.QUO: "*"}
	orders = map[token.Token]string{
		token.LSS: ">=", token.GEQ: "<", token.GTR: "<=", token.LEQ: ">", token.EQL: "!=", token.NEQ: "==",
	}
)

// words says whether a call words something, where a number is no figure of a model.
func words(x *ast.CallExpr) bool {
	f, ok := x.Fun.(*ast.SelectorExpr)
	if !ok {
		return false
	}
	of, ok := f.X.(*ast.Ident)
	return ok && (of.Name == "told" || of.Name == "fmt" || of.Name == "errors" || of.Name == "strings")
}

// isText says whether an expression joins or compares texts, as far as the source shows.
func isText(x ast.Expr) bool {
	switch x := x.(type) {
	case *ast.BinaryExpr:
		return isText(x.X) || isText(x.Y)
	case *ast.BasicLit:
		return x.Kind == token.STRING
	}
	return false
}

func isNil(x ast.Expr) bool {
	name, ok := x.(*ast.Ident)
	return ok && name.Name == "nil"
}

// off is a number changed by a factor. Small whole numbers count things and are left.
func off(x *ast.BasicLit, by float64) (string, bool) {
	v, err := strconv.ParseFloat(x.Value, 64)
	switch {
	case err != nil || v == 0:
		return "", false
	case x.Kind == token.FLOAT:
		return strconv.FormatFloat(by*v, 'g', -1, 64), true
	case x.Kind == token.INT && v >= 5:
		return strconv.FormatFloat(float64(int(by*v+0.5)), 'f', -1, 64), true
	}
	return "", false
}
