// Release builds what is given out: for each system an archive of the stripped program with
// its licences, manual page and completions, and one file of checksums over all.
//
//	go run ./internal/release [-o dist] [-target linux/amd64,…]
//
// It is run at a tag, which gives the version. One commit gives the same bytes on every
// machine with the same Go: the time in the archives is that of the commit, or
// SOURCE_DATE_EPOCH.
package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
)

const program = "swardwright"

// targets are the systems that archives are made for.
var targets = []string{"linux/amd64", "linux/arm64", "darwin/amd64", "darwin/arm64", "windows/amd64", "windows/arm64"}

func main() {
	to := flag.String("o", "dist", "`folder` that the archives are written to")
	which := flag.String("target", strings.Join(targets, ","), "`systems` as os/arch, commas between")
	flag.Parse()
	root, err := output(nil, "go", "list", "-m", "-f", "{{.Dir}}")
	if err == nil {
		err = release(root, *to, strings.Split(*which, ","))
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "release:", err)
		os.Exit(1)
	}
}

// release writes the archives of a source and their checksums.
func release(root, to string, systems []string) (err error) {
	r := builder{root: root}
	if r.time, err = madeAt(root); err != nil {
		return err
	}
	if err := os.MkdirAll(to, 0o777); err != nil {
		return err
	}
	temp, err := os.MkdirTemp("", "release")
	if err != nil {
		return err
	}
	defer os.RemoveAll(temp)
	if r.version, r.papers, err = r.fromProgram(temp); err != nil {
		return err
	}
	var sums strings.Builder
	for _, system := range systems {
		name, data, err := r.archive(temp, system)
		if err != nil {
			return fmt.Errorf("%s: %w", system, err)
		}
		if err := os.WriteFile(filepath.Join(to, name), data, 0o666); err != nil {
			return err
		}
		fmt.Fprintf(&sums, "%x  %s\n", sha256.Sum256(data), name)
	}
	return os.WriteFile(filepath.Join(to, "SHA256SUMS"), []byte(sums.String()), 0o666)
}

// builder makes archives of one source.
type builder struct {
	root, version string
	time          time.Time
	papers        []file // that go into every archive
}

// file is one file of an archive.
type file struct {
	name string
	data []byte
	mode fs.FileMode
}

// madeAt is the time of the commit, or what packagers set in its place.
func madeAt(root string) (time.Time, error) {
	seconds := os.Getenv("SOURCE_DATE_EPOCH")
	if seconds == "" {
		var err error
		if seconds, err = output(nil, "git", "-C", root, "log", "-1", "--format=%ct"); err != nil {
			return time.Time{}, fmt.Errorf("no commit gives the time; set SOURCE_DATE_EPOCH: %w", err)
		}
	}
	n, err := strconv.ParseInt(seconds, 10, 64)
	if err != nil {
		return time.Time{}, fmt.Errorf("SOURCE_DATE_EPOCH is %q, no number of seconds", seconds)
	}
	return time.Unix(n, 0).UTC(), nil
}

// fromProgram builds the program for this machine and lets it say its version and write its manual
// page and completions.
func (r builder) fromProgram(temp string) (version string, papers []file, err error) {
	binary := filepath.Join(temp, "host")
	if err := r.build(binary, nil); err != nil {
		return "", nil, err
	}
	date := "SOURCE_DATE_EPOCH=" + strconv.FormatInt(r.time.Unix(), 10)
	said, err := output(nil, binary, "--version")
	if err != nil {
		return "", nil, err
	}
	fields := strings.Fields(said) // "swardwright version v1.2.3 go1.26.1"
	if len(fields) < 3 {
		return "", nil, fmt.Errorf("the program says of its version: %q", said)
	}
	version = strings.Trim(strings.TrimPrefix(fields[2], "v"), "()")
	for _, x := range []struct {
		name string
		args []string
	}{
		{"man/" + program + ".1", []string{"man"}},
		{"completions/" + program + ".bash", []string{"completion", "bash"}},
		{"completions/_" + program, []string{"completion", "zsh"}},
		{"completions/" + program + ".fish", []string{"completion", "fish"}},
		{"completions/" + program + ".ps1", []string{"completion", "powershell"}},
	} {
		text, err := output([]string{date}, binary, x.args...)
		if err != nil {
			return "", nil, err
		}
		papers = append(papers, file{x.name, []byte(text + "\n"), 0o644})
	}
	for _, name := range []string{"LICENSE", "README.md", "CHANGELOG.md"} {
		data, err := os.ReadFile(filepath.Join(r.root, name))
		if err != nil {
			return "", nil, err
		}
		papers = append(papers, file{name, data, 0o644})
	}
	return version, papers, nil
}

// build builds the program stripped, and without anything of this machine in it.
func (r builder) build(binary string, env []string) error {
	_, err := output(append([]string{"CGO_ENABLED=0", "GOAMD64=v1", "GOFLAGS="}, env...),
		"go", "-C", r.root, "build", "-trimpath", "-buildvcs=auto", "-ldflags=-s -w -buildid=", "-o", binary, "./cmd/"+program)
	return err
}

// archive builds one system's.
func (r builder) archive(temp, system string) (name string, data []byte, err error) {
	goos, arch, ok := strings.Cut(system, "/")
	if !ok {
		return "", nil, errors.New("a system is named as os/arch")
	}
	env := []string{"GOOS=" + goos, "GOARCH=" + arch}
	binary := filepath.Join(temp, goos+"-"+arch)
	if err := r.build(binary, env); err != nil {
		return "", nil, err
	}
	code, err := os.ReadFile(binary)
	if err != nil {
		return "", nil, err
	}
	notices, err := r.notices(env)
	if err != nil {
		return "", nil, err
	}
	base := fmt.Sprintf("%s_%s_%s_%s", program, r.version, goos, arch)
	executable := program
	if goos == "windows" {
		executable += ".exe"
	}
	all := append(slices.Clone(r.papers), file{"NOTICES.txt", notices, 0o644}, file{executable, code, 0o755})
	slices.SortFunc(all, func(a, b file) int { return strings.Compare(a.name, b.name) })
	if goos == "windows" {
		data, err = r.zipped(base, all)
		return base + ".zip", data, err
	}
	data, err = r.tarred(base, all)
	return base + ".tar.gz", data, err
}

func (r builder) tarred(base string, all []file) ([]byte, error) {
	var b bytes.Buffer
	z, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	t := tar.NewWriter(z)
	for _, f := range all {
		h := tar.Header{Name: path.Join(base, f.name), Mode: int64(f.mode), Size: int64(len(f.data)), ModTime: r.time, Format: tar.FormatUSTAR}
		if err := t.WriteHeader(&h); err != nil {
			return nil, err
		}
		if _, err := t.Write(f.data); err != nil {
			return nil, err
		}
	}
	err = errors.Join(t.Close(), z.Close())
	return b.Bytes(), err
}

func (r builder) zipped(base string, all []file) ([]byte, error) {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, f := range all {
		h := zip.FileHeader{Name: path.Join(base, f.name), Method: zip.Deflate, Modified: r.time}
		h.SetMode(f.mode)
		w, err := z.CreateHeader(&h)
		if err != nil {
			return nil, err
		}
		if _, err := w.Write(f.data); err != nil {
			return nil, err
		}
	}
	err := z.Close()
	return b.Bytes(), err
}

// notices are the licences of all that is linked in: Go itself, every module, and the
// fonts.
func (r builder) notices(env []string) ([]byte, error) {
	goRoot, err := output(nil, "go", "env", "GOROOT")
	if err != nil {
		return nil, err
	}
	listed, err := output(env, "go", "-C", r.root, "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}\t{{.Dir}}{{end}}{{end}}", "./cmd/"+program)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s is built of the following, each under its own licence.\n", program)
	parts := slices.Compact(slices.Sorted(slices.Values(strings.Split(listed, "\n"))))
	parts = append([]string{"Go\t" + goRoot}, parts...)
	parts = append(parts, "The Go fonts\t"+filepath.Join(r.root, "report", "paper", "licences"))
	for _, part := range parts {
		what, dir, ok := strings.Cut(part, "\t")
		if !ok {
			continue
		}
		licences, err := licencesIn(dir)
		if err != nil {
			return nil, err
		}
		if len(licences) == 0 {
			return nil, fmt.Errorf("no licence of %s is found", what)
		}
		for _, l := range licences {
			fmt.Fprintf(&b, "\n%s\n%s\n\n%s\n", strings.Repeat("=", 72), what, strings.TrimSpace(strings.ReplaceAll(string(l), "\r", "")))
		}
	}
	return b.Bytes(), nil
}

// licencesIn are the texts of the licences in a folder: all of a folder of licences, and
// what is named as one elsewhere.
func licencesIn(dir string) ([][]byte, error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	var texts [][]byte
	for _, e := range entries {
		name := strings.ToUpper(e.Name())
		named := strings.HasPrefix(name, "LICEN") || strings.HasPrefix(name, "COPYING") || strings.HasPrefix(name, "NOTICE")
		if e.IsDir() || !named && filepath.Base(dir) != "licences" {
			continue
		}
		text, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			return nil, err
		}
		texts = append(texts, text)
	}
	return texts, nil
}

// output runs a command and gives what it prints.
func output(env []string, name string, args ...string) (string, error) {
	cmd := exec.Command(name, args...)
	cmd.Env = append(os.Environ(), env...)
	var said bytes.Buffer
	cmd.Stderr = &said
	out, err := cmd.Output()
	if err != nil {
		return "", fmt.Errorf("%s %s: %w\n%s", name, strings.Join(args, " "), err, said.String())
	}
	return strings.TrimSpace(string(out)), nil
}
