package page

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"regexp"
	"strings"
	"testing"

	"swardwright/report/sample"
	"swardwright/sowing"
)

func write(t testing.TB, p *sowing.Plan) string {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// TestWellFormed reads every page with a strict parser, HTML's void elements closed
// for it: what nests rightly in XML nests rightly in HTML.
func TestWellFormed(t *testing.T) {
	void := regexp.MustCompile(`<(meta|br|hr)([^>]*)>`)
	for _, c := range sample.Cases() {
		html := write(t, c.Plan)
		if html != write(t, c.Plan) {
			t.Errorf("%s: two writings differ", c.Name)
		}
		dec := xml.NewDecoder(strings.NewReader(void.ReplaceAllString(strings.TrimPrefix(html, "<!DOCTYPE html>"), "<$1$2/>")))
		dec.Entity = xml.HTMLEntity
		ids := map[string]bool{}
		refs := map[string]bool{}
		level := 0
		for {
			tok, err := dec.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v", c.Name, err)
			}
			e, ok := tok.(xml.StartElement)
			if !ok {
				continue
			}
			for _, a := range e.Attr {
				switch a.Name.Local {
				case "id":
					if ids[a.Value] {
						t.Errorf("%s: id %q twice", c.Name, a.Value)
					}
					ids[a.Value] = true
				case "href":
					refs[strings.TrimPrefix(a.Value, "#")] = true
				case "aria-labelledby":
					for _, r := range strings.Fields(a.Value) {
						refs[r] = true
					}
				case "src":
					t.Errorf("%s: fetches %q", c.Name, a.Value)
				}
			}
			// WCAG 2.2, technique G141: headings are not to skip a level.
			if n := e.Name.Local; len(n) == 2 && n[0] == 'h' && n[1] >= '1' && n[1] <= '6' {
				if l := int(n[1] - '0'); l > level+1 {
					t.Errorf("%s: heading level jumps from %d to %d", c.Name, level, l)
				} else {
					level = l
				}
			}
		}
		for r := range refs {
			if !ids[r] && r != "answer" {
				t.Errorf("%s: reference to %q leads nowhere", c.Name, r)
			}
		}
	}
}

// TestSays: the figures of the plan and the warning stand on the page.
func TestSays(t *testing.T) {
	html := strings.ReplaceAll(write(t, sample.Full()), "\u00a0", " ")
	for _, want := range []string{"<h1>Court lawn at Nowhere Lodge</h1>", "INV-0042", "3.88 kg", "£4,250.97", "Chewings fescue", "Prices are invented examples", `<th scope="col"`, `role="img"`, "<caption>", `lang="en-GB"`} {
		if !strings.Contains(html, want) {
			t.Errorf("the page has no %q", want)
		}
	}
}

// TestDraft: words that no one of the trade has read say so on the page.
func TestDraft(t *testing.T) {
	p := sample.Full()
	p.Brief.Language = "sv"
	html := write(t, p)
	for _, want := range []string{`lang="sv"`, `<p class="warning">Den svenska texten är ett utkast`, "Till svaret"} {
		if !strings.Contains(html, want) {
			t.Errorf("the page has no %q", want)
		}
	}
}

// TestEscapes: what a user writes stays text.
func TestEscapes(t *testing.T) {
	p := sample.Full()
	p.Brief.Title = `<script>alert("x")</script>`
	p.Brief.Site.Obstacles[0].Name = `<img src=x onerror=alert(1)>`
	p.Site.Survey = p.Brief.Site
	html := write(t, p)
	if strings.Contains(html, "<script") || strings.Contains(html, "<img") {
		t.Error("text of the brief became markup")
	}
}

func TestError(t *testing.T) {
	if err := Write(io.Discard, &sowing.Plan{Brief: sowing.Brief{Units: "imperial"}}); err == nil {
		t.Error("no error for units that do not exist")
	}
}

// TestCompared: the page of lawns beside each other is open, names each and draws it.
func TestCompared(t *testing.T) {
	p := *sample.Full()
	all := []sowing.Compared{{Name: "as it is", Plan: p}, {Name: "another <day>", Plan: p, Gain: &sowing.Gain{CareHours: -3}}}
	var b bytes.Buffer
	if err := Compared(&b, all); err != nil {
		t.Fatal(err)
	}
	html := b.String()
	if strings.Contains(html, "<details") {
		t.Error("it is folded")
	}
	for _, want := range []string{"What would change it", "another &lt;day&gt;", "3 h less of care a year", `id="answer"`} {
		if !strings.Contains(html, want) {
			t.Errorf("no %q", want)
		}
	}
	if n := strings.Count(html, "<figure>"); n != 2 {
		t.Errorf("%d drawings", n)
	}
}
