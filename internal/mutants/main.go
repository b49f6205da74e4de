// Mutants shows what the tests don't notice: it changes the core in one place at a time (a constant
// a fifth off, a term dropped, a sign or a comparison turned), runs the tests against each change,
// and lists the changes that no test noticed.
//
//	go run ./internal/mutants [-sample 300] [-seed 1] [-skip 0] [-only REGEXP] [-own] [-list]
//
// A line is: where, what was changed, and the package whose tests noticed, or "survived". The tests
// are the short ones of the package that was changed, then those of the packages of the core that
// import it; none of them reads a printed page. The sources are not touched. One seed draws one sample.
package main

import (
	"cmp"
	"encoding/json"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"
)

// core are the folders that are changed and whose tests are run.
var core = []string{"./site/...", "./species/...", "./mix/...", "./sowing/..."}

func main() {
	size := flag.Int("sample", 300, "how many changes are drawn")
	seed := flag.Uint64("seed", 1, "of the draw")
	skip := flag.Int("skip", 0, "leave out the first of the sample, tried before")
	only := flag.String("only", "", "draw from those changes alone whose line matches `REGEXP`; with -sample 0 try them all")
	list := flag.Bool("list", false, "list the changes and run nothing")
	own := flag.Bool("own", false, "run the tests of the changed package alone: quicker, and what survives may still be noticed")
	limit := flag.Duration("limit", 3*time.Minute, "a package's tests that take longer have noticed")
	flag.Parse()
	chosen, err := regexp.Compile(*only)
	if err == nil {
		err = run(*size, *seed, *skip, chosen, *list, *own, *limit)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "mutants:", err)
		os.Exit(1)
	}
}

func run(size int, seed uint64, skip int, chosen *regexp.Regexp, list, own bool, limit time.Duration) error {
	packages, err := listed(core)
	if err != nil {
		return err
	}
	var all []mutant
	for _, p := range packages {
		found, err := p.mutants()
		if err != nil {
			return err
		}
		all = append(all, found...)
	}
	all = slices.DeleteFunc(all, func(m mutant) bool { return !chosen.MatchString(m.String()) })
	sample := drawn(all, size, seed)
	sample = sample[min(skip, len(sample)):]
	if list {
		for _, m := range sample {
			fmt.Println(m)
		}
		return nil
	}
	temp, err := os.MkdirTemp("", "mutants")
	if err != nil {
		return err
	}
	defer os.RemoveAll(temp)
	noticed, tried := 0, 0
	if own {
		packages = nil // none imports another
	}
	for _, m := range sample {
		by, err := try(m, packages, temp, limit)
		if err != nil {
			return err
		}
		fmt.Printf("%s\t%s\n", m, by)
		if by != stillborn {
			tried++
		}
		if by != stillborn && by != survived {
			noticed++
		}
	}
	fmt.Printf("# %d of %d noticed\n", noticed, tried)
	return nil
}

// drawn is a sample in which each room and each kind of change has the same share, in an order whose
// every beginning is such a sample; of no size, all changes as they stand.
func drawn(all []mutant, size int, seed uint64) []mutant {
	if size == 0 {
		return all
	}
	rng := rand.New(rand.NewPCG(seed, 0))
	rng.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	type group struct{ room, kind string }
	seen := map[group]int{}
	turn := make(map[mutant]int, len(all))
	for _, m := range all {
		g := group{m.room(), m.kind}
		turn[m] = seen[g]
		seen[g]++
	}
	slices.SortStableFunc(all, func(a, b mutant) int { return cmp.Compare(turn[a], turn[b]) })
	return all[:min(size, len(all))]
}

// A pack is a package of the core: where it stands, what it is made of, what it uses.
type pack struct {
	ImportPath string
	Dir        string
	GoFiles    []string
	Imports    []string
}

// listed are the packages of the core; what helps its tests is none of it.
func listed(patterns []string) ([]pack, error) {
	out, err := exec.Command("go", append([]string{"list", "-json=ImportPath,Dir,GoFiles,Imports"}, patterns...)...).Output()
	if err != nil {
		return nil, err
	}
	var packages []pack
	for dec := json.NewDecoder(strings.NewReader(string(out))); dec.More(); {
		var p pack
		if err := dec.Decode(&p); err != nil {
			return nil, err
		}
		if !strings.Contains(p.ImportPath, "/internal/") {
			packages = append(packages, p)
		}
	}
	return packages, nil
}

// What becomes of a change beside being noticed by the tests of a package.
const (
	survived  = "survived"
	stillborn = "does not build"
)

// try runs the tests against a change: those of its own package, then those of the packages that import it.
func try(m mutant, packages []pack, temp string, limit time.Duration) (string, error) {
	text, err := os.ReadFile(m.file)
	if err != nil {
		return "", err
	}
	changed := filepath.Join(temp, "changed.go")
	overlay := filepath.Join(temp, "overlay.json")
	says, err := json.Marshal(map[string]map[string]string{"Replace": {m.file: changed}})
	if err != nil {
		return "", err
	}
	if err := os.WriteFile(changed, slices.Concat(text[:m.from], []byte(m.gets), text[m.to:]), 0o600); err != nil {
		return "", err
	}
	if err := os.WriteFile(overlay, says, 0o600); err != nil {
		return "", err
	}
	tests := []string{m.in}
	for _, p := range packages {
		if slices.Contains(p.Imports, m.in) {
			tests = append(tests, p.ImportPath)
		}
	}
	for _, t := range tests {
		out, err := exec.Command("go", "test", "-short", "-failfast", "-vet=off", "-timeout", limit.String(), "-overlay", overlay, t).CombinedOutput()
		switch {
		case err == nil:
		case strings.Contains(string(out), "[build failed]"):
			return stillborn, nil
		default:
			return t, nil
		}
	}
	return survived, nil
}
