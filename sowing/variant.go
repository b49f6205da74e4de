package sowing

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/BurntSushi/toml"
	"github.com/samber/lo"

	"swardwright/internal/sheet"
	"swardwright/site"
)

// Variant is the same lawn with something changed, to be planned beside it. Its brief
// is the one that the file with those keys edited by hand would give.
type Variant struct {
	Name  string
	Brief Brief
}

// Setting is one key of a brief with the value it is to have. The key is dotted as in
// TOML; a table of which there are several is named by its own name, or by its number
// from 1: obstacle.birch.clear_stem_m, obstacle.'slatted fence'.height_m,
// seed_lot.2.price_per_kg.
type Setting struct {
	Key   string
	Value any // as TOML decodes it
}

// ParseSetting reads KEY=VALUE, the value as TOML writes it; a bare word is a text.
func ParseSetting(s string) (Setting, error) {
	// The first = that is not inside quotes ends the key.
	quote, at := rune(0), -1
	for i, r := range s {
		switch {
		case quote != 0:
			if r == quote {
				quote = 0
			}
		case r == '\'' || r == '"':
			quote = r
		case r == '=':
			at = i
		}
		if at >= 0 {
			break
		}
	}
	if at < 0 {
		return Setting{}, fmt.Errorf("needs KEY=VALUE, like use.mowing_mm=50, is %q", s)
	}
	key, text := strings.TrimSpace(s[:at]), strings.TrimSpace(s[at+1:])
	if _, err := keyParts(key); err != nil {
		return Setting{}, err
	}
	var v struct{ V any }
	if _, err := toml.Decode("V = "+text, &v); err != nil {
		if _, err := toml.Decode("V = "+strconv.Quote(text), &v); err != nil || text == "" {
			return Setting{}, fmt.Errorf("%s: needs a value as a brief has it, like 3.5, true, \"clay loam\" or 2027-05-01", key)
		}
	}
	return Setting{key, v.V}, nil
}

// keyParts are the parts of a dotted key, by TOML's own rules.
func keyParts(key string) ([]string, error) {
	var v map[string]any
	md, err := toml.Decode(key+" = 0", &v)
	if err != nil || len(md.Keys()) == 0 {
		return nil, fmt.Errorf("%q is no key; a name with spaces or dots stands in quotes, like obstacle.'slatted fence'.height_m", key)
	}
	return md.Keys()[len(md.Keys())-1], nil
}

// With is the brief of a text with some keys set. The error holds every fault of the
// changed text, by its own keys.
func With(name string, text []byte, open site.Opener, settings []Setting) (Brief, error) {
	tables, err := BuiltIn()
	if err != nil {
		return Brief{}, err
	}
	changed, err := edited(name, text, settings)
	if err != nil {
		return Brief{}, err
	}
	root := sheet.Open(name, changed)
	b := readBrief(root, tables, open)
	readVariants(root, "", nil, nil)
	return b, root.Faults()
}

// tablesInOrder is where new tables go in a text.
var tablesInOrder = []string{"place", "climate", "lawn", "obstacle", "probe", "light", "ground", "use", "job", "seed_lot", "premix", "sown", "seen", "variant", "prices"}

// edited is the text with some keys set.
func edited(name string, text []byte, settings []Setting) ([]byte, error) {
	tree := sheet.Open(name, text).Tree()
	var edits []sheet.Edit
	var faults sheet.Faults
	for _, s := range settings {
		path, err := pathIn(tree, s.Key)
		if err != nil {
			faults = append(faults, sheet.Fault{File: name, Path: s.Key, Text: err.Error()})
			continue
		}
		edits = append(edits, sheet.Edit{Path: path, Value: spliced(s.Value)})
	}
	if len(faults) > 0 {
		return nil, faults
	}
	return sheet.Splice(text, edits, tablesInOrder)
}

// pathIn finds a key in a brief: elements of arrays by their name or number.
func pathIn(tree map[string]any, key string) ([]any, error) {
	parts, err := keyParts(key)
	if err != nil {
		return nil, err
	}
	if parts[0] == "variant" {
		return nil, fmt.Errorf("a variant changes the lawn, not the variants")
	}
	path := []any{parts[0]}
	list, ok := tree[parts[0]].([]any)
	if !ok {
		for _, p := range parts[1:] {
			path = append(path, p)
		}
		return path, nil
	}
	if len(parts) < 3 {
		return nil, fmt.Errorf("needs the name of one of the tables [[%s]] and a key of it, like %[1]s.%s.%s", parts[0], exampleName(list), "height_m")
	}
	i, err := elementNamed(parts[0], list, parts[1])
	if err != nil {
		return nil, err
	}
	path = append(path, i)
	for _, p := range parts[2:] {
		path = append(path, p)
	}
	return path, nil
}

// elementNamed is the number from 1 of the table of a name, or of a number.
func elementNamed(key string, list []any, name string) (int, error) {
	names := lo.Map(list, func(x any, _ int) string { return nameOfTable(x) })
	same := func(n string) bool { return n != "" && strings.EqualFold(n, name) }
	switch n := lo.CountBy(names, same); {
	case n == 1:
		return 1 + slices.IndexFunc(names, same), nil
	case n > 1:
		return 0, fmt.Errorf("there are %d of the name %s; take its number, like %s.%d", n, name, key, 1+slices.IndexFunc(names, same))
	}
	if i, err := strconv.Atoi(name); err == nil && i >= 1 && i <= len(list) {
		return i, nil
	}
	hint := ""
	if near := sheet.Nearest(name, lo.Compact(names)); near != "" {
		hint = "; did you mean " + near + "?"
	}
	return 0, fmt.Errorf("there is no [[%s]] of the name %s among %d%s", key, name, len(list), hint)
}

func nameOfTable(x any) string {
	t, _ := x.(map[string]any)
	for _, key := range []string{"name", "species"} {
		if n, ok := t[key].(string); ok {
			return n
		}
	}
	return ""
}

func exampleName(list []any) string {
	for i, x := range list {
		if n := nameOfTable(x); n != "" {
			if strings.ContainsAny(n, " .") {
				n = "'" + n + "'"
			}
			return n
		}
		if i == len(list)-1 {
			break
		}
	}
	return "1"
}

// spliced is a decoded value as a splice takes it.
func spliced(v any) any {
	switch v := v.(type) {
	case time.Time:
		return sheet.Day(v.Format(time.DateOnly))
	case int64:
		return int(v)
	case []any:
		return lo.Map(v, func(x any, _ int) any { return spliced(x) })
	case map[string]any:
		return lo.MapValues(v, func(x any, _ string) any { return spliced(x) })
	}
	return v
}

// mostVariants is how many variants one brief has: more are no table that anyone reads.
const mostVariants = 24

// readVariants reads [[variant]]; without a text it only takes note of the keys.
func readVariants(root *sheet.Sheet, name string, text []byte, open site.Opener) []Variant {
	var out []Variant
	tables := root.Tables("variant")
	if len(tables) > mostVariants {
		root.Faultf("variant", "can stand %d times at most, stands %d times", mostVariants, len(tables))
	}
	var names []string
	for i, s := range tables {
		v := Variant{}
		s.Need("name", "a few words to tell the variant by")
		v.Name, _ = s.Text("name")
		if slices.Contains(names, v.Name) && v.Name != "" {
			s.Faultf("name", "is that of another variant, %q", v.Name)
		}
		names = append(names, v.Name)
		s.Need("set", "the keys that are changed, like set = { \"use.mowing_mm\" = 50 }")
		settings := readSettings(s.Table("set"))
		if text == nil || !root.Sound() || i >= mostVariants || len(settings) == 0 {
			continue
		}
		b, err := With(name, text, open, settings)
		if err != nil {
			variantFaults(s, err)
			continue
		}
		v.Brief = b
		out = append(out, v)
	}
	return out
}

// readSettings reads the keys of a set, dotted or in quotes.
func readSettings(s *sheet.Sheet) []Setting {
	var out []Setting
	var gather func(prefix string, t map[string]any)
	gather = func(prefix string, t map[string]any) {
		for _, key := range lo.Keys(t) {
			full := key // as written where it stands alone: it may be dotted itself
			if prefix != "" {
				full = prefix + "." + quotedPart(key)
			}
			if sub, ok := t[key].(map[string]any); ok && len(sub) > 0 && !strings.Contains(key, ".") {
				gather(full, sub)
				continue
			}
			out = append(out, Setting{full, t[key]})
		}
	}
	raw := map[string]any{}
	for _, key := range s.Keys() {
		raw[key] = s.Any(key)
	}
	gather("", raw)
	slices.SortFunc(out, func(a, b Setting) int { return strings.Compare(a.Key, b.Key) })
	return out
}

// quotedPart is a part of a key, in quotes where TOML asks for them.
func quotedPart(key string) string {
	bare := key != "" && strings.IndexFunc(key, func(r rune) bool {
		return !(r == '_' || r == '-' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z')
	}) < 0
	if bare {
		return key
	}
	return strconv.Quote(key)
}

// variantFaults tells the faults of a changed text under the variant that changes it.
func variantFaults(s *sheet.Sheet, err error) {
	faults, ok := err.(sheet.Faults)
	if !ok {
		s.Faultf("set", "%v", err)
		return
	}
	for _, f := range faults {
		s.Faultf("set", "%s: %s", f.Path, f.Text)
	}
}
