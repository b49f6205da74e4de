package loopback

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// These tests drive the page in Chromium. Where there is none they are skipped.

// patience is how long a test waits for what must come, on a machine that has much else
// to do.
const patience = 3 * time.Minute

var chromium = sync.OnceValues(func() (context.Context, error) {
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		path, err := exec.LookPath(name)
		if err != nil {
			continue
		}
		options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.WSURLReadTimeout(patience))
		if os.Geteuid() == 0 {
			options = append(options, chromedp.NoSandbox) // it refuses to run as root with one
		}
		allocator, stop := chromedp.NewExecAllocator(context.Background(), options...)
		ctx, end := chromedp.NewContext(allocator)
		stopBrowser = func() { end(); stop() }
		return ctx, chromedp.Do(ctx)
	}
	return nil, fmt.Errorf("there is no Chromium to open the page in")
})

var stopBrowser func()

func TestMain(m *testing.M) {
	code := m.Run()
	if stopBrowser != nil {
		stopBrowser()
	}
	os.Exit(code)
}

type step = chromedp.Action[chromedp.Void]

// send makes a step of a command of the protocol.
func send[P, R any](cmd cdp.Command[P, R], params P) step {
	return chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, cmd, params)
		return err
	})
}

func window(width, height int64, scale float64) step {
	return send(emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: width, Height: height, DeviceScaleFactor: scale, Mobile: width < 500})
}

func media(name, value string) step {
	return send(emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: name, Value: value}}})
}

// tab is a page open in the browser.
type tab struct {
	t   testing.TB
	ctx context.Context
	s   *served

	mu       sync.Mutex
	problems []string
}

// open serves a brief and opens its page in a window of a size. What the browser complains
// of, breaches of the policy among it, fails the test.
func open(t testing.TB, text string, width, height int64, before ...step) *tab {
	t.Helper()
	if testing.Short() {
		t.Skip("drives a browser")
	}
	main, err := chromium()
	if err != nil {
		t.Skip(err)
	}
	ctx, stop := chromedp.NewContext(main)
	t.Cleanup(stop)
	b := &tab{t: t, ctx: ctx, s: serve(t, text)}
	if err := chromedp.Do(ctx); err != nil { // opens the tab; its time must not be bounded
		t.Fatal(err)
	}
	messages := chromedp.Console(ctx)
	go func() {
		for m, err := range messages {
			if err != nil {
				return
			}
			// A question that a newer one took over is answered with 409, a file that was
			// changed with 412; and a page that nobody touched asks in vain before it goes.
			if (m.Type == chromedp.ConsoleError || m.IsException()) && !strings.Contains(m.Text, "409") && !strings.Contains(m.Text, "412") && !strings.Contains(m.Text, "beforeunload") {
				b.complain(m.String() + " " + m.URL)
			}
		}
	}()
	if err := chromedp.Listen(ctx, func(e any) {
		if _, ok := e.(*page.EventJavascriptDialogOpening); ok { // to leave what is not saved
			go chromedp.Do(ctx, send(page.HandleJavaScriptDialog, page.HandleJavaScriptDialogParams{Accept: true}))
		}
	}); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		b.mu.Lock()
		defer b.mu.Unlock()
		for _, p := range b.problems {
			t.Errorf("the browser complains: %s", p)
		}
	})
	b.do(window(width, height, 1))
	b.do(before...)
	b.do(chromedp.Navigate(b.s.address))
	b.until(`window.desk && (document.querySelector("form.begin") || window.desk.brief.text)`)
	return b
}

func (b *tab) complain(what string) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.problems = append(b.problems, what)
}

func (b *tab) do(steps ...step) {
	b.t.Helper()
	ctx, stop := context.WithTimeout(b.ctx, patience)
	defer stop()
	if err := chromedp.Do(ctx, steps...); err != nil {
		b.t.Fatal(err)
	}
}

// eval gives the value of an expression.
func eval[T any](b *tab, js string) T {
	b.t.Helper()
	ctx, stop := context.WithTimeout(b.ctx, patience)
	defer stop()
	out, err := chromedp.Run(ctx, chromedp.Evaluate[T](js, chromedp.EvalAwaitPromise))
	if err != nil {
		b.t.Fatalf("%s: %v", js, err)
	}
	return out
}

// js runs a script for what it does.
func (b *tab) js(script string) {
	b.t.Helper()
	eval[bool](b, "(() => { "+script+"; })(); true")
}

// until waits for an expression to be true.
func (b *tab) until(js string) {
	b.t.Helper()
	for end := time.Now().Add(patience); ; {
		if eval[bool](b, "!!("+js+")") {
			return
		}
		if time.Now().After(end) {
			b.shot("gave-up")
			b.t.Fatalf("never true: %s\nfaults: %s\nnotices: %s", js, eval[string](b, `JSON.stringify(window.desk?.brief.faults)`), eval[string](b, `document.getElementById("d-notices").textContent`))
		}
		time.Sleep(20 * time.Millisecond)
	}
}

// planned waits until the whole plan of what the page shows is there.
func (b *tab) planned() {
	b.t.Helper()
	b.until("desk.plan && !desk.busy && desk.brief.settled.length === 0")
}

// settled waits until the core has answered all there is.
func (b *tab) settled() {
	b.t.Helper()
	b.until("!desk.dirty && !desk.busy && desk.extra.length === 0 && desk.brief.settled.length === 0")
}

// shot keeps a picture where SHOTS names a folder.
func (b *tab) shot(name string) {
	dir := os.Getenv("SHOTS")
	if dir == "" {
		return
	}
	png, err := chromedp.Run(b.ctx, chromedp.CaptureScreenshot())
	if err != nil {
		b.t.Fatal(err)
	}
	name = strings.ReplaceAll(b.t.Name(), "/", "-") + "-" + name + ".png"
	if err := os.WriteFile(filepath.Join(dir, name), png, 0o600); err != nil {
		b.t.Fatal(err)
	}
}

// press types keys, one after the other.
func (b *tab) press(keys ...string) {
	b.t.Helper()
	for _, k := range keys {
		b.do(chromedp.KeyEvent(k))
	}
}

func (b *tab) with(m chromedp.Modifier, key string) {
	b.t.Helper()
	b.do(chromedp.KeyEvent(key, chromedp.KeyModifiers(m)))
}

// tabTo presses Tab until the focus is where a selector says, and fails where it never is.
func (b *tab) tabTo(selector string) {
	b.t.Helper()
	quoted, _ := json.Marshal(selector)
	for range 400 {
		if eval[bool](b, "document.activeElement.matches("+string(quoted)+")") {
			return
		}
		b.press(kb.Tab)
	}
	b.shot("no-focus")
	b.t.Fatalf("Tab never comes to %s", selector)
}

// place is the middle of an element on the page, once it stays where it is.
func (b *tab) place(selector string) (x, y float64) {
	b.t.Helper()
	quoted, _ := json.Marshal(selector)
	where := `(() => { const e = document.querySelector(` + string(quoted) + `); e.scrollIntoView({block: "center", behavior: "instant"}); const r = e.getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2] })()`
	p := eval[[]float64](b, where)
	for range 50 {
		time.Sleep(20 * time.Millisecond)
		q := eval[[]float64](b, where)
		if p[0] == q[0] && p[1] == q[1] {
			break
		}
		p = q
	}
	return p[0], p[1]
}

func (b *tab) mouse(kind input.DispatchMouseEventType, x, y float64) {
	b.t.Helper()
	p := input.DispatchMouseEventParams{Type: kind, X: x, Y: y, Button: input.MouseButtonLeft, Buttons: 1}
	if kind != chromedp.MouseMoved {
		p.ClickCount = 1
	}
	b.do(send(input.DispatchMouseEvent, p))
}

func (b *tab) click(selector string) {
	b.t.Helper()
	x, y := b.place(selector)
	b.mouse(chromedp.MousePressed, x, y)
	b.mouse(chromedp.MouseReleased, x, y)
}

// drag moves what stands at a place by some pixels, in steps.
func (b *tab) drag(x, y, dx, dy float64) {
	b.t.Helper()
	b.mouse(chromedp.MousePressed, x, y)
	for i := range 8 {
		f := float64(i+1) / 8
		b.mouse(chromedp.MouseMoved, x+f*dx, y+f*dy)
	}
	b.mouse(chromedp.MouseReleased, x+dx, y+dy)
}

// fill writes into a field and leaves it.
func (b *tab) fill(selector, text string) {
	b.t.Helper()
	quoted, _ := json.Marshal(selector)
	value, _ := json.Marshal(text)
	b.js(`(() => { const e = document.querySelector(` + string(quoted) + `); for (let d = e.closest("details"); d; d = d.parentElement.closest("details")) d.open = true; e.focus(); e.value = ` + string(value) + `; e.dispatchEvent(new Event("input", {bubbles: true})); e.dispatchEvent(new Event("change", {bubbles: true})); e.blur(); })()`)
}

// text is what the brief on the page says.
func (b *tab) text() string { return eval[string](b, "desk.brief.text") }

// TestKeyboardAlone goes from an empty page to a saved brief and a PDF without a pointer:
// the questions, a lawn entered by measured corners, a tree, a corner moved by its arrows.
func TestKeyboardAlone(t *testing.T) {
	b := open(t, "", 1280, 900)
	downloads := t.TempDir()
	if _, err := chromedp.CallBrowser(b.ctx, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{Behavior: browser.SetDownloadBehaviorBehaviorAllow, DownloadPath: downloads}); err != nil {
		t.Fatal(err)
	}

	b.tabTo(`form.begin input[type="search"]`)
	b.press("Aviemore")
	b.until(`document.querySelector(".stations input")`)
	b.tabTo(`.stations input[type="radio"]`)
	b.press(" ")
	b.tabTo(`form.begin .fields select`) // the first: the standard
	b.press("utility")
	b.press(kb.Tab, "North lawn")
	b.tabTo(`form.begin button[type="submit"]`)
	b.press(kb.Enter)
	b.until(`desk.placing && desk.placing.kind === "lawn"`)

	for i, corner := range [][2]string{{"0", "0"}, {"9,5", "0"}, {"9.5", "6"}, {"0", "6"}} {
		b.tabTo(".measure .field:not([hidden]) input")
		b.press(corner[0], kb.Tab, corner[1])
		b.until(`!document.querySelector(".measure .acts button:nth-child(3)").disabled`)
		b.tabTo(".measure .acts button:nth-child(3)") // Add this corner
		b.press(kb.Enter)
		b.until(fmt.Sprintf("desk.placing.points.length === %d", i+1))
	}
	b.tabTo(".measure .acts button:nth-child(4)") // Finish
	b.press(kb.Enter)
	b.planned()
	if text := b.text(); !strings.Contains(text, "outline = [[0, 0], [9.5, 0], [9.5, 6], [0, 6]]") {
		t.Fatalf("the lawn is not as entered:\n%s", text)
	}

	// A corner by its arrows, on the drawing.
	b.tabTo(".thing.lawn")
	b.press(kb.Enter)
	b.until(`document.activeElement.matches(".corner")`)
	b.press(kb.ArrowRight)
	b.with(chromedp.ModifierShift, kb.ArrowDown)
	b.settled()
	if text := b.text(); !strings.Contains(text, "outline = [[0.1, -1], ") {
		t.Errorf("the arrows moved it to\n%s", text)
	}
	b.with(chromedp.ModifierCtrl, "z")
	b.settled()
	if text := b.text(); !strings.Contains(text, "outline = [[0, 0], ") {
		t.Errorf("not undone:\n%s", text)
	}

	// A tree, placed by two tapes from corners of the lawn.
	b.tabTo(".editor > .acts button:nth-child(5)")
	b.press(kb.Enter)
	b.tabTo(`.measure input[value="xy"]`)
	b.press(kb.ArrowDown)
	b.tabTo(".measure .field:not([hidden]) input")
	b.press("6", kb.Tab, "7.5")
	b.until(`/x \d/.test(document.querySelector(".measure .result").textContent)`)
	b.tabTo(".measure .acts button:nth-child(3)")
	b.press(kb.Enter)
	b.until(`desk.brief.says.obstacle && document.activeElement.matches("input[name$=height_m]")`)
	b.press("7")
	b.tabTo(`input[name$="crown_m"]`)
	b.press("4", kb.Tab)
	b.planned()

	b.shot("planned")
	b.tabTo("#d-acts button:nth-child(3)") // Save; round by way of the page's end
	b.press(kb.Enter)
	b.until("!desk.brief.unsaved")
	saved, err := os.ReadFile(b.s.path)
	if err != nil || string(saved) != b.text() || !strings.Contains(string(saved), "[[obstacle]]") {
		t.Errorf("saved: %v\n%s", err, saved)
	}
	b.tabTo(`.answer [aria-label="Take the plan away"] button`)
	b.press(kb.Enter)
	for end := time.Now().Add(patience); ; time.Sleep(50 * time.Millisecond) {
		if pdf, err := os.ReadFile(filepath.Join(downloads, "north-lawn.pdf")); err == nil && strings.HasPrefix(string(pdf), "%PDF-") {
			break
		}
		if time.Now().After(end) {
			files, _ := filepath.Glob(filepath.Join(downloads, "*"))
			t.Fatalf("no PDF among %v", files)
		}
	}
}

const court = `# The court, as measured on a wet Tuesday.
title = "Court" # the owners' word
[place]
latitude = 57.1
station = "Aviemore"

[lawn]
outline = [
  [0, 0], # the tap
  [12, 0],
  [12, 8], # the gate
  [0, 8],
]

# the neighbours'
[[obstacle]]
name = "shed"
kind = "gable"
footprint = [[2, 10], [8, 10], [8, 13], [2, 13]]
height_m = 3.2
eaves_m = 2.1

[[probe]]
name = "bench"
at = [3, 3]

[use]
grade = "utility"
`

// TestMouse drags, clicks from place to place, takes back and saves: the notes stay.
func TestMouse(t *testing.T) {
	b := open(t, court, 1280, 900)
	b.planned()
	x, y := b.place(".thing.lawn")
	b.mouse(chromedp.MousePressed, x-20, y-20)
	b.mouse(chromedp.MouseReleased, x-20, y-20)
	b.until(`document.querySelectorAll(".corner").length === 4`)

	// By dragging, a little off the right angle: it is found again.
	x, y = b.place(`.corner[data-corner="1"]`)
	perM := eval[float64](b, "document.querySelector('.plan g').getCTM().a")
	b.drag(x, y, 2.03*perM, 4)
	b.settled()
	if text := b.text(); !strings.Contains(text, "[14, 0],") {
		t.Errorf("dragged to\n%s", text)
	}
	b.shot("dragged")
	// By two clicks.
	x, y = b.place(`.corner[data-corner="1"]`)
	b.click(`.corner[data-corner="1"]`)
	b.until("desk.taken")
	b.mouse(chromedp.MousePressed, x-2*perM, y)
	b.mouse(chromedp.MouseReleased, x-2*perM, y)
	b.settled()
	if text := b.text(); text != court {
		t.Errorf("clicked back, it should be as it was:\n%s", text)
	}
	if n := eval[int](b, "desk.brief.states.length"); n != 3 {
		t.Errorf("a drag and two clicks made %d states", n)
	}
	for range 2 {
		b.click("#d-acts button:nth-child(1)")
		b.settled()
	}
	if eval[bool](b, "desk.brief.unsaved || desk.brief.canUndo") {
		t.Error("not all undone")
	}
	b.click("#d-acts button:nth-child(2)")
	b.planned()

	// The shed as a whole, and by a corner: it stays a rectangle.
	b.click(".thing.gable")
	b.until(`document.querySelectorAll(".corner").length === 4 && desk.chosen.thing === "obstacle 1"`)
	x, y = b.place(".thing.gable .body")
	b.drag(x+40, y+4, perM, perM)
	b.settled()
	x, y = b.place(`.corner[data-corner="2"]`)
	b.drag(x, y, -perM, -perM)
	b.settled()
	if text := b.text(); !strings.Contains(text, "footprint = [[3, 9], [8, 9], [8, 13], [3, 13]]") {
		t.Errorf("the shed is at\n%s", text)
	}
	// A wall, placed by clicks.
	b.click(".editor > .acts button:nth-child(2)")
	x, y = b.place(".thing.lawn")
	for _, p := range [][2]float64{{-3, 3.3}, {3, 3.3}, {3, 3.7}, {-3, 3.7}, {-3, 3.3}} {
		b.mouse(chromedp.MousePressed, x+p[0]*perM, y+p[1]*perM)
		b.mouse(chromedp.MouseReleased, x+p[0]*perM, y+p[1]*perM)
	}
	b.until("!desk.placing && desk.brief.says.obstacle.length === 2")
	b.until(`document.activeElement.matches("input[name='obstacle[2].height_m']")`)
	b.fill(`input[name="obstacle[2].height_m"]`, "180 cm")
	b.planned()
	if text := b.text(); !strings.Contains(text, "height_m = 1.8") || strings.Count(text, "[[obstacle]]") != 2 {
		t.Errorf("the wall is not there:\n%s", text)
	}
	b.click("#d-acts button:nth-child(3)")
	b.until("!desk.brief.unsaved")
	saved, err := os.ReadFile(b.s.path)
	if err != nil {
		t.Fatal(err)
	}
	for _, note := range []string{"# The court, as measured on a wet Tuesday.", "# the owners' word", "# the tap", "# the gate", "# the neighbours'"} {
		if !strings.Contains(string(saved), note) {
			t.Errorf("the note %q is lost:\n%s", note, saved)
		}
	}
}

// TestTouch drags a corner with a finger, taps from place to place and pinches.
func TestTouch(t *testing.T) {
	b := open(t, court, 390, 844, send(emulation.SetTouchEmulationEnabled, emulation.SetTouchEmulationEnabledParams{Enabled: true, MaxTouchPoints: 2}))
	b.planned()
	touch := func(kind input.DispatchTouchEventType, points ...[2]float64) {
		list := []*input.TouchPoint{}
		for i, p := range points {
			list = append(list, &input.TouchPoint{X: p[0], Y: p[1], ID: new(float64(i))})
		}
		b.do(send(input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: list}))
	}
	tap := func(x, y float64) {
		touch(input.DispatchTouchEventTypeTouchStart, [2]float64{x, y})
		touch(input.DispatchTouchEventTypeTouchEnd)
	}
	x, y := b.place(".thing.lawn")
	tap(x, y+20)
	b.until(`document.querySelectorAll(".corner").length === 4`)
	perM := eval[float64](b, "document.querySelector('.plan g').getCTM().a")
	x, y = b.place(`.corner[data-corner="2"]`)
	touch(input.DispatchTouchEventTypeTouchStart, [2]float64{x, y})
	for i := range 10 {
		touch(input.DispatchTouchEventTypeTouchMove, [2]float64{x - 3*float64(i+1)*perM/10, y + 1})
	}
	touch(input.DispatchTouchEventTypeTouchEnd)
	b.settled()
	if text := b.text(); !strings.Contains(text, "[9, 8], # the gate") {
		t.Errorf("a finger moved it to\n%s", text)
	}
	b.shot("dragged")
	x, y = b.place(`.corner[data-corner="2"]`)
	tap(x, y)
	b.until("desk.taken")
	tap(x+3*perM, y) // out of the corner's own reach
	b.settled()
	if text := b.text(); text != court {
		t.Errorf("tapped back, it should be as it was:\n%s", text)
	}
	// Two fingers come apart: the drawing grows, and the page does not scroll.
	x, y = b.place(".plan")
	scrolled := eval[float64](b, "scrollY")
	touch(input.DispatchTouchEventTypeTouchStart, [2]float64{x - 20, y}, [2]float64{x + 20, y})
	for i := range 8 {
		d := 20 + 5*float64(i+1)
		touch(input.DispatchTouchEventTypeTouchMove, [2]float64{x - d, y}, [2]float64{x + d, y})
	}
	touch(input.DispatchTouchEventTypeTouchEnd)
	if now := eval[float64](b, "document.querySelector('.plan g').getCTM().a"); now < 1.5*perM {
		t.Errorf("pinched from %.1f to %.1f pixels a metre", perM, now)
	}
	if now := eval[float64](b, "scrollY"); now != scrolled {
		t.Errorf("the page scrolled from %v to %v", scrolled, now)
	}
}

// TestForms: a value and its fault stand by their field, in the terminal's words; the text
// beside shows it, and what is written there the form shows.
func TestForms(t *testing.T) {
	b := open(t, court, 1280, 900)
	b.planned()
	b.fill(`input[name="use.mowing_mm"]`, "1000")
	b.settled()
	const fault = "needs a number from 3 to 300, is 1000"
	b.until(fmt.Sprintf("document.querySelector('[data-path=\"use.mowing_mm\"] .fault').textContent === %q", fault))
	if got := eval[string](b, `document.querySelector(".faults").textContent`); !strings.Contains(got, "use.mowing_mm (line 29): "+fault) {
		t.Errorf("faults %q", got)
	}
	if !eval[bool](b, `document.querySelector("[name='use.mowing_mm']").getAttribute("aria-invalid") === "true"`) {
		t.Error("the field is not marked")
	}
	b.shot("fault")
	// From the list of faults to its field.
	b.js(`document.activeElement.blur(); document.querySelector(".faults button").click()`)
	b.until(`document.activeElement.name === "use.mowing_mm"`)
	b.fill(`input[name="use.mowing_mm"]`, "45")
	b.planned()
	if got := eval[string](b, `document.querySelector("#d-text").value`); !strings.Contains(got, "mowing_mm = 45") {
		t.Errorf("the text is\n%s", got)
	}
	written := strings.Replace(b.text(), "mowing_mm = 45", "mowing_mm = 50\nirrigation = true # by hand", 1)
	b.fill("#d-text", written)
	b.planned()
	if got := eval[string](b, `document.querySelector("[name='use.mowing_mm']").value + document.querySelector("[name='use.irrigation']").value`); got != "50yes" {
		t.Errorf("the forms show %s", got)
	}
	// A text that can't be read locks the forms and says where it is wrong.
	b.fill("#d-text", written+"[oops\n")
	b.until(`document.querySelector("[name='use.mowing_mm']").disabled && desk.brief.faults.length === 1`)
	if got := eval[string](b, `document.querySelector(".faults").textContent`); !strings.Contains(got, "line 31") {
		t.Errorf("faults %q", got)
	}
	b.fill("#d-text", written)
	b.planned()
	// Kinds of things have their own fields.
	b.click(".thing.gable")
	b.fill(`select[name="obstacle[1].kind"]`, "tree")
	b.settled()
	b.until(`document.querySelector("[name='obstacle[1].crown_m']") && !document.querySelector("[name='obstacle[1].eaves_m']")`)
	if text := b.text(); !strings.Contains(text, "at = [5, 11.5]") || strings.Contains(text, "eaves_m") || strings.Contains(text, "footprint") {
		t.Errorf("as a tree:\n%s", text)
	}
}

// TestMeasuring enters points by tapes: one refused, one warned of, one taken.
func TestMeasuring(t *testing.T) {
	b := open(t, court, 1280, 900)
	b.planned()
	b.click(`.editor details summary`) // the lawn
	b.until(`desk.chosen && desk.chosen.thing === "lawn"`)
	b.do(chromedp.Click(chromedp.CSS(`.measure input[value="tapes"]`)))
	enter := func(first, second string) string {
		b.fill(".measure .field:nth-child(3) input", first)
		b.fill(".measure .field:nth-child(4) input", second)
		b.settled()
		return eval[string](b, `document.querySelector(".measure .result").textContent`)
	}
	if got := enter("5", "6.88"); !strings.Contains(got, "12 cm are missing") {
		t.Errorf("tapes that miss: %q", got)
	}
	if !eval[bool](b, `[...document.querySelectorAll(".measure .acts button")].slice(0, 3).every((b) => b.disabled || b.hidden)`) {
		t.Error("what is refused can be taken")
	}
	if got := enter("6", "6.1"); !strings.Contains(got, "nearly in one line") || !strings.Contains(got, "x 5.95") {
		t.Errorf("flat tapes: %q", got)
	}
	b.shot("flat")
	if got := enter("9", "15"); !strings.Contains(got, "x 0.00, y 9.00") {
		t.Errorf("a right angle: %q", got)
	}
	b.do(chromedp.Click(chromedp.CSS(".measure .acts button:nth-child(1)")))
	b.settled()
	if text := b.text(); !strings.Contains(text, "[0, 9], # the tap") {
		t.Errorf("corner 1 is at\n%s", text)
	}
	// A diagonal against the tape, and north from a wall's bearing.
	b.js(`[...document.querySelectorAll("details")].filter((d) => /diagonal|North by/.test(d.querySelector("summary").textContent)).forEach((d) => (d.open = true))`)
	b.until(`/m as drawn/.test(document.body.textContent)`)
	b.js(`(() => { const d = [...document.querySelectorAll("details")].find((d) => /North by/.test(d.querySelector("summary").textContent)); const i = [...d.querySelectorAll(".field:not([hidden]) input")][0]; i.value = "100"; i.dispatchEvent(new Event("input", {bubbles: true})); })()`)
	b.until(`/“Up the page” bears/.test(document.body.textContent)`)
	b.js(`[...document.querySelectorAll("button")].find((b) => b.textContent === "Take it").click()`)
	b.settled()
	if text := b.text(); !strings.Contains(text, "plan_north_deg = ") {
		t.Errorf("no north in\n%s", text)
	}
}

// TestOpenAnother opens a brief from elsewhere on the page of a file that is not there yet:
// it is not saved until it is.
func TestOpenAnother(t *testing.T) {
	b := open(t, "", 1280, 900)
	quoted, _ := json.Marshal(court)
	b.js(`const i = document.querySelector("input[type=file]"); const d = new DataTransfer(); d.items.add(new File([` + string(quoted) + `], "elsewhere.toml")); i.files = d.files; i.dispatchEvent(new Event("change"))`)
	b.planned()
	if !eval[bool](b, "desk.brief.unsaved") {
		t.Error("what is in no file counts as saved")
	}
	b.click("#d-acts button:nth-child(3)")
	b.until("!desk.brief.unsaved")
	if saved, err := os.ReadFile(b.s.path); err != nil || string(saved) != court {
		t.Errorf("saved: %v\n%s", err, saved)
	}
}

// TestFileChanged: a brief changed on disk is noticed; what was changed here is brought into
// it, and both are kept.
func TestFileChanged(t *testing.T) {
	b := open(t, court, 1280, 900)
	b.planned()
	b.fill(`input[name="use.mowing_mm"]`, "45")
	b.settled()
	theirs := strings.Replace(court, "latitude = 57.1", "latitude = 57.2 # by the map", 1)
	if err := os.WriteFile(b.s.path, []byte(theirs), 0o600); err != nil {
		t.Fatal(err)
	}
	b.click("#d-acts button:nth-child(3)")
	b.until(`/changed by someone else/.test(document.querySelector("[role=alert]:not([hidden])")?.textContent)`)
	if now, _ := os.ReadFile(b.s.path); string(now) != theirs {
		t.Fatal("the file was written over")
	}
	b.shot("noticed")
	b.js(`[...document.querySelectorAll("button")].find((b) => /Bring my changes/.test(b.textContent)).click()`)
	b.until(`desk.brief.text.includes("57.2 # by the map") && desk.brief.text.includes("mowing_mm = 45")`)
	b.settled()
	b.click("#d-acts button:nth-child(3)")
	b.until("!desk.brief.unsaved")
	if now, _ := os.ReadFile(b.s.path); !strings.Contains(string(now), "57.2 # by the map") || !strings.Contains(string(now), "mowing_mm = 45") {
		t.Errorf("saved:\n%s", now)
	}
}

// TestReload: what was not saved outlives a reload of the page, and the token does too.
func TestReload(t *testing.T) {
	b := open(t, court, 1280, 900)
	b.planned()
	b.fill(`input[name="use.mowing_mm"]`, "45")
	b.settled()
	b.js(`document.querySelector("#d-nav a").click()`)
	b.do(chromedp.Reload())
	b.until(`window.desk && desk.brief.text.includes("mowing_mm = 45")`)
	b.settled()
	b.click("#d-acts button:nth-child(1)")
	b.settled()
	if b.text() != court {
		t.Error("Undo does not give the file back")
	}
}

// TestProgramGone: the page says so, and still holds the brief.
func TestProgramGone(t *testing.T) {
	b := open(t, court, 1280, 900)
	b.planned()
	b.fill(`input[name="use.mowing_mm"]`, "45")
	b.settled()
	b.s.stop()
	if keys := <-b.s.unsaved; strings.Join(keys, " ") != "use.mowing_mm" {
		t.Errorf("unsaved at the end: %v", keys)
	}
	b.fill(`input[name="use.mowing_mm"]`, "50")
	b.until(`/has ended/.test(document.querySelector("#d-notices").textContent)`)
	if !strings.Contains(b.text(), "mowing_mm = 45") {
		t.Error("the brief is gone")
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	b.problems = nil // that the server is gone is what the browser complains of
}

// TestLight looks at zones, months and hours.
func TestLight(t *testing.T) {
	b := open(t, court, 1280, 900)
	b.planned()
	if n := eval[int](b, `document.querySelectorAll(".map path").length`); n < 1 {
		t.Error("no zones are drawn")
	}
	bands := func() string {
		return eval[string](b, `[...document.querySelectorAll(".map path")].map((p) => p.getAttribute("fill") + p.getAttribute("d")).join("|")`)
	}
	b.do(chromedp.Click(chromedp.CSS(`input[value="sun"]`)))
	b.js(`(() => { const r = document.querySelector(".slider input"); r.value = 5; r.dispatchEvent(new Event("input")); })()`)
	june := bands()
	if got := eval[string](b, `document.querySelector(".slider output").textContent`); got != "June" {
		t.Errorf("month 5 is %s", got)
	}
	b.js(`(() => { const r = document.querySelector(".slider input"); r.value = 9; r.dispatchEvent(new Event("input")); })()`)
	if bands() == june {
		t.Error("October looks like June")
	}
	b.shot("sun")
	b.do(chromedp.Click(chromedp.CSS(`input[value="hour"]`)))
	b.until("desk.hours")
	b.settled()
	noon := bands()
	b.js(`(() => { const r = document.querySelectorAll(".slider input")[1]; r.value = 20; r.dispatchEvent(new Event("input")); })()`)
	if bands() == noon {
		t.Error("evening looks like noon")
	}
	if got := eval[string](b, `document.querySelectorAll(".slider output")[1].textContent`); !strings.HasPrefix(got, "20:00 by the sun") {
		t.Errorf("the hour is told as %q", got)
	}
	b.shot("evening")
}

// TestPrint: the page prints as the plan's page does, and nothing of the desk with it.
func TestPrint(t *testing.T) {
	b := open(t, court, 1280, 900)
	b.planned()
	b.js(`window.dispatchEvent(new Event("beforeprint"))`)
	b.do(send(emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"}))
	if !eval[bool](b, `document.querySelector("#d-print").offsetHeight > 1000 && document.querySelector("main").offsetHeight === 0 && document.querySelector("header").offsetHeight === 0`) {
		t.Error("the desk is printed with the plan, or the plan is not")
	}
	if got := eval[string](b, `document.querySelector("#d-print > div").shadowRoot.textContent`); !strings.Contains(got, "Court") || !strings.Contains(got, "Signature") {
		t.Error("the printed plan has no title or no room to sign")
	}
	b.shot("printed")
}

// TestAnswer: the plan's own sections fold out beside the drawing and stay open while it is
// planned anew.
func TestAnswer(t *testing.T) {
	b := open(t, court, 1280, 900)
	b.planned()
	inside := `document.querySelector(".answer .folds details").querySelector(".shown").shadowRoot.textContent`
	b.js(`document.querySelector(".answer .folds details").open = true`)
	b.until(inside + ".length > 100")
	before := eval[string](b, inside)
	b.fill(`input[name="use.mowing_mm"]`, "70")
	b.until("!desk.plan")
	b.planned()
	if !eval[bool](b, `document.querySelector(".answer .folds details").open`) || eval[string](b, inside) == before {
		t.Error("the section is closed, or what it was before")
	}
	few := eval[int](b, `document.querySelectorAll(".answer .folds details").length`)
	b.js(`[...document.querySelectorAll("button")].find((b) => b.textContent === "Show the evidence as well").click()`)
	b.until("!desk.plan || desk.busy")
	b.planned()
	if many := eval[int](b, `document.querySelectorAll(".answer .folds details").length`); many <= few {
		t.Errorf("%d sections with the evidence, %d without", many, few)
	}
}

// TestPlace: another station by name, and the skyline by its points.
func TestPlace(t *testing.T) {
	b := open(t, court, 1280, 900)
	b.planned()
	b.js(`document.querySelector("#d-page-place details").open = true`)
	b.until(`document.querySelectorAll("#d-page-place .stations label").length === 0`) // the brief has no longitude to be near to
	b.fill("#d-page-place input[type=search]", "Lerwick")
	b.until(`document.querySelectorAll("#d-page-place .stations label").length > 0`)
	if got := eval[string](b, `document.querySelector("#d-page-place .stations label").textContent`); !strings.Contains(got, " m high") {
		t.Errorf("a station is offered as %q", got)
	}
	b.js(`document.querySelector("#d-page-place .stations input").click()`)
	b.settled()
	if text := b.text(); !strings.Contains(text, `station = "Lerwick"`) {
		t.Errorf("the station is not taken:\n%s", text)
	}
	b.js(`const d = [...document.querySelectorAll("details")].find((d) => /skyline/.test(d.querySelector("summary").textContent)); d.open = true; [...d.querySelectorAll("button")].at(-1).click()`)
	b.settled()
	b.js(`const d = [...document.querySelectorAll("details")].find((d) => /skyline/.test(d.querySelector("summary").textContent)); [...d.querySelectorAll("button")].at(-1).click()`)
	b.settled()
	b.fill(`[aria-label="Skyline point 2, height"]`, "7")
	b.settled()
	if text := b.text(); !strings.Contains(text, "horizon = [[0, 0], [30, 7]]") {
		t.Errorf("the skyline is not as entered:\n%s", text)
	}
	b.planned()
}

// TestCounting presses a button for each point on a telephone.
func TestCounting(t *testing.T) {
	b := open(t, court, 390, 844)
	b.planned()
	b.click("#d-page-seen > button")
	b.settled()
	for _, n := range []int{1, 1, 1, 2, 4} {
		b.click(fmt.Sprintf(".count button:nth-child(%d)", n))
		b.settled()
	}
	b.click(`[aria-label="In which zone"] button`)
	b.settled()
	text := b.text()
	for _, want := range []string{"[[seen]]", "grass = 3\n", "moss = 1\n", "weeds = 0\n", "bare = 1\n", "points = 5\n", "zone = \"A\"\n"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	b.planned() // a count that is not finished is no fault
	if got := eval[string](b, `document.querySelector(".count + p").textContent`); !strings.HasPrefix(got, "5 points, 60 % grass") {
		t.Errorf("it says %q", got)
	}
	b.shot("counted")
}

// TestMostIsBeside: what limits the lawn and would do most for it stands in the answer,
// and the lawn isn't drawn there a second time.
func TestMostIsBeside(t *testing.T) {
	b := open(t, court, 1280, 900)
	b.planned()
	const first = `document.querySelector("#d-answer .shown").shadowRoot`
	if !eval[bool](b, first+`.querySelector(".notice") !== null`) {
		t.Error("the answer has no notice")
	}
	if eval[bool](b, `[...`+first+`.querySelectorAll("#answer .beside figure")].some((f) => f.getBoundingClientRect().height > 0)`) {
		t.Error("the lawn is drawn twice")
	}
	b.shot("answer")
}

// TestVariantTabs looks at a variant and comes back.
func TestVariantTabs(t *testing.T) {
	b := open(t, court+"\n[[variant]]\nname = \"cut high\"\nset = { \"use.mowing_mm\" = 70, \"obstacle.shed.height_m\" = 2.5 }\n", 1280, 900)
	b.planned()
	b.do(chromedp.Click(chromedp.CSS(".tabs button:nth-child(2)")))
	b.until(`desk.variantSays && desk.variantSays.obstacle[0].height_m === 2.5`)
	b.planned()
	if got := eval[string](b, `document.querySelector(".tabs + p").textContent`); !strings.HasPrefix(got, "cut high: ") || !strings.Contains(got, "of care a year") {
		t.Errorf("of the variant it says %q", got)
	}
	b.shot("variant")
	b.do(chromedp.Click(chromedp.CSS(".tabs button:nth-child(1)")))
	b.planned()
	if eval[bool](b, "desk.brief.unsaved") {
		t.Error("looking at a variant changed the brief")
	}
}

// widths are the windows that the page is looked at in; the last is 1280 pixels at 200 %.
var widths = []struct {
	name          string
	width, height int64
	scale         float64
}{{"1280", 1280, 900, 1}, {"768", 768, 1024, 1}, {"390", 390, 844, 1}, {"320", 320, 640, 1}, {"200 percent", 640, 450, 2}}

// TestWidths: nothing scrolls sideways, and what can be pressed is 24 pixels at least.
func TestWidths(t *testing.T) {
	for _, w := range widths {
		t.Run(w.name, func(t *testing.T) {
			for name, text := range map[string]string{"begin": "", "court": court} {
				b := open(t, text, w.width, w.height, window(w.width, w.height, w.scale))
				if text != "" {
					b.planned()
					b.js(`document.querySelectorAll("main details").forEach((d) => (d.open = true))`)
					b.js(`desk.choose("lawn", 1)`)
					b.settled()
				}
				if over := eval[string](b, `document.documentElement.scrollWidth > innerWidth ? [...document.querySelectorAll("body *")].filter((e) => e.getBoundingClientRect().right > innerWidth + 1).map((e) => e.tagName + "." + e.className + "#" + e.id).join(" ") : ""`); over != "" {
					t.Errorf("%s scrolls sideways: %s", name, over)
				}
				small := eval[[]string](b, `[...document.querySelectorAll("button, select, input, a, summary, textarea, .corner .hit, .thing.probe .hit, .thing.tree .hit, label.check, .choices label")].filter((e) => {
					if (e.closest("[hidden]") || e.matches(".unseen, .skip") || e.type === "radio" || e.type === "checkbox") return false;
					const r = e.getBoundingClientRect();
					return r.width > 0 && (r.width < 23.9 || r.height < 23.9);
				}).map((e) => e.outerHTML.slice(0, 90) + " " + JSON.stringify(e.getBoundingClientRect()))`)
				for _, s := range small {
					t.Errorf("%s: too small to press: %s", name, s)
				}
				b.shot(name)
			}
		})
	}
}

// TestAxe has the axe-core checker look at the page, where AXE names its file.
func TestAxe(t *testing.T) {
	name := os.Getenv("AXE")
	if name == "" {
		t.Skip("AXE does not name axe.min.js of axe-core")
	}
	axe, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	dark, forced := media("prefers-color-scheme", "dark"), media("forced-colors", "active")
	for _, c := range []struct {
		name, text string
		width      int64
		media      step
		prepare    string
	}{
		{"begin", "", 1280, nil, ""}, {"begin narrow", "", 320, nil, ""}, {"plain", court, 1280, nil, ""}, {"narrow", court, 390, nil, ""},
		{"all open", court, 1280, nil, `document.querySelectorAll("main details").forEach((d) => (d.open = true)); desk.choose("obstacle 1", 2)`},
		{"placing", court, 1280, nil, `desk.begin("solid"); desk.place([1, 1]); desk.place([2, 1])`},
		{"faults", strings.Replace(court, "utility", "utmost", 1), 1280, nil, ""},
		{"hours", court, 1280, nil, `document.querySelector("input[value=hour]").click()`},
		{"dark", court, 1280, dark, `document.querySelectorAll("main details").forEach((d) => (d.open = true))`},
		{"forced colours", court, 1280, forced, `desk.choose("lawn", 0)`},
	} {
		t.Run(c.name, func(t *testing.T) {
			var before []step
			if c.media != nil {
				before = append(before, c.media)
			}
			b := open(t, c.text, c.width, 900, before...)
			b.settled()
			if c.text == court {
				b.planned()
			}
			if c.prepare != "" {
				b.js(c.prepare)
				b.settled()
			}
			eval[int](b, string(axe)+"\n; 0")
			found := eval[[]string](b, `axe.run(document, { resultTypes: ["violations"] }).then((r) => r.violations.map((v) => v.id + ": " + v.help + ": " + v.nodes.slice(0, 4).map((n) => n.target.join(" ") + " " + (n.any[0]?.message ?? "")).join("; ")))`)
			for _, f := range found {
				t.Error(f)
			}
			b.shot("seen")
		})
	}
}

// BenchmarkRoundTrip drags a corner about in the browser, sixty moves a time, and tells how
// long the page's questions took to be answered.
func BenchmarkRoundTrip(b *testing.B) {
	page := open(b, strings.Replace(court, "[0, 8],", "[0, 33],", 1), 1280, 900) // some 400 m²
	page.planned()
	page.js(`desk.choose("lawn", 2); window.trips = []; const pump = desk.pump.bind(desk); let last; desk.pump = async () => { await pump(); if (desk.roundTrip !== last) { last = desk.roundTrip; trips.push(last); } }`)
	for b.Loop() {
		x, y := page.place(`.corner[data-corner="2"]`)
		page.mouse(chromedp.MousePressed, x, y)
		for i := range 60 {
			page.mouse(chromedp.MouseMoved, x+float64(i%20), y+float64(i%7))
		}
		page.mouse(chromedp.MouseMoved, x, y)
		page.mouse(chromedp.MouseReleased, x, y)
		page.planned()
	}
	for name, share := range map[string]float64{"p50-ms": 0.5, "p90-ms": 0.9, "max-ms": 1} {
		b.ReportMetric(eval[float64](page, fmt.Sprintf(`[...trips].sort((a, b) => a - b)[Math.ceil(%g * trips.length) - 1]`, share)), name)
	}
	b.ReportMetric(eval[float64](page, "desk.light.cells.col.length"), "cells-at-rest")
}
