// Package files writes what a run makes: every file whole or not at all, and none
// over what the run reads or over another of its own files.
package files

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// Std is the name that stands for standard input or output.
const Std = "-"

// Output is one file to be written, or with the name Std standard output.
type Output struct {
	Name   string
	Data   []byte
	Folder bool // the folder it lies in is made where it isn't there
}

// Write writes all outputs or none: each file is written whole beside its place
// first, and only when all are there do they take their places. Then the files
// named in stale are removed, which this run's take the place of. Standard output
// comes last. Until the first file takes its place the end of ctx ends it all.
func Write(ctx context.Context, stdout io.Writer, outputs []Output, stale ...string) (err error) {
	var parts []part
	var made []string
	defer func() {
		for _, p := range parts {
			p.drop()
		}
		if err != nil {
			for _, dir := range slices.Backward(made) {
				os.Remove(dir) // only an empty one goes
			}
		}
	}()
	for _, o := range outputs {
		if o.Name == Std {
			continue
		}
		if o.Folder {
			dirs, err := makeFolder(filepath.Dir(o.Name))
			made = append(made, dirs...)
			if err != nil {
				return fmt.Errorf("cannot write: %w", err)
			}
		}
		p, waits, err := o.prepare(ctx)
		if err != nil {
			return err
		}
		if waits {
			parts = append(parts, p)
		}
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	for i := range parts {
		if err := parts[i].settle(); err != nil {
			return fmt.Errorf("cannot write: %w", err)
		}
	}
	if err := removeStale(stale); err != nil {
		return err
	}
	return writeStd(ctx, stdout, outputs)
}

func removeStale(names []string) error {
	for _, name := range names {
		if err := os.Remove(name); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("cannot remove what an older run left: %w", err)
		}
	}
	return nil
}

// writeStd writes what goes to standard output.
func writeStd(ctx context.Context, stdout io.Writer, outputs []Output) error {
	for _, o := range outputs {
		if o.Name != Std {
			continue
		}
		err := Within(ctx, func() error {
			_, err := stdout.Write(o.Data)
			return err
		})
		if err != nil {
			return fmt.Errorf("cannot write to standard output: %w", err)
		}
	}
	return nil
}

// prepare writes an output beside its place, where it waits; a device or a pipe takes what
// it is given at once.
func (o Output) prepare(ctx context.Context) (p part, waits bool, err error) {
	at := find(o.Name)
	if at.err != nil {
		return part{}, false, fmt.Errorf("cannot write %s: %w", o.Name, at.err)
	}
	if at.info != nil && !at.info.Mode().IsRegular() {
		if err := Within(ctx, func() error { return os.WriteFile(o.Name, o.Data, 0) }); err != nil {
			return part{}, false, fmt.Errorf("cannot write: %w", err)
		}
		return part{}, false, nil
	}
	if p, err = writeBeside(at, o.Data); err != nil {
		return part{}, false, fmt.Errorf("cannot write %s: %w", o.Name, err)
	}
	return p, true, nil
}

// WriteNew writes a file that is not there yet, whole or not at all. Where one is
// there its error is fs.ErrExist.
func WriteNew(name string, data []byte) error {
	p, err := writeBeside(placed{path: name}, data)
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", name, err)
	}
	defer p.drop()
	err = os.Link(p.temp, name)
	if err == nil || errors.Is(err, fs.ErrExist) {
		return err
	}
	// A system without hard links: the name is taken first, then the file put there.
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return fmt.Errorf("cannot write: %w", err)
	}
	f.Close()
	if err := p.settle(); err != nil {
		return fmt.Errorf("cannot write: %w", err)
	}
	return nil
}

// Within does what may wait for ever, such as reading a pipe, and comes back
// without it when ctx ends.
func Within(ctx context.Context, do func() error) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	done := make(chan error, 1)
	go func() { done <- do() }()
	select {
	case err := <-done:
		return err
	case <-ctx.Done():
		return ctx.Err()
	}
}

// makeFolder makes a folder with all above it, and tells which were made.
func makeFolder(dir string) (made []string, err error) {
	for at := dir; ; at = filepath.Dir(at) {
		if _, err := os.Stat(at); err == nil || at == filepath.Dir(at) {
			break
		}
		made = append(made, at)
	}
	slices.Reverse(made)
	return made, os.MkdirAll(dir, 0o777)
}

// Names of files that are not whole yet. They are short, so that they fit wherever
// the file's own name does.
const (
	partBegins = ".swardwright-"
	partEnds   = ".part"
)

// Unfinished is the pattern of those names.
const Unfinished = partBegins + "*" + partEnds

// part is a file written whole that waits to take its place. It is locked as long
// as this run lives, so that another knows it from what a killed run left.
type part struct {
	file        *os.File
	temp, place string
}

// writeBeside writes data whole to a new file in the folder of a place, with the
// permissions of the file that is there, or else those the user's mask allows.
func writeBeside(at placed, data []byte) (part, error) {
	p := part{place: at.path}
	for {
		p.temp = filepath.Join(filepath.Dir(p.place), fmt.Sprintf("%s%08x%s", partBegins, rand.Uint32(), partEnds))
		f, err := os.OpenFile(p.temp, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return part{}, bare(err)
		}
		p.file = f
		if hold(f) && still(f, p.temp) {
			break
		}
		p.drop() // swept by another run before it was locked
	}
	_, err := p.file.Write(data)
	if err == nil && at.info != nil {
		err = p.file.Chmod(at.info.Mode().Perm())
	}
	if err == nil {
		err = p.file.Sync()
	}
	if err != nil {
		p.drop()
		return part{}, bare(err)
	}
	return p, nil
}

// settle puts the file in its place.
func (p *part) settle() error {
	if !canLock { // such systems rename no open file
		if err := p.file.Close(); err != nil {
			return bare(err)
		}
	}
	return os.Rename(p.temp, p.place)
}

// drop removes the file, unless it has taken its place.
func (p *part) drop() {
	os.Remove(p.temp)
	p.file.Close()
}

// still says whether an open file is what its name stands for.
func still(f *os.File, name string) bool {
	a, err1 := f.Stat()
	b, err2 := os.Lstat(name)
	return err1 == nil && err2 == nil && os.SameFile(a, b)
}

// sweep removes from a folder what killed runs left unfinished.
func sweep(dir string) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return // writing into it will say why
	}
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), partBegins) || !strings.HasSuffix(e.Name(), partEnds) || !e.Type().IsRegular() {
			continue
		}
		name := filepath.Join(dir, e.Name())
		f, err := os.OpenFile(name, os.O_WRONLY, 0)
		if err != nil {
			continue
		}
		if abandoned(f) {
			os.Remove(name)
		}
		f.Close()
	}
}

// bare takes the name of the unfinished file, which means nothing to a reader, off
// an error.
func bare(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}
