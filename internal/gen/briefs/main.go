// Briefs writes random sound briefs into a folder, each in a file of its own, for trying
// the program on:
//
//	go run ./internal/gen/briefs -n 100 -from 1 FOLDER
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"swardwright/internal/briefs"
)

func main() {
	n := flag.Int("n", 100, "how many")
	from := flag.Uint64("from", 1, "the seed of the first of them")
	flag.Parse()
	if err := write(flag.Arg(0), *n, *from); err != nil {
		fmt.Fprintln(os.Stderr, "briefs:", err)
		os.Exit(1)
	}
}

func write(dir string, n int, from uint64) error {
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return err
	}
	for seed := from; seed < from+uint64(n); seed++ {
		b := briefs.Random(seed)
		text := b.Text
		name := fmt.Sprintf("%05d", seed)
		if b.Weather != "" { // each its own, since they lie in one folder
			own := name + ".epw"
			text = strings.Replace(text, briefs.WeatherFile, own, 1)
			if err := os.WriteFile(filepath.Join(dir, own), []byte(b.Weather), 0o666); err != nil {
				return err
			}
		}
		if err := os.WriteFile(filepath.Join(dir, name+".toml"), []byte(text), 0o666); err != nil {
			return err
		}
	}
	return nil
}
