// Package swardwright holds the source of the core, so that the program can show every
// number that its models rest on with what the source says of it. Nothing is written out
// or kept in step: the program reads the numbers where they stand.
package swardwright

import "embed"

// Core is the Go source of the rooms that know the trade.
//
//go:embed site/*.go site/*/*.go species/*.go mix/*.go mix/*/*.go sowing/*.go sowing/*/*.go
var Core embed.FS
