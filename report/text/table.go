package text

import (
	"strings"
	"unicode/utf8"
)

// column is one column of a table.
type column struct {
	title    string
	right    bool // aligned to the right, for figures
	flex     bool // takes the width that is left, and wraps first; at most one
	optional bool // left out where the page is too narrow
}

const (
	gap     = 2  // spaces between columns
	minFlex = 16 // a wrapped column narrower than this is hard to read
	minText = 8  // and one of single words than this
)

// table lays out rows under the titles of columns, in lines of at most width.
func table(columns []column, rows [][]string, width int) []string {
	for {
		widths, ok := widthsOf(columns, rows, width)
		drop := -1
		for i, c := range columns {
			if c.optional {
				drop = i // the last one goes first
			}
		}
		if !ok && drop < 0 {
			squeeze(columns, widths, width)
			ok = true
		}
		if ok {
			return lay(columns, rows, widths)
		}
		columns = without(columns, drop)
		narrower := make([][]string, len(rows))
		for i, r := range rows {
			narrower[i] = without(r, drop)
		}
		rows = narrower
	}
}

func without[T any](s []T, i int) []T {
	return append(append([]T{}, s[:i]...), s[i+1:]...)
}

// widthsOf finds how wide each column is, and whether the table fits.
func widthsOf(columns []column, rows [][]string, width int) ([]int, bool) {
	widths := make([]int, len(columns))
	flex, sum := -1, gap*(len(columns)-1)
	for i, c := range columns {
		widths[i] = length(c.title)
		for _, r := range rows {
			widths[i] = max(widths[i], length(r[i]))
		}
		if c.flex {
			flex = i
			continue
		}
		sum += widths[i]
	}
	if flex < 0 {
		return widths, sum <= width
	}
	left := width - sum
	if widths[flex] <= left {
		return widths, true
	}
	widths[flex] = max(left, minFlex)
	return widths, left >= minFlex
}

// squeeze takes from the widest columns of text until the table fits or nothing
// more can be taken.
func squeeze(columns []column, widths []int, width int) {
	sum := gap * (len(columns) - 1)
	for _, w := range widths {
		sum += w
	}
	for ; sum > width; sum-- {
		widest := -1
		for i, c := range columns {
			if !c.right && widths[i] > minText && (widest < 0 || widths[i] > widths[widest]) {
				widest = i
			}
		}
		if widest < 0 {
			return
		}
		widths[widest]--
	}
}

func lay(columns []column, rows [][]string, widths []int) []string {
	var lines []string
	titles := make([]string, len(columns))
	titled := false
	for i, c := range columns {
		titles[i] = c.title
		titled = titled || c.title != ""
	}
	if titled {
		lines = append(lines, layRow(columns, titles, widths)...)
		rule := make([]string, len(columns))
		for i := range columns {
			rule[i] = strings.Repeat("-", widths[i])
		}
		lines = append(lines, layRow(columns, rule, widths)...)
	}
	for _, r := range rows {
		lines = append(lines, layRow(columns, r, widths)...)
	}
	return lines
}

func layRow(columns []column, cells []string, widths []int) []string {
	wrapped := make([][]string, len(cells))
	height := 1
	for i, c := range cells {
		wrapped[i] = []string{c}
		if !columns[i].right {
			wrapped[i] = wrap(c, widths[i])
		}
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

func length(s string) int { return utf8.RuneCountInString(s) }

// wrap breaks a text at spaces into lines of at most width; a word longer than
// that stands alone. No-break spaces hold, and so does the space before a percent
// sign.
func wrap(t string, width int) []string {
	t = strings.ReplaceAll(t, " %", "\u00a0%")
	var lines []string
	line := ""
	for _, word := range strings.FieldsFunc(t, func(r rune) bool { return r == ' ' || r == '\n' }) {
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
