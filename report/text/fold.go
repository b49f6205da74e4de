package text

import (
	"io"
	"strings"
)

// Fold writes lines that may be long in the look's width. What is folded stands
// under the text of its line: behind the leading spaces, or behind a head that two
// spaces and more part from it.
func Fold(w io.Writer, lines []byte, look Look) error {
	p := newPage(look)
	for line := range strings.Lines(string(lines)) {
		line = strings.TrimRight(line, "\n")
		if length(line) <= p.Width {
			p.line(line)
			continue
		}
		head, rest := headOf(line)
		for i, part := range wrap(rest, p.Width-length(head)) {
			if i == 1 {
				head = strings.Repeat(" ", length(head))
			}
			p.line(head + part)
		}
	}
	return p.to(w)
}

// headOf parts a line into what folded text stands behind, and the text.
func headOf(line string) (head, text string) {
	text = strings.TrimLeft(line, " ")
	head = line[:len(line)-len(text)]
	if word, after, ok := strings.Cut(text, "  "); ok && head == "" && !strings.Contains(word, " ") {
		text = strings.TrimLeft(after, " ")
		head = line[:len(line)-len(text)]
	}
	return head, text
}
