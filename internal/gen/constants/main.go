// Constants writes data/constants.toml: every number that the models hold in
// their source, with what the source says of it.
//
//	go run ./internal/gen/constants > data/constants.toml
package main

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/parser"
	"go/printer"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"

	"swardwright/internal/constants"
)

// rooms are the folders of the models; those that only show a plan have no figures
// of the trade.
var rooms = []string{"site", "species", "mix", "sowing"}

func main() {
	text, err := write(".")
	if err != nil {
		fmt.Fprintln(os.Stderr, "constants:", err)
		os.Exit(1)
	}
	os.Stdout.Write(text)
}

// write is the table for the module at a folder.
func write(module string) ([]byte, error) {
	var table constants.Table
	for _, room := range rooms {
		err := filepath.WalkDir(filepath.Join(module, room), func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			in, err := filepath.Rel(module, filepath.Dir(path))
			if err != nil || strings.Contains(in, "internal") {
				return err
			}
			found, err := read(path)
			for _, g := range found {
				g.Room = filepath.ToSlash(in)
				table.Groups = append(table.Groups, g)
			}
			return err
		})
		if err != nil {
			return nil, err
		}
	}
	var out bytes.Buffer
	out.WriteString("# Written from the source by go run ./internal/gen/constants; do not edit.\n\n")
	enc := toml.NewEncoder(&out)
	enc.Indent = ""
	if err := enc.Encode(table); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// read finds those of one file: the numbers, and the maps and lists of numbers,
// that it names.
func read(path string) ([]constants.Group, error) {
	set := token.NewFileSet()
	file, err := parser.ParseFile(set, path, nil, parser.ParseComments)
	if err != nil {
		return nil, err
	}
	var out []constants.Group
	for _, decl := range file.Decls {
		group, ok := decl.(*ast.GenDecl)
		if !ok || group.Tok != token.CONST && group.Tok != token.VAR {
			continue
		}
		g := constants.Group{About: words(group.Doc)}
		var above string // what is said of the lines above without a gap
		last := 0
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
			what := above
			if v.Doc == nil && v.Comment != nil { // it speaks for itself
				what = ""
			}
			for i, name := range v.Names {
				if i >= len(v.Values) || !number(v.Values[i], group.Tok == token.VAR) {
					continue
				}
				var text bytes.Buffer
				if err := printer.Fprint(&text, set, v.Values[i]); err != nil {
					return nil, err
				}
				g.Constants = append(g.Constants, constants.Constant{
					Name: name.Name, Value: strings.Join(strings.Fields(text.String()), " "), Why: together(what, words(v.Comment)),
				})
			}
		}
		if len(g.Constants) > 0 {
			out = append(out, g)
		}
	}
	return out, nil
}

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
