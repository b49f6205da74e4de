package files

import (
	"bytes"
	"context"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"
)

func put(t *testing.T, name, text string) string {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	return name
}

func link(t *testing.T, to, name string) string {
	t.Helper()
	if err := os.Symlink(to, name); err != nil {
		t.Skip("no links here:", err)
	}
	return name
}

func holds(t *testing.T, name, want string) {
	t.Helper()
	if got, err := os.ReadFile(name); err != nil || string(got) != want {
		t.Errorf("%s holds %q, %v, want %q", name, got, err, want)
	}
}

// alone says that a folder holds just these names.
func alone(t *testing.T, dir string, want ...string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, e := range entries {
		got = append(got, e.Name())
	}
	if strings.Join(got, " ") != strings.Join(want, " ") {
		t.Errorf("%s holds %v, want %v", dir, got, want)
	}
}

// TestAllOrNothing has one of three outputs fail.
func TestAllOrNothing(t *testing.T) {
	dir := t.TempDir()
	kept := put(t, filepath.Join(dir, "kept.json"), "old")
	if err := os.Chmod(kept, 0o640); err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	err := Write(context.Background(), &out, []Output{
		{Name: kept, Data: []byte("new")},
		{Name: filepath.Join(dir, "made", "here", "a.svg"), Folder: true},
		{Name: filepath.Join(dir, "no", "folder.csv")},
		{Name: Std, Data: []byte("text")},
	})
	if err == nil {
		t.Fatal("no error")
	}
	holds(t, kept, "old")
	alone(t, dir, "kept.json")
	if out.Len() > 0 {
		t.Errorf("wrote %q", out.String())
	}
	err = Write(context.Background(), &out, []Output{{Name: kept, Data: []byte("new")}, {Name: Std, Data: []byte("text")}})
	if err != nil || out.String() != "text" {
		t.Errorf("%v, wrote %q", err, out.String())
	}
	holds(t, kept, "new")
	if info, err := os.Stat(kept); err != nil || runtime.GOOS != "windows" && info.Mode().Perm() != 0o640 {
		t.Errorf("has %v, %v", info.Mode(), err)
	}
}

// TestLinksAreFollowed: the file a link leads to is written, there already or not.
func TestLinksAreFollowed(t *testing.T) {
	dir := t.TempDir()
	there := put(t, filepath.Join(dir, "a", "there"), "old")
	away := filepath.Join(dir, "a", "away")
	one := link(t, there, filepath.Join(dir, "one"))
	two := link(t, filepath.Join("a", "away"), filepath.Join(dir, "two"))
	loop := link(t, "loop", filepath.Join(dir, "loop"))
	if err := Write(context.Background(), nil, []Output{{Name: one, Data: []byte("1")}, {Name: two, Data: []byte("2")}}); err != nil {
		t.Fatal(err)
	}
	holds(t, there, "1")
	holds(t, away, "2")
	for _, l := range []string{one, two} {
		if info, err := os.Lstat(l); err != nil || info.Mode()&fs.ModeSymlink == 0 {
			t.Errorf("%s is a link no more", l)
		}
	}
	if err := Write(context.Background(), nil, []Output{{Name: loop}}); err == nil {
		t.Error("a link to itself was written to")
	}
}

func TestLongName(t *testing.T) {
	name := filepath.Join(t.TempDir(), strings.Repeat("n", 255)) // the most that most file systems take
	if err := Write(context.Background(), nil, []Output{{Name: name, Data: []byte("x")}}); err != nil {
		t.Error(err)
	}
	holds(t, name, "x")
}

func TestStaleGoes(t *testing.T) {
	dir := t.TempDir()
	old := put(t, filepath.Join(dir, "old.svg"), "old")
	if err := Write(context.Background(), nil, []Output{{Name: filepath.Join(dir, "new.svg")}}, old); err != nil {
		t.Fatal(err)
	}
	alone(t, dir, "new.svg")
}

func TestWriteNew(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "new.toml")
	if err := WriteNew(name, []byte("first")); err != nil {
		t.Fatal(err)
	}
	if err := WriteNew(name, []byte("second")); !errors.Is(err, fs.ErrExist) {
		t.Errorf("over a file that is there: %v", err)
	}
	holds(t, name, "first")
	alone(t, dir, "new.toml")
	away := link(t, "away", filepath.Join(dir, "link"))
	if err := WriteNew(away, nil); !errors.Is(err, fs.ErrExist) {
		t.Errorf("over a link: %v", err)
	}
}

// TestStopped: what waits for ever ends with the run, and nothing is written.
func TestStopped(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	r, w := io.Pipe() // that nobody reads
	defer r.Close()
	time.AfterFunc(10*time.Millisecond, stop)
	if err := Write(ctx, w, []Output{{Name: Std, Data: []byte("x")}}); !errors.Is(err, context.Canceled) {
		t.Errorf("a stopped write: %v", err)
	}
	dir := t.TempDir()
	if err := Write(ctx, nil, []Output{{Name: filepath.Join(dir, "a")}}); !errors.Is(err, context.Canceled) {
		t.Errorf("begun when stopped: %v", err)
	}
	alone(t, dir)
}

func TestReady(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	put(t, "b.toml", "brief")
	put(t, "sub/w.epw", "weather")
	put(t, "old.json", "{}")
	link(t, "b.toml", "link.toml")
	link(t, "fresh.json", "dangling")
	link(t, "sub", "sublink")
	if err := os.Link("b.toml", "hard.toml"); err != nil {
		t.Fatal(err)
	}
	file, err := os.OpenFile("b.toml", os.O_APPEND|os.O_WRONLY, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	reads := []Use{{What: "the brief", Name: "b.toml"}, {What: "the weather file", Name: "sub/w.epw"}}
	json := func(name string) Use { return Use{What: "the JSON", Name: name} }
	csv := func(name string) Use { return Use{What: "the bill", Name: name} }
	svg := func(name string) Use { return Use{What: "the drawings", Name: name, Ending: ".svg", Folder: true} }
	for _, c := range []struct {
		name   string
		writes []Use
		says   string // empty: all is well
		wrong  bool   // it is the call that is wrong
	}{
		{"apart", []Use{json("a.json"), csv("old.json"), svg("drawn"), {What: "the text", Name: Std}}, "", false},
		{"nowhere", []Use{json(os.DevNull), csv(os.DevNull), json("")}, "", false},
		{"over the brief", []Use{json("b.toml")}, "the JSON would go to b.toml, over the brief that is read", true},
		{"over it by a longer path", []Use{json("./sub/../b.toml")}, "over the brief", true},
		{"over it in capitals", []Use{json("B.TOML")}, "over the brief", true},
		{"over it by a link", []Use{json("link.toml")}, "over the brief", true},
		{"over it by a hard link", []Use{json("hard.toml")}, "over the brief", true},
		{"over it by standard output", []Use{{What: "the text", Name: Std, Stream: file}}, "the text would go to standard output, over the brief", true},
		{"over the weather by a linked folder", []Use{json("sublink/W.epw")}, "over the weather file", true},
		{"two to one", []Use{json("x"), csv("./x")}, "the JSON and the bill would both go to ./x", true},
		{"two to one, in letters of two forms", []Use{json("gr\u00fcn"), csv("gru\u0308n")}, "both go to", true},
		{"two to one by a dangling link", []Use{json("dangling"), csv("fresh.json")}, "both go to", true},
		{"two to one by a linked folder", []Use{json("sub/x"), csv("sublink/x")}, "both go to", true},
		{"two to standard output", []Use{json(Std), csv(Std)}, "the JSON and the bill would both go to standard output", true},
		{"among the drawings", []Use{json("d/plan.svg"), svg("d")}, "both go to d", true},
		{"among the drawings, told after", []Use{svg("d"), json("d/plan.SVG")}, "both go to", true},
		{"beside the drawings", []Use{svg("d"), {What: "the JSON", Name: "d/plan.json", Folder: true}}, "", false},
		{"a file and a folder", []Use{json("d"), svg("d")}, "the JSON would go to d, and the drawings into a folder of that name", true},
		{"a folder", []Use{json("sub")}, "the JSON cannot go to sub: it is a folder", true},
		{"no folder", []Use{json("no/such/a.json")}, "cannot write no/such/a.json: no such file", false},
		{"a file for a folder", []Use{json("b.toml/a.json")}, "cannot write b.toml/a.json", false},
		{"a file for a folder to be made", []Use{svg("old.json")}, "cannot write old.json", false},
	} {
		err := Ready(reads, c.writes)
		var call Clash
		switch {
		case c.says == "" && err != nil:
			t.Errorf("%s: %v", c.name, err)
		case c.says != "" && (err == nil || !strings.Contains(err.Error(), c.says)):
			t.Errorf("%s: %v, want %q", c.name, err, c.says)
		case errors.As(err, &call) != c.wrong:
			t.Errorf("%s: a wrong call: %v", c.name, errors.As(err, &call))
		}
	}
	if err := Ready([]Use{{What: "the brief", Name: Std}}, []Use{json("a.json"), {What: "the text", Name: Std}}); err != nil {
		t.Errorf("from standard input to standard output: %v", err)
	}
	if err := Ready([]Use{{What: "a", Name: Std}, {What: "b", Name: Std}}, nil); err == nil {
		t.Error("standard input is read twice")
	}
	if err := Ready([]Use{{What: "a", Name: "sub/w.epw"}, {What: "b", Name: "sub/w.epw"}}, nil); err != nil {
		t.Errorf("a weather file of two briefs: %v", err)
	}
	for _, names := range [][]string{{"b.toml", "link.toml"}, {Std, "b.toml", Std}, {"x", "./x"}} {
		if n, ok := Twice(names); !ok || n != names[len(names)-1] {
			t.Errorf("%v: %q, %v", names, n, ok)
		}
	}
	if n, ok := Twice([]string{"b.toml", "sub/b.toml", Std}); ok {
		t.Errorf("%s is no name given twice", n)
	}
}

// TestSwept: what a killed run left goes, what a living one writes stays, and so
// do the files of others.
func TestSwept(t *testing.T) {
	dir := t.TempDir()
	alive, err := writeBeside(find(filepath.Join(dir, "plan.json")), []byte("x"))
	if err != nil {
		t.Fatal(err)
	}
	dead := put(t, filepath.Join(dir, partBegins+"00c0ffee"+partEnds), "left")
	old := time.Now().Add(-2 * time.Hour)
	if err := os.Chtimes(dead, old, old); err != nil {
		t.Fatal(err)
	}
	put(t, filepath.Join(dir, ".swardwright-notes"), "mine")
	if err := Ready(nil, []Use{{What: "the JSON", Name: filepath.Join(dir, "a.json")}}); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(dead); err == nil {
		t.Error("what a killed run left is there still")
	}
	if err := alive.settle(); err != nil {
		t.Errorf("swept from under a living run: %v", err)
	}
	alive.drop()
	alone(t, dir, ".swardwright-notes", "plan.json")
}
