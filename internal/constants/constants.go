// Package constants reads the numbers of the models out of their source: those that a
// practitioner could dispute, which are the ones that say where they come from.
package constants

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/parser"
	"go/printer"
	"go/token"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"
)

// Table is all numbers, in the order of the source.
type Table struct {
	Groups []Group
}

// Group is what one declaration holds.
type Group struct {
	Room      string // the package's folder, as site/light
	About     string // what the source says of all of them
	Constants []Constant
}

// Constant is one number, or one list of them, of a model.
type Constant struct {
	Name  string // in the source
	Value string // as the source writes it
	Why   string // what the source says of it: unit, origin, what it was fitted to
}

// Read finds the numbers in the source of some packages. The error names a file that
// is no Go.
func Read(source fs.FS) (Table, error) {
	var table Table
	err := fs.WalkDir(source, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return err
		}
		found, err := read(source, name)
		table.Groups = append(table.Groups, found...)
		return err
	})
	if err != nil {
		return Table{}, fmt.Errorf("the source of the models: %w", err)
	}
	return table, nil
}

// read finds those of one file: the numbers, and the maps and lists of numbers, that
// it names and gives a reason for.
func read(source fs.FS, name string) ([]Group, error) {
	text, err := fs.ReadFile(source, name)
	if err != nil {
		return nil, err
	}
	set := token.NewFileSet()
	file, err := parser.ParseFile(set, name, text, parser.ParseComments)
	if err != nil {
		return nil, err
	}
	var out []Group
	for _, decl := range file.Decls {
		group, ok := decl.(*ast.GenDecl)
		if !ok || group.Tok != token.CONST && group.Tok != token.VAR {
			continue
		}
		g := Group{Room: path.Dir(name), About: words(group.Doc)}
		if g.Constants = constantsOf(set, group, g.About); len(g.Constants) > 0 {
			out = append(out, g)
		}
	}
	return out, nil
}

// constantsOf are the numbers of one declaration. What is said above a line holds for
// the lines below it without a gap.
func constantsOf(set *token.FileSet, group *ast.GenDecl, about string) (out []Constant) {
	above, last := "", 0
	for _, spec := range group.Specs {
		v := spec.(*ast.ValueSpec)
		line := func(p token.Pos) int { return set.Position(p).Line }
		switch {
		case v.Doc != nil:
			above = words(v.Doc)
		case line(v.Pos()) != last+1:
			above = ""
		}
		last = line(v.End())
		why := together(above, words(v.Comment))
		if !provenance.MatchString(together(about, why)) {
			continue
		}
		for i, name := range v.Names {
			if i >= len(v.Values) || !number(v.Values[i], group.Tok == token.VAR) {
				continue
			}
			var text bytes.Buffer
			if err := printer.Fprint(&text, set, v.Values[i]); err != nil {
				continue // it was just read from text
			}
			out = append(out, Constant{name.Name, strings.Join(strings.Fields(text.String()), " "), why})
		}
	}
	return out
}

// provenance is how a comment says where a number comes from: a publication by its year,
// or one of the words that stand for a source. A number that says nothing of the kind is
// plumbing, of interest to nobody but who reads the code.
var provenance = regexp.MustCompile(`\b(1[89]|20)\d\d\b|(?i)\b(own|our|practice|published|fitted|inferred|inference|memory|source|after|set so|standard|university|city|council|FAO|USGA|BS)\b`)

// words is a comment on one line.
func words(c *ast.CommentGroup) string { return strings.Join(strings.Fields(c.Text()), " ") }

// together joins what is said above a constant and at the end of its line.
func together(parts ...string) string {
	said := slices.DeleteFunc(parts, func(s string) bool { return s == "" })
	return strings.Join(slices.Compact(said), " ")
}

// number says whether an expression is a number, or in a variable a map or list of
// them, written out.
func number(e ast.Expr, listed bool) bool {
	numbers, other := 0, false
	ast.Inspect(e, func(n ast.Node) bool {
		switch x := n.(type) {
		case *ast.BasicLit:
			if x.Kind == token.INT || x.Kind == token.FLOAT {
				numbers++
			} else {
				other = other || !listed
			}
		case *ast.CallExpr, *ast.FuncLit:
			other = true
		case *ast.CompositeLit:
			other = other || !listed || !ofNumbers(x.Type)
			for _, el := range x.Elts { // keys are names, not numbers
				if kv, ok := el.(*ast.KeyValueExpr); ok && number(kv.Value, false) {
					numbers++
				}
			}
			return false
		}
		return true
	})
	return numbers > 0 && !other
}

// ofNumbers says whether a composite type holds plain numbers.
func ofNumbers(t ast.Expr) bool {
	var of ast.Expr
	switch x := t.(type) {
	case *ast.MapType:
		of = x.Value
	case *ast.ArrayType:
		of = x.Elt
	}
	name, ok := of.(*ast.Ident)
	return ok && (name.Name == "float64" || name.Name == "int")
}
