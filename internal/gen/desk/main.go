// Desk builds the desk as one file of HTML that needs no program: the page with the core as
// WebAssembly. Opened from disk it draws, plans and saves.
//
//	go run ./internal/gen/desk                     writes dist/swardwright-desk.html
//	go run ./internal/gen/desk -o FILE -wasm FILE  and the core by itself
package main

import (
	"bytes"
	"compress/gzip"
	"encoding/base64"
	"flag"
	"fmt"
	"log"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"swardwright/report/desk"
)

func main() {
	log.SetFlags(0)
	out := flag.String("o", "dist/swardwright-desk.html", "the page is written to `FILE`")
	wasm := flag.String("wasm", "", "keep the core by itself in `FILE`")
	flag.Parse()
	if err := build(*out, *wasm); err != nil {
		log.Fatal(err)
	}
}

func build(out, keep string) error {
	dir, err := os.MkdirTemp("", "desk")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	core := filepath.Join(dir, "desk.wasm")
	cmd := exec.Command("go", "build", "-trimpath", "-ldflags=-s -w", "-o", core, "swardwright/cmd/desk")
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	cmd.Stderr = os.Stderr
	if err := cmd.Run(); err != nil {
		return fmt.Errorf("building the core: %w", err)
	}
	wasm, err := os.ReadFile(core)
	if err != nil {
		return err
	}
	if keep != "" {
		if err := os.WriteFile(keep, wasm, 0o644); err != nil {
			return err
		}
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return err
	}
	glue, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		return err
	}
	page, err := onePage(desk.Assets(), wasm, glue)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(out), 0o755); err != nil {
		return err
	}
	return os.WriteFile(out, page, 0o644)
}

// policy is that of a page without a server: only what stands in it, and no connection.
const policy = "default-src 'none'; script-src 'unsafe-inline' 'wasm-unsafe-eval' blob:; worker-src blob:; style-src 'unsafe-inline'; font-src data:; img-src data:; base-uri 'none'; form-action 'none'"

// onePage puts the files of the page, the core and Go's own glue for it into one.
func onePage(assets map[string]desk.Asset, wasm, glue []byte) ([]byte, error) {
	css := string(assets["desk.css"].Data)
	for _, font := range []string{"regular.ttf", "bold.ttf"} {
		css = strings.Replace(css, "url("+font+")", "url(data:font/ttf;base64,"+base64.StdEncoding.EncodeToString(assets[font].Data)+")", 1)
	}
	modules, err := inOrder(assets)
	if err != nil {
		return nil, err
	}
	var scripts strings.Builder
	for _, name := range modules {
		fmt.Fprintf(&scripts, "<script type=\"text/plain\" class=\"module\" data-name=%q>\n%s</script>\n", name, guarded(assets[name].Data))
	}
	packed, err := pack(wasm)
	if err != nil {
		return nil, err
	}
	icon := "data:image/svg+xml;base64," + base64.StdEncoding.EncodeToString(assets["icon.svg"].Data)
	page := string(assets["index.html"].Data)
	for _, c := range []struct{ from, to string }{
		{`<meta charset="utf-8">`, `<meta charset="utf-8">` + "\n" + `<meta http-equiv="Content-Security-Policy" content="` + policy + `">`},
		{`href="icon.svg"`, `href="` + icon + `"`},
		{`<link rel="stylesheet" href="desk.css">`, "<style>\n" + css + "</style>"},
		{`<script type="module" src="main.js"></script>`, ""},
		{`</body>`, "<script type=\"text/plain\" id=\"d-core\">" + packed + "</script>\n" +
			"<script type=\"text/plain\" id=\"d-worker\">\n" + guarded(glue) + worker + "</script>\n" +
			scripts.String() + "<script>" + loader + "</script>\n</body>"},
	} {
		if strings.Count(page, c.from) != 1 {
			return nil, fmt.Errorf("the page should have %q once", c.from)
		}
		page = strings.Replace(page, c.from, c.to, 1)
	}
	return []byte(page), nil
}

func pack(data []byte) (string, error) {
	var b bytes.Buffer
	w, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return "", err
	}
	if _, err := w.Write(data); err != nil {
		return "", err
	}
	if err := w.Close(); err != nil {
		return "", err
	}
	return base64.StdEncoding.EncodeToString(b.Bytes()), nil
}

// guarded keeps a script from ending the element it stands in.
func guarded(script []byte) string {
	return strings.ReplaceAll(string(script), "</script", `<\/script`)
}

var imports = regexp.MustCompile(`from "\./([a-z]+\.js)"`)

// inOrder lists the modules so that each comes after those it imports.
func inOrder(assets map[string]desk.Asset) ([]string, error) {
	var out []string
	var add func(name string, above []string) error
	add = func(name string, above []string) error {
		if slices.Contains(above, name) {
			return fmt.Errorf("modules import each other in a ring: %s", strings.Join(append(above, name), ", "))
		}
		a, ok := assets[name]
		if !ok {
			return fmt.Errorf("there is no module %s", name)
		}
		for _, m := range imports.FindAllSubmatch(a.Data, -1) {
			if err := add(string(m[1]), append(above, name)); err != nil {
				return err
			}
		}
		if !slices.Contains(out, name) {
			out = append(out, name)
		}
		return nil
	}
	return out, add("main.js", nil)
}

// worker runs the core and answers what it is asked.
const worker = `
onmessage = async ({ data }) => {
  if (data.module) {
    const go = new Go();
    self.begun = WebAssembly.instantiate(data.module, go.importObject).then((instance) => { go.run(instance); });
    return;
  }
  await self.begun;
  try {
    postMessage(deskAnswer(data.request));
  } catch (e) {
    postMessage({ error: String(e) });
  }
};
`

// loader gives each module an address of its own and begins with the last.
const loader = `
(async () => {
  const at = {};
  for (const s of document.querySelectorAll("script.module")) {
    const text = s.textContent.replace(/from "\.\/([a-z]+\.js)"/g, (all, name) => 'from "' + at[name] + '"');
    at[s.dataset.name] = URL.createObjectURL(new Blob([text], { type: "text/javascript" }));
  }
  await import(at["main.js"]);
})();
`
