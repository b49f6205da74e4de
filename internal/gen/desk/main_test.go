package main

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/chromedp"

	"swardwright/data"
	"swardwright/report/desk"
	"swardwright/sowing"
)

// patience is how long a browser may take to start, and then to plan and save, on a
// machine that has much else to do.
const patience = 6 * time.Minute

// built is the page and the core, built once for all tests.
var built = sync.OnceValues(func() (dir string, err error) {
	if dir, err = os.MkdirTemp("", "desk-test"); err != nil {
		return "", err
	}
	leftovers = dir
	return dir, build(filepath.Join(dir, "desk.html"), filepath.Join(dir, "desk.wasm"))
})

var leftovers string

func TestMain(m *testing.M) {
	code := m.Run()
	if leftovers != "" {
		os.RemoveAll(leftovers)
	}
	os.Exit(code)
}

func folder(t *testing.T) string {
	t.Helper()
	if testing.Short() {
		t.Skip("builds the whole core for the browser")
	}
	dir, err := built()
	if err != nil {
		t.Fatal(err)
	}
	return dir
}

func demo(t *testing.T, name string) string {
	t.Helper()
	text, err := data.FS.ReadFile("demo/" + name + ".toml")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// runner asks the core for each line of a file and writes each answer on a line.
const runner = `
require(process.argv[2]);
const fs = require("fs");
const go = new Go();
WebAssembly.instantiate(fs.readFileSync(process.argv[3]), go.importObject).then(({ instance }) => {
  go.run(instance);
  for (const line of fs.readFileSync(process.argv[4], "utf8").split("\n").filter(Boolean)) {
    const { answer, error } = deskAnswer(line);
    fs.writeSync(1, (error ?? answer) + "\n");
  }
  process.exit(0);
});
`

// TestSameAnswers asks the core in the browser's form, under node, what the program is
// asked, and compares the answers byte by byte.
func TestSameAnswers(t *testing.T) {
	dir := folder(t)
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("there is no node to run the core in")
	}
	tables, err := sowing.BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	d := desk.New(tables, nil)
	var requests, want bytes.Buffer
	for _, r := range []desk.Request{
		{Want: desk.Want{Start: true}},
		{Text: demo(t, "court"), Want: desk.Want{Cells: 400}},
		{Text: demo(t, "court"), Want: desk.Want{Cells: 400, Day: 172}},
		{Text: demo(t, "court"), Want: desk.Want{Plan: true}},
		{Text: demo(t, "orchard"), Want: desk.Want{Plan: true, Files: []string{"pdf", "csv", "ics"}}},
		{Text: demo(t, "family-us"), Want: desk.Want{Plan: true}, Edits: []desk.Edit{{Path: []any{"use", "mowing_mm"}, Value: 55}}},
		{Text: "title = \n", Edits: []desk.Edit{{Path: []any{"a"}, Value: 1}}},
		{Want: desk.Want{Stations: &desk.Near{Named: "norway"}}},
	} {
		line, err := json.Marshal(r)
		if err != nil {
			t.Fatal(err)
		}
		requests.Write(append(line, '\n'))
		answer, err := d.AnswerJSON(t.Context(), line)
		if err != nil {
			t.Fatal(err)
		}
		want.Write(append(answer, '\n'))
	}
	write := func(name, text string) string {
		path := filepath.Join(t.TempDir(), name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	glue := filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js")
	cmd := exec.CommandContext(t.Context(), node, write("run.cjs", runner), glue, filepath.Join(dir, "desk.wasm"), write("requests", requests.String()))
	var complaints bytes.Buffer
	cmd.Stderr = &complaints
	got, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, complaints.String())
	}
	a, b := bytes.Split(got, []byte("\n")), bytes.Split(want.Bytes(), []byte("\n"))
	if len(a) != len(b) {
		t.Fatalf("%d answers, want %d", len(a), len(b))
	}
	for i := range a {
		if !bytes.Equal(a[i], b[i]) {
			at := 0
			for at < min(len(a[i]), len(b[i])) && a[i][at] == b[i][at] {
				at++
			}
			t.Errorf("answer %d differs at byte %d:\nin the browser: %.200s\nin the program: %.200s", i, at, a[i][max(0, at-60):], b[i][max(0, at-60):])
		}
	}
}

// TestOpenedFromDisk opens the page as a file in Chromium: it draws, plans and saves.
func TestOpenedFromDisk(t *testing.T) {
	dir := folder(t)
	path, err := exec.LookPath("chromium")
	if err != nil {
		t.Skip("there is no Chromium to open the page in")
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.WSURLReadTimeout(patience))
	if os.Geteuid() == 0 {
		options = append(options, chromedp.NoSandbox)
	}
	allocator, stop := chromedp.NewExecAllocator(t.Context(), options...)
	defer stop()
	ctx, end := chromedp.NewContext(allocator)
	defer end()
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	ctx, done := context.WithTimeout(ctx, patience)
	defer done()
	messages := chromedp.Console(ctx)
	downloads := t.TempDir()
	if _, err := chromedp.CallBrowser(ctx, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{Behavior: browser.SetDownloadBehaviorBehaviorAllow, DownloadPath: downloads}); err != nil {
		t.Fatal(err)
	}
	until := func(js string) {
		t.Helper()
		for {
			ok, err := chromedp.Run(ctx, chromedp.Evaluate[bool]("!!("+js+")"))
			if err != nil {
				t.Fatalf("%s: %v", js, err)
			}
			if ok {
				return
			}
			time.Sleep(50 * time.Millisecond)
		}
	}
	text, err := json.Marshal(demo(t, "court"))
	if err != nil {
		t.Fatal(err)
	}
	if err := chromedp.Do(ctx, chromedp.Navigate("file://"+filepath.Join(dir, "desk.html"))); err != nil {
		t.Fatal(err)
	}
	until(`document.querySelector("form.begin input[type=file]")`)
	// As the file would be chosen by hand.
	if _, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`(() => { const i = document.querySelector("form.begin input[type=file]"); const d = new DataTransfer(); d.items.add(new File([`+string(text)+`], "court.toml")); i.files = d.files; i.dispatchEvent(new Event("change")); return true })()`)); err != nil {
		t.Fatal(err)
	}
	until(`desk.plan`)
	figures, err := chromedp.Run(ctx, chromedp.Evaluate[string](`JSON.stringify(desk.plan.figures)`))
	if err != nil {
		t.Fatal(err)
	}
	tables, err := sowing.BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	want, err := desk.New(tables, nil).Answer(t.Context(), desk.Request{Text: demo(t, "court"), Want: desk.Want{Plan: true}})
	if err != nil {
		t.Fatal(err)
	}
	var a, b any
	if json.Unmarshal([]byte(figures), &a) != nil || json.Unmarshal(want.Plan.Figures, &b) != nil {
		t.Fatal("no figures")
	}
	one, _ := json.Marshal(a)
	other, _ := json.Marshal(b)
	if !bytes.Equal(one, other) {
		t.Error("the plan of the file is not the program's")
	}
	if _, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`desk.setValue(["use", "mowing_mm"], 33, "cut"), true`)); err != nil {
		t.Fatal(err)
	}
	until(`desk.plan && !desk.busy && desk.brief.settled.length === 0 && desk.brief.text.includes("mowing_mm = 33")`)
	if _, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`document.querySelector("#d-acts button:nth-child(3)").click(), true`)); err != nil {
		t.Fatal(err)
	}
	for {
		saved, err := os.ReadFile(filepath.Join(downloads, "court.toml"))
		if err == nil && strings.Contains(string(saved), "mowing_mm = 33") {
			break
		}
		if ctx.Err() != nil {
			t.Fatal("the brief is not saved")
		}
		time.Sleep(50 * time.Millisecond)
	}
	done()
	for m := range messages {
		if m.Type == chromedp.ConsoleError || m.IsException() {
			t.Errorf("the browser complains: %s %s", m, m.URL)
		}
	}
}

// TestOnePage: all is in the one file, and its scripts can't end early.
func TestOnePage(t *testing.T) {
	assets := desk.Assets()
	page, err := onePage(assets, []byte("wasm"), []byte(`glue("</script>")`))
	if err != nil {
		t.Fatal(err)
	}
	for _, outside := range []string{"src=\"", "href=\"desk", "href=\"icon", "url(regular"} {
		if bytes.Contains(page, []byte(outside)) {
			t.Errorf("the page still asks for %s", outside)
		}
	}
	if n, m := bytes.Count(page, []byte("<script")), bytes.Count(page, []byte("</script>")); n != m {
		t.Errorf("%d scripts begin, %d end", n, m)
	}
	if !bytes.Contains(page, []byte(`<\/script>`)) {
		t.Error("the glue ends its own script")
	}
	delete(assets, "dom.js")
	if _, err := onePage(assets, nil, nil); err == nil {
		t.Error("a page without a module is made")
	}
}

// TestInOrder: a module comes after all that it imports.
func TestInOrder(t *testing.T) {
	order, err := inOrder(desk.Assets())
	if err != nil {
		t.Fatal(err)
	}
	if order[len(order)-1] != "main.js" || len(order) < 10 {
		t.Errorf("order %v", order)
	}
	ring := map[string]desk.Asset{"main.js": {Data: []byte(`import { a } from "./a.js"`)}, "a.js": {Data: []byte(`import { b } from "./main.js"`)}}
	if _, err := inOrder(ring); err == nil {
		t.Error("a ring of modules has an order")
	}
}
