package files

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"
)

// Use is a file that a run reads or writes.
type Use struct {
	What   string // in a message: "the JSON"
	Name   string
	Ending string // of all the files to be written in the folder Name; empty: Name is a file
	Stream any    // what Std stands for, which may be a file
	Folder bool   // the folder of what is written is made where it isn't there
}

// Clash is an error in what a run was asked to read and write.
type Clash string

func (c Clash) Error() string { return string(c) }

func clash(format string, args ...any) error { return Clash(fmt.Sprintf(format, args...)) }

// Ready says whether a run can begin: that nothing to be written meets what is read
// or something else to be written, by whatever name or link, and that there is a
// folder to write it in. Names that differ in case alone meet, since many systems
// take them for one. What killed runs left in those folders is swept.
func Ready(reads, writes []Use) error {
	seen := uses{byPath: map[string]int{}, inFolder: map[string]int{}}
	for _, r := range reads {
		p := place(r)
		if r.Name == Std {
			p.path = "standard input"
		}
		if i, ok := seen.meet(p); ok && r.Name == Std {
			return clash("%s and %s would both be read from standard input", seen.all[i].What, r.What)
		}
		seen.add(p)
	}
	read := len(seen.all)
	for _, w := range writes {
		if w.Name == "" || w.Name == os.DevNull {
			continue
		}
		p := place(w)
		if i, ok := seen.meet(p); ok {
			return seen.clash(i, p, i < read)
		}
		seen.add(p)
	}
	swept := map[string]bool{}
	for _, w := range seen.all[read:] {
		if w.Name == Std {
			continue
		}
		if err := w.writable(); err != nil {
			return err
		}
		if i, ok := seen.above(w); ok {
			return clash("%s would go to %s, and %s into a folder of that name", seen.all[i].What, seen.all[i].Name, w.What)
		}
		if dir := filepath.Dir(w.path); !swept[dir] {
			sweep(dir)
			swept[dir] = true
		}
	}
	return nil
}

// Twice gives a name that stands for the same file as one before it.
func Twice(names []string) (string, bool) {
	seen := uses{byPath: map[string]int{}, inFolder: map[string]int{}}
	for _, n := range names {
		p := place(Use{Name: n})
		if i, ok := seen.meet(p); ok && (n == Std || seen.all[i].path == p.path) {
			return n, true
		}
		seen.add(p)
	}
	return "", false
}

// placed is a use with what its name stands for once links are followed.
type placed struct {
	Use
	path string
	info fs.FileInfo // nil: nothing is there yet
	err  error
}

// place finds what a use stands for.
func place(u Use) placed {
	if u.Name == Std {
		p := placed{Use: u, path: Std}
		if f, ok := u.Stream.(*os.File); ok {
			if info, err := f.Stat(); err == nil && info.Mode().IsRegular() {
				p.info = info
			}
		}
		return p
	}
	p := find(u.Name)
	p.Use = u
	if u.Ending != "" {
		p.path, p.info = filepath.Join(p.path, "*"+u.Ending), nil
	}
	return p
}

// find follows every link of a name, also one to a file that isn't there yet.
func find(name string) placed {
	p := placed{Use: Use{Name: name}, path: name}
	if abs, err := filepath.Abs(name); err == nil {
		p.path = abs
	}
	if info, err := os.Stat(p.path); err == nil {
		p.info = info
		if real, err := filepath.EvalSymlinks(p.path); err == nil {
			p.path = real
		}
		return p
	}
	const most = 40 // links, as Linux follows
	for i := 0; ; i++ {
		to, err := os.Readlink(p.path)
		if err != nil {
			break
		}
		if i == most {
			p.err = errors.New("its links lead nowhere")
			return p
		}
		if !filepath.IsAbs(to) {
			to = filepath.Join(filepath.Dir(p.path), to)
		}
		p.path = to
	}
	if dir := filepath.Dir(p.path); dir != p.path {
		p.path = filepath.Join(find(dir).path, filepath.Base(p.path))
	}
	return p
}

// writable says whether a file could stand at a place, as far as can be told before.
func (p placed) writable() error {
	if p.err == nil && p.info != nil && p.info.IsDir() {
		return clash("%s cannot go to %s: it is a folder", p.What, p.Name)
	}
	info, err := os.Stat(filepath.Dir(p.path))
	switch {
	case p.err != nil:
		err = p.err
	case errors.Is(err, fs.ErrNotExist) && p.Folder:
		err = nil
	case err == nil && !info.IsDir():
		err = errors.New("the folder is a file")
	}
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", p.Name, bare(err))
	}
	return nil
}

// uses are files that are told apart.
type uses struct {
	all      []placed
	byPath   map[string]int // among all
	inFolder map[string]int // by the pattern of all files of one ending in a folder
}

var fold = cases.Fold()

// same is alike for paths that some system takes for one.
func same(path string) string { return fold.String(norm.NFC.String(path)) }

func siblings(path string) string {
	return same(filepath.Join(filepath.Dir(path), "*"+filepath.Ext(path)))
}

func (s *uses) add(p placed) {
	s.byPath[same(p.path)] = len(s.all)
	s.inFolder[siblings(p.path)] = len(s.all)
	s.all = append(s.all, p)
}

// meet finds the one of them that is the same file as another.
func (s *uses) meet(p placed) (int, bool) {
	if i, ok := s.byPath[same(p.path)]; ok {
		return i, true
	}
	if i, ok := s.byPath[siblings(p.path)]; ok && s.all[i].Ending != "" {
		return i, true
	}
	if i, ok := s.inFolder[same(p.path)]; ok && p.Ending != "" {
		return i, true
	}
	for i, q := range s.all {
		if p.info != nil && q.info != nil && os.SameFile(p.info, q.info) {
			return i, true
		}
	}
	return 0, false
}

// above finds the one of them that would be a file where p needs a folder.
func (s *uses) above(p placed) (int, bool) {
	for dir := filepath.Dir(p.path); dir != filepath.Dir(dir); dir = filepath.Dir(dir) {
		if i, ok := s.byPath[same(dir)]; ok {
			return i, true
		}
	}
	return 0, false
}

// clash words how what is to be written meets the use of index i.
func (s *uses) clash(i int, w placed, read bool) error {
	u, to := s.all[i], w.Name
	if to == Std {
		to = "standard output"
	}
	if read {
		return clash("%s would go to %s, over %s that is read; name another file", w.What, to, u.What)
	}
	return clash("%s and %s would both go to %s", u.What, w.What, to)
}
