package main

import (
	"bytes"
	"context"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"swardwright/report/desk/loopback"
)

// said collects what is written and tells when there is a line.
type said struct {
	bytes.Buffer
	lines chan string
}

func (s *said) Write(p []byte) (int, error) {
	s.lines <- string(p)
	return s.Buffer.Write(p)
}

// TestDesk opens the desk, asks it something as a page does, and ends it as Ctrl-C does.
func TestDesk(t *testing.T) {
	name := filepath.Join(t.TempDir(), "lawn.toml")
	text, err := demoText(demoName)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, text, 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	out, errs := &said{lines: make(chan string, 100)}, &bytes.Buffer{}
	status := make(chan int, 1)
	go func() { status <- run(ctx, []string{"desk", name, "--no-open"}, strings.NewReader(""), out, errs) }()
	address := regexp.MustCompile(`(http://127\.0\.0\.1:\d+)/#(\w+)`).FindStringSubmatch(<-out.lines)
	if address == nil {
		t.Fatal("no address is printed")
	}
	ask := func(path, body string) string {
		method := http.MethodGet
		if body != "" {
			method = http.MethodPost
		}
		r, err := http.NewRequestWithContext(t.Context(), method, address[1]+path, strings.NewReader(body))
		if err != nil {
			t.Fatal(err)
		}
		r.Header.Set(loopback.TokenHeader, address[2])
		resp, err := http.DefaultClient.Do(r)
		if err != nil {
			t.Fatal(err)
		}
		defer resp.Body.Close()
		data, err := io.ReadAll(resp.Body)
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	if got := ask("/brief", ""); !strings.Contains(got, `"name":"lawn.toml"`) || !strings.Contains(got, "The inner court") {
		t.Errorf("the brief is %.200s", got)
	}
	if got := ask("/answer", `{"text": "title = \"x\"\n", "edits": [{"path": ["use", "grade"], "value": "utility"}], "want": {}}`); !strings.Contains(got, `"says":{"title":"x","use":{"grade":"utility"}}`) {
		t.Errorf("the answer is %.200s", got)
	}
	stop()
	if code := <-status; code != exitDone {
		t.Errorf("status %d", code)
	}
	if got := errs.String(); !strings.Contains(got, "not saved: ") || !strings.Contains(got, "use.grade") {
		t.Errorf("at the end it says %q", got)
	}
	if now, err := os.ReadFile(name); err != nil || !bytes.Equal(now, text) {
		t.Error("the file was changed")
	}
}

func TestDeskRefuses(t *testing.T) {
	dir := t.TempDir()
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"desk", dir}, "is no plain file"},
		{[]string{"desk", filepath.Join(dir, "no", "lawn.toml")}, "there is no folder"},
		{[]string{"desk", "a.toml", "b.toml"}, "takes one brief and no more"},
	} {
		var errs bytes.Buffer
		if code := run(t.Context(), c.args, strings.NewReader(""), io.Discard, &errs); code != exitWrong || !strings.Contains(errs.String(), c.want) {
			t.Errorf("%v: status %d, %s", c.args, code, errs.String())
		}
	}
}

// TestOnlyNamedWeather: of the files beside a brief only the one it named at the start is read.
func TestOnlyNamedWeather(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"here.epw", "other.epw"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(name), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	open := onlyNamed(filepath.Join(dir, "lawn.toml"), []byte("[climate]\nepw = \"here.epw\"\n"))
	file, err := open("here.epw")
	if err != nil {
		t.Fatal(err)
	}
	file.Close()
	for _, other := range []string{"other.epw", "./here.epw", "../" + filepath.Base(dir) + "/here.epw", "/etc/passwd", ""} {
		if file, err := open(other); err == nil {
			file.Close()
			t.Errorf("%s is opened", other)
		}
	}
	if _, err := onlyNamed(filepath.Join(dir, "lawn.toml"), nil)(""); err == nil {
		t.Error("a file without a name is opened")
	}
}
