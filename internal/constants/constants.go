// Package constants reads the table of the numbers that the models hold in their
// source, so that a plan can name them.
package constants

import (
	"fmt"
	"io/fs"

	"github.com/BurntSushi/toml"
)

// File is the table's name in data.FS. It is written by internal/gen/constants.
const File = "constants.toml"

// Table is the whole file, in the order of the source.
type Table struct {
	Groups []Group `toml:"group"`
}

// Group is what one declaration holds.
type Group struct {
	Room      string     `toml:"room"`            // the package's folder, as site/light
	About     string     `toml:"about,omitempty"` // what the source says of all of them
	Constants []Constant `toml:"constant"`
}

// Constant is one number, or one list of them, of a model.
type Constant struct {
	Name  string `toml:"name"`          // in the source
	Value string `toml:"value"`         // as the source writes it
	Why   string `toml:"why,omitempty"` // what the source says of it: unit, origin, what it was fitted to
}

// Load reads the table.
func Load(fsys fs.FS) (Table, error) {
	var t Table
	if _, err := toml.DecodeFS(fsys, File, &t); err != nil {
		return Table{}, fmt.Errorf("%s: %w", File, err)
	}
	return t, nil
}
