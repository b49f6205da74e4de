package text

import (
	"strings"
	"unicode/utf8"
)

// column is one column of a table.
type column struct {
	title    string
	right    bool // aligned to the right, for figures
	optional bool // left out where the page is too narrow
}

const (
	gap     = 2  // spaces between columns
	minText = 16 // columns of running text are no narrower, so that they can be read
	inset   = 4  // of text under its row
	tall    = 5  // lines; a cell that would stand taller beside its row goes under it
)

// spread is a row of one cell across all columns.
func spread(row []string, columns []column) bool { return len(row) == 1 && len(columns) > 1 }

// table lays out rows under the titles of columns, in lines of at most width. A
// row of one cell goes across. Where the columns don't fit, those of text wrap, the
// widest first, and the tallest of them goes under its row; then optional ones go, the
// last first; then every row is set as a list of its cells.
func table(columns []column, rows [][]string, width int) []string {
	for {
		lines, ok := lay(columns, rows, width)
		drop := -1
		for i, c := range columns {
			if c.optional {
				drop = i
			}
		}
		switch {
		case ok:
			return lines
		case drop < 0:
			return stack(columns, rows, width)
		}
		columns = without(columns, drop)
		narrower := make([][]string, len(rows))
		for i, r := range rows {
			narrower[i] = r
			if !spread(r, columns) {
				narrower[i] = without(r, drop)
			}
		}
		rows = narrower
	}
}

func without[T any](s []T, i int) []T {
	return append(append([]T{}, s[:i]...), s[i+1:]...)
}

// widthsOf finds how wide each column is, and whether the table fits. A column
// shrinks to its longest word, one of running text to minText.
func widthsOf(columns []column, rows [][]string, width int) ([]int, bool) {
	widths, least := make([]int, len(columns)), make([]int, len(columns))
	sum := gap * (len(columns) - 1)
	for i, c := range columns {
		widths[i], least[i] = length(c.title), longestWord(c.title)
		for _, r := range rows {
			if spread(r, columns) {
				continue
			}
			widths[i] = max(widths[i], length(r[i]))
			least[i] = max(least[i], longestWord(r[i]))
		}
		if widths[i] > 3*minText {
			least[i] = max(least[i], minText)
		}
		sum += widths[i]
	}
	for ; sum > width; sum-- {
		widest := -1
		for i := range columns {
			if widths[i] > least[i] && (widest < 0 || widths[i] > widths[widest]) {
				widest = i
			}
		}
		if widest < 0 {
			return widths, false
		}
		widths[widest]--
	}
	return widths, true
}

func longestWord(s string) int {
	longest := 0
	for _, w := range strings.Split(wordsOf(s), " ") {
		longest = max(longest, length(w))
	}
	return longest
}

// tallest is the column whose cells would stand too tall beside their rows, -1 for
// none.
func tallest(columns []column, rows [][]string, widths []int) int {
	under, lines := -1, tall
	for i := 1; i < len(columns); i++ {
		for _, r := range rows {
			if spread(r, columns) {
				continue
			}
			if n := len(wrap(r[i], widths[i])); n > lines {
				under, lines = i, n
			}
		}
	}
	return under
}

// lay sets rows side by side, but the cells of columns too tall for that under each
// other below their rows, behind the titles of their columns where there are several.
func lay(columns []column, rows [][]string, width int) ([]string, bool) {
	below := make([][]string, len(rows))
	var titles []string
	for {
		widths, ok := widthsOf(columns, rows, width)
		if !ok {
			return nil, false
		}
		under := tallest(columns, rows, widths)
		if under < 0 {
			return layRows(columns, rows, widths, titles, below, width), true
		}
		titles = append(titles, columns[under].title)
		rest := make([][]string, len(rows))
		for i, r := range rows {
			rest[i] = r
			if !spread(r, columns) {
				below[i], rest[i] = append(below[i], r[under]), without(r, under)
			}
		}
		columns, rows = without(columns, under), rest
	}
}

// layRows sets rows under their titles, and what is below each row under it.
func layRows(columns []column, rows [][]string, widths []int, under []string, below [][]string, width int) []string {
	var lines []string
	titles, rule := make([]string, len(columns)), make([]string, len(columns))
	titled := false
	for i, c := range columns {
		titles[i], rule[i] = c.title, strings.Repeat("-", widths[i])
		titled = titled || c.title != ""
	}
	if titled {
		head := layRow(columns, titles, widths)
		lines = append(append(lines, head...), layRow(columns, rule, widths)...)
	}
	for i, r := range rows {
		if spread(r, columns) {
			lines = append(lines, wrap(r[0], width)...)
			continue
		}
		lines = append(lines, layRow(columns, r, widths)...)
		for n, t := range below[i] {
			if t == "" {
				continue
			}
			if len(below[i]) > 1 && under[n] != "" {
				t = under[n] + ": " + t
			}
			for _, l := range wrap(t, width-inset) {
				lines = append(lines, strings.Repeat(" ", inset)+l)
			}
		}
	}
	return lines
}

func layRow(columns []column, cells []string, widths []int) []string {
	wrapped := make([][]string, len(cells))
	height := 1
	for i, c := range cells {
		wrapped[i] = wrap(c, widths[i])
		height = max(height, len(wrapped[i]))
	}
	lines := make([]string, height)
	for n := range lines {
		var b strings.Builder
		for i := range cells {
			t := ""
			if n < len(wrapped[i]) {
				t = wrapped[i][n]
			}
			pad := strings.Repeat(" ", max(widths[i]-length(t), 0))
			if i > 0 {
				b.WriteString(strings.Repeat(" ", gap))
			}
			if columns[i].right {
				b.WriteString(pad + t)
			} else {
				b.WriteString(t + pad)
			}
		}
		lines[n] = strings.TrimRight(b.String(), " ")
	}
	return lines
}

// stack sets each row as its cells under each other, each behind the title of its
// column.
func stack(columns []column, rows [][]string, width int) []string {
	var lines []string
	for n, r := range rows {
		if n > 0 {
			lines = append(lines, "")
		}
		if spread(r, columns) {
			lines = append(lines, wrap(r[0], width)...)
			continue
		}
		first := true
		for i, c := range r {
			if c == "" {
				continue
			}
			if columns[i].title != "" && !first {
				c = columns[i].title + ": " + c
			}
			indent := "  "
			if first {
				indent = ""
			}
			for _, l := range wrap(c, width-len(indent)) {
				lines = append(lines, indent+l)
				indent = "  "
			}
			first = false
		}
	}
	return lines
}

func length(s string) int { return utf8.RuneCountInString(s) }

// wordsOf keeps the space before a percent sign from parting.
func wordsOf(t string) string { return strings.ReplaceAll(t, " %", "\u00a0%") }

// wrap breaks a text at spaces into lines of at most width; a word longer than
// that stands alone. No-break spaces hold, and so does the space before a percent
// sign.
func wrap(t string, width int) []string {
	var lines []string
	line := ""
	for _, word := range strings.FieldsFunc(wordsOf(t), func(r rune) bool { return r == ' ' || r == '\n' }) {
		switch {
		case line == "":
			line = word
		case length(line)+1+length(word) <= width:
			line += " " + word
		default:
			lines = append(lines, line)
			line = word
		}
	}
	return append(lines, line)
}
