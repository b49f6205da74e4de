package content

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"swardwright/report/say"
)

// sentence gives a text its capital and its full stop. A key path, a unit or a
// figure at its head keeps its form.
func sentence(s string) string {
	s = glue(strings.TrimSpace(s))
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return ""
	}
	first, _, _ := strings.Cut(s, " ")
	if unicode.IsLower(r) && !strings.ContainsAny(strings.TrimRight(first, ".,:;"), "._/0123456789") {
		s = say.Capital(s)
	}
	if last, _ := utf8.DecodeLastRuneInString(s); !strings.ContainsRune(".!?:…", last) {
		s += "."
	}
	return s
}

func sentences(items []string) []string {
	var out []string
	for _, s := range items {
		if s = sentence(s); s != "" {
			out = append(out, s)
		}
	}
	return out
}

func nonEmpty(items ...string) []string {
	return slices.DeleteFunc(items, func(s string) bool { return s == "" })
}

// row and total make rows of a table; columns makes its head, where a leading ">"
// sets figures to the right.
func row(cells ...string) Row   { return Row{Cells: cells} }
func total(cells ...string) Row { return Row{Kind: Total, Cells: cells} }

func columns(titles ...string) []Column {
	out := make([]Column, len(titles))
	for i, t := range titles {
		out[i] = Column{Title: t}
		if rest, ok := strings.CutPrefix(t, ">"); ok {
			out[i] = Column{rest, Right}
		}
	}
	return out
}

// key is the letter of the n-th component or point, as in the drawings.
func key(n int) string { return string(rune('a' + n%26)) }

// units are what a figure before them is not to be parted from.
var units = set(strings.Fields("% ‰ mm cm m km m² m³ g kg t L ml g/m² kg/m² L/m² °C °F h min mm/h dS/m mol kPa mi ft in lb oz gal"))

func set(words []string) map[string]bool {
	m := make(map[string]bool, len(words))
	for _, w := range words {
		m[w] = true
	}
	return m
}

// glue joins figures to the units after them with no-break spaces, also where a
// unit has several parts ("12.5 mol m⁻² d⁻¹").
func glue(s string) string {
	words := strings.Split(s, " ")
	var b strings.Builder
	for i, w := range words {
		if i > 0 {
			before := words[i-1]
			figure := before != "" && before[len(before)-1] >= '0' && before[len(before)-1] <= '9'
			if figure && units[strings.TrimRight(w, ".,;:)")] || strings.Contains(w, "⁻") {
				b.WriteString("\u00a0")
			} else {
				b.WriteByte(' ')
			}
		}
		b.WriteString(w)
	}
	return b.String()
}
