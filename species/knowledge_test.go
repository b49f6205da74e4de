package species

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// TestGrassesStandInTheTable: what a grass is stands in the table, so no code but that of
// tests, the sample plans among it, names one.
func TestGrassesStandInTheTable(t *testing.T) {
	ids := map[string]bool{}
	for _, s := range table(t).All() {
		ids[s.ID] = true
	}
	files := token.NewFileSet()
	seen := 0
	err := filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (d.Name() == "sample" || strings.HasPrefix(d.Name(), ".") && len(d.Name()) > 2) {
			return fs.SkipDir
		}
		if d.IsDir() || filepath.Ext(path) != ".go" || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		file, err := parser.ParseFile(files, path, nil, 0)
		if err != nil {
			return err
		}
		seen++
		ast.Inspect(file, func(n ast.Node) bool {
			lit, ok := n.(*ast.BasicLit)
			if !ok || lit.Kind != token.STRING {
				return true
			}
			if text, err := strconv.Unquote(lit.Value); err == nil && ids[text] {
				t.Errorf("%s: %q is named in the code", files.Position(lit.Pos()), text)
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if seen < 100 {
		t.Errorf("only %d files were looked at", seen)
	}
}

// TestFactsOfTheTable spot-checks what the table says beside figures.
func TestFactsOfTheTable(t *testing.T) {
	tb := table(t)
	for _, c := range []struct {
		id         string
		fact       Fact
		is         bool
		kind       string
		pale       bool
		dearerThan string
	}{
		{"smooth-stalked-meadow-grass", SoldAsTurf, true, "smooth meadow-grass", false, "tall-fescue"},
		{"supina-meadow-grass", OfOldLawns, false, "grass of damp shade", true, "velvet-bent"},
		{"rough-stalked-meadow-grass", OfOldLawns, true, "grass of damp ground", true, "smooth-stalked-meadow-grass"},
		{"chewings-fescue", SoldAsTurf, false, "red fescue", false, "perennial-ryegrass"},
	} {
		s := tb.ByID(c.id)
		if s.Is(c.fact) != c.is {
			t.Errorf("%s %s: %v", c.id, c.fact, !c.is)
		}
		if !s.IsOf([]string{"no such kind", c.kind}) || s.IsOf([]string{"no such kind"}) {
			t.Errorf("%s is not of %s alone", c.id, c.kind)
		}
		if (s.Values[Pale].Best > 0.5) != c.pale {
			t.Errorf("%s: paleness %g", c.id, s.Values[Pale].Best)
		}
		if s.Values[SeedPrice].Best <= tb.ByID(c.dearerThan).Values[SeedPrice].Best {
			t.Errorf("seed of %s is no dearer than that of %s", c.id, c.dearerThan)
		}
	}
}
