// Package data holds Swardwright's tables as TOML: species, stations, prices,
// the numbers of the models and the demo briefs. It holds no logic; every value
// carries its source.
package data

import "embed"

// FS holds species.toml, stations.toml, prices.toml and demo/*.toml.
//
//go:embed *.toml demo/*.toml
var FS embed.FS
