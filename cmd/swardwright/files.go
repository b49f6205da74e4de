package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// output is one file to be written, or with the name "-" standard output.
type output struct {
	name string
	data []byte
}

// checkNames refuses the same place for two outputs.
func checkNames(names ...string) error {
	seen := map[string]bool{}
	for _, n := range names {
		if n == "" {
			continue
		}
		place := n
		if n != "-" {
			if abs, err := filepath.Abs(n); err == nil {
				place = abs
			}
		}
		if seen[place] {
			return wrongf("two outputs would go to %s", n)
		}
		seen[place] = true
	}
	return nil
}

// write writes all outputs or none: each file is written whole beside its place
// first, and only when all are there do they take their places. Standard output
// comes last.
func write(stdout io.Writer, outputs []output) (err error) {
	type pending struct{ temp, place string }
	var done []pending
	defer func() {
		for _, p := range done {
			os.Remove(p.temp) // gone already where it took its place
		}
	}()
	for _, o := range outputs {
		if o.name == "-" {
			continue
		}
		place, plain, err := destination(o.name)
		if err != nil {
			return err
		}
		if !plain { // a device or a pipe takes what it is given
			if err := os.WriteFile(place, o.data, 0); err != nil {
				return fmt.Errorf("cannot write: %w", err)
			}
			continue
		}
		temp, err := writeBeside(place, o.data)
		if err != nil {
			return fmt.Errorf("cannot write %s: %w", o.name, err)
		}
		done = append(done, pending{temp, place})
	}
	for _, p := range done {
		if err := os.Rename(p.temp, p.place); err != nil {
			return fmt.Errorf("cannot write: %w", err)
		}
	}
	for _, o := range outputs {
		if o.name == "-" {
			if _, err := stdout.Write(o.data); err != nil {
				return fmt.Errorf("cannot write to standard output: %w", err)
			}
		}
	}
	return nil
}

// destination finds the file that a name stands for, links followed, and
// whether it is or will be a plain file.
func destination(name string) (place string, plain bool, err error) {
	place = name
	if real, err := filepath.EvalSymlinks(name); err == nil {
		place = real
	}
	info, err := os.Stat(place)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return place, true, nil
	case err != nil:
		return "", false, fmt.Errorf("cannot write %s: %w", name, err)
	case info.IsDir():
		return "", false, wrongf("cannot write to %s: it is a folder", name)
	}
	return place, info.Mode().IsRegular(), nil
}

// writeBeside writes data whole to a new file in the folder of place, with the
// permissions of the file that is there.
func writeBeside(place string, data []byte) (temp string, err error) {
	mode := fs.FileMode(0o644)
	if info, err := os.Stat(place); err == nil {
		mode = info.Mode().Perm()
	}
	f, err := os.CreateTemp(filepath.Dir(place), "."+filepath.Base(place)+".*")
	if err != nil {
		return "", bare(err)
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Chmod(mode)
	}
	if err == nil {
		err = f.Sync()
	}
	if closing := f.Close(); err == nil {
		err = closing
	}
	if err != nil {
		os.Remove(f.Name())
		return "", bare(err)
	}
	return f.Name(), nil
}

// bare takes the name of the temporary file, which means nothing to a reader,
// off an error.
func bare(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}
