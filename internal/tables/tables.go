// Package tables reads the tables that are part of the program.
package tables

import (
	"errors"
	"io/fs"
	"strings"

	"github.com/pelletier/go-toml/v2"
)

// Decode reads a table of TOML into a value, and gives the keys that have no place in it,
// dotted, with what else is wrong.
func Decode(fsys fs.FS, name string, into any) (unknown []string, err error) {
	file, err := fsys.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	err = toml.NewDecoder(file).DisallowUnknownFields().Decode(into)
	if missing, ok := errors.AsType[*toml.StrictMissingError](err); ok {
		for _, e := range missing.Errors {
			unknown = append(unknown, strings.Join(e.Key(), "."))
		}
		err = nil
	}
	return unknown, err
}
