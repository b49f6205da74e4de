package sheet

// places are where the parts of a text stand, in bytes. A nil one notes nothing.
type places struct {
	of       map[string]place // keys, and elements of arrays, by path
	sections []section        // the lines before the first head, then one a head
}

// place is where a key or an element of an array stands.
type place struct {
	key        int // where its key begins; of an element, where its value does
	value, end int // of its value
	inline     bool
}

// section is a head with the lines up to the next one.
type section struct {
	path        string
	start, head int // the head, from its bracket to the end of its line
	end         int // of the line on which its last key ends
}

func newPlaces() *places {
	return &places{of: map[string]place{}, sections: []section{{}}}
}

func (p *places) head(path string, start, end int) {
	if p != nil {
		p.sections = append(p.sections, section{path, start, end, end})
	}
}

// line notes where the last line of a key and its value ends.
func (p *places) line(end int) {
	if p != nil {
		p.sections[len(p.sections)-1].end = end
	}
}

func (p *places) key(path string, at int, inline bool) {
	if p == nil {
		return
	}
	if _, twice := p.of[path]; !twice {
		p.of[path] = place{key: at, value: at, end: at, inline: inline}
	}
}

func (p *places) value(path string, from, end int) {
	if p == nil {
		return
	}
	x, known := p.of[path]
	if !known {
		x = place{key: from, inline: true}
	}
	if x.end <= x.key { // the first of a path given twice
		x.value, x.end = from, end
		p.of[path] = x
	}
}
