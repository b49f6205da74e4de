// Package desk is the plan in a browser: a lawn drawn, measured, changed and planned on one
// page.
//
// All of it is one pure function, [Desk.Answer]: the text of a brief and what is wanted of
// it in, an answer out. Package loopback puts it behind a server on this machine, and
// cmd/desk makes one file of it that runs in the browser alone; both give the same answers
// to the byte. The page itself, in the folder page, holds no figure and no sentence of the
// trade: it draws, takes entries and shows answers.
//
// The brief stays the one truth. The page never writes TOML: it names keys and values, and
// they are spliced into the user's own text (sheet.Splice).
package desk

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"

	"swardwright/internal/sheet"
	"swardwright/site"
	"swardwright/site/light"
	"swardwright/site/weather"
	"swardwright/sowing"
)

// Limits on what a page may ask, far beyond what ours does.
const (
	MaxRequestBytes = 2*sheet.MaxBytes + 1<<16 // the text, escaped as JSON, and the edits
	maxEdits        = 500
)

// Request is what the page asks.
type Request struct {
	Text  string `json:"text"`
	Edits []Edit `json:"edits,omitempty"` // made first; the answer is about the text after them
	Want  Want   `json:"want"`
}

// Edit is one change: a value for the key at a path, or null to take it out.
type Edit struct {
	Path  []any `json:"path"` // keys, and numbers of elements from 1
	Value any   `json:"value"`
}

// Want is what is wanted beside the text, what it says and its faults.
type Want struct {
	Start    bool       `json:"start,omitempty"`    // what a page needs once: fields, grasses, colours
	Cells    int        `json:"cells,omitempty"`    // light, in at most so many cells
	Day      int        `json:"day,omitempty"`      // the sun of this day of the year, hour by hour, in Cells
	Plan     bool       `json:"plan,omitempty"`     // the whole plan, light included
	Parts    []string   `json:"parts,omitempty"`    // of its page; none: all
	Variant  int        `json:"variant,omitempty"`  // all of these for this variant, counted from 1
	Files    []string   `json:"files,omitempty"`    // the plan in these forms, by ending
	Stations *Near      `json:"stations,omitempty"` // stations by name or near a place
	Prices   bool       `json:"prices,omitempty"`   // the price list in the brief's currency
	Point    *Measured  `json:"point,omitempty"`    // where a measured point lies
	North    *Northward `json:"north,omitempty"`    // the bearing of the plan's y axis
	Merge    *Merge     `json:"merge,omitempty"`    // the text's changes brought into another
}

// Answer is what it gets.
type Answer struct {
	Text     string         `json:"text"`
	Says     map[string]any `json:"says"`     // the brief as read, dates as text
	Readable bool           `json:"readable"` // the text follows the grammar, so that it can be edited
	Refused  string         `json:"refused,omitempty"`
	Faults   []Fault        `json:"faults"`
	Variant  map[string]any `json:"variant,omitempty"` // what the brief says in the variant asked for

	Start    *Start    `json:"start,omitempty"`
	Light    *Light    `json:"light,omitempty"`
	Hours    *Hours    `json:"hours,omitempty"`
	Plan     *Plan     `json:"plan,omitempty"`
	Problem  string    `json:"problem,omitempty"` // why a brief without faults could not be worked out
	Files    []File    `json:"files,omitempty"`
	Stations []Station `json:"stations,omitempty"`
	Prices   []PriceOf `json:"prices,omitempty"`
	Point    *Found    `json:"point,omitempty"`
	North    *Found    `json:"north,omitempty"`
	Merged   *Merged   `json:"merged,omitempty"`
}

// Fault is one thing wrong in the text.
type Fault struct {
	Path string `json:"path"`
	Line int    `json:"line"`
	Text string `json:"text"` // for beside the field
	Said string `json:"said"` // the whole line, as on a terminal
}

// Plan is a whole plan.
type Plan struct {
	Page    string          `json:"page"`    // of HTML
	Figures json.RawMessage `json:"figures"` // as plan --json writes them
}

// File is the plan in one form.
type File struct {
	Name string `json:"name"`
	Type string `json:"type"`
	Data []byte `json:"data"`
}

// Desk answers requests. Its answers depend on them alone; what it keeps, the sky of the
// last place, only saves time.
type Desk struct {
	tables sowing.Tables
	asks   []sheet.Ask
	kinds  map[string]sheet.Kind
	order  []string
	open   site.Opener

	mu   sync.Mutex
	sky  light.Sky
	norm weather.Normals
	over string // the place the sky is of
}

// New makes a desk. Files that a brief names are opened with open; nil where none may be.
func New(tables sowing.Tables, open site.Opener) *Desk {
	d := &Desk{tables: tables, asks: sowing.Keys(tables), kinds: map[string]sheet.Kind{}, open: open}
	for _, a := range d.asks {
		if _, ok := d.kinds[a.Path]; !ok {
			d.kinds[a.Path] = a.Kind
		}
		if !strings.Contains(a.Path, ".") && (a.Kind == sheet.OneTable || a.Kind == sheet.SomeTables) {
			d.order = append(d.order, a.Path)
		}
	}
	return d
}

// AnswerJSON is Answer for a shell: bytes in, bytes out. Its error is a request that is
// none, or the end of ctx.
func (d *Desk) AnswerJSON(ctx context.Context, request []byte) ([]byte, error) {
	r, err := ReadRequest(request)
	if err != nil {
		return nil, err
	}
	a, err := d.Answer(ctx, r)
	if err != nil {
		return nil, err
	}
	return a.JSON()
}

// ReadRequest reads a request as a page sends it.
func ReadRequest(data []byte) (Request, error) {
	var r Request
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.UseNumber()
	dec.DisallowUnknownFields()
	if err := dec.Decode(&r); err != nil {
		return Request{}, fmt.Errorf("this is no request: %w", err)
	}
	return r, nil
}

// JSON is an answer as a page gets it.
func (a Answer) JSON() ([]byte, error) { return json.Marshal(a) }

// Answer answers a request. It fails only when ctx ends.
func (d *Desk) Answer(ctx context.Context, r Request) (Answer, error) {
	if err := ctx.Err(); err != nil {
		return Answer{}, err
	}
	a := Answer{Text: r.Text, Faults: []Fault{}}
	if text, err := d.splice(r.Text, r.Edits); err != nil {
		a.Refused = err.Error()
	} else {
		a.Text = text
	}
	root := sheet.Open("", []byte(a.Text))
	a.Says, a.Readable = plainTree(root.Tree()), root.Readable()

	d.lookUp(r.Want, &a)
	brief, err := sowing.ReadBrief("", []byte(a.Text), d.open)
	var faults sheet.Faults
	if errors.As(err, &faults) {
		for _, f := range faults {
			a.Faults = append(a.Faults, Fault{f.Path, f.Line, f.Text, f.Error()})
		}
	} else if err != nil {
		a.Problem = err.Error()
	}
	if n := r.Want.Variant; n > 0 {
		text, err := sowing.VariantText([]byte(a.Text), n)
		if err != nil {
			a.Problem = err.Error()
			return a, nil
		}
		root = sheet.Open("", text)
		a.Variant = plainTree(root.Tree())
		if n <= len(brief.Variants) {
			brief = brief.Variants[n-1].Brief
		}
	}
	if r.Want.Cells > 0 && !r.Want.Plan {
		d.lightOf(ctx, root, r.Want, &a)
	}
	if err == nil && (r.Want.Plan || len(r.Want.Files) > 0) {
		d.planOf(ctx, brief, r.Want, &a)
	}
	if err := ctx.Err(); err != nil {
		return Answer{}, err
	}
	return a, nil
}

// lookUp finds what is wanted that needs no sound brief.
func (d *Desk) lookUp(w Want, a *Answer) {
	if w.Start {
		a.Start = d.start()
	}
	if w.Stations != nil {
		a.Stations = d.stations(*w.Stations)
	}
	if w.Prices {
		a.Prices = d.prices(a.Says)
	}
	if w.Point != nil {
		a.Point = w.Point.find()
	}
	if w.North != nil {
		a.North = w.North.find()
	}
	if w.Merge != nil {
		a.Merged = d.merge(a.Text, *w.Merge)
	}
}

func (d *Desk) splice(text string, edits []Edit) (string, error) {
	if len(edits) == 0 { // the text may be one that can't be changed yet
		return text, nil
	}
	if len(edits) > maxEdits {
		return "", fmt.Errorf("%d changes at once are too many", len(edits))
	}
	list := make([]sheet.Edit, len(edits))
	for i, e := range edits {
		list[i] = sheet.Edit{Path: e.Path, Value: e.Value}
		if t, ok := e.Value.(string); ok && d.kinds[keyOf(e.Path)] == sheet.OneDay {
			list[i].Value = sheet.Day(t)
		}
	}
	out, err := sheet.Splice([]byte(text), list, d.order)
	return string(out), err
}

// keyOf is a path as the readers know it, without the numbers of elements.
func keyOf(path []any) string {
	var keys []string
	for _, p := range path {
		if k, ok := p.(string); ok {
			keys = append(keys, k)
		}
	}
	return strings.Join(keys, ".")
}

// lightOf works out the light, which needs the pages on the place alone: faults elsewhere
// don't keep it back.
func (d *Desk) lightOf(ctx context.Context, root *sheet.Sheet, w Want, a *Answer) {
	brief, sound := readSite(root, d.tables, d.open)
	if !sound || !root.Readable() {
		return
	}
	survey := brief.Site
	norm, sky, err := d.skyOver(brief)
	if err == nil {
		cells := min(w.Cells, light.MostCells)
		if w.Day > 0 && len(survey.Lawn.Parts) > 0 {
			a.Hours, err = hoursOf(ctx, survey, norm, sky, w.Day, cells)
		} else {
			var field light.Field
			if field, err = survey.LightWithin(ctx, norm, sky, cells); err == nil {
				a.Light = lightOf(field, survey, d.sayer(a.Says))
			}
		}
	}
	if err != nil && ctx.Err() == nil {
		a.Problem = err.Error()
	}
}

// skyOver is the sky over a place, kept until another place is asked for.
func (d *Desk) skyOver(b sowing.Brief) (weather.Normals, light.Sky, error) {
	key, err := json.Marshal([]any{b.Site.Place, b.Site.Climate, b.Site.Trend, b.Date, b.Record.Last(), b.Job.NotBefore, b.Job.NotAfter, b.Job.NeededBy})
	if err != nil {
		return weather.Normals{}, light.Sky{}, err
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if string(key) != d.over {
		norm, sky, err := skyOver(d.tables, b)
		if err != nil {
			return weather.Normals{}, light.Sky{}, err
		}
		d.norm, d.sky, d.over = norm, sky, string(key)
	}
	return d.norm, d.sky, nil
}

func (d *Desk) planOf(ctx context.Context, b sowing.Brief, w Want, a *Answer) {
	p, err := plan(ctx, d.tables, b)
	if err == nil && doubted(w) {
		err = sowing.LookElsewhere(ctx, d.tables, &p)
	}
	if err == nil && w.Plan {
		if p.Site != nil {
			a.Light = lightOf(p.Site.Field, p.Site.Survey, d.sayer(a.Says))
		}
		a.Plan, err = shown(&p, w.Parts)
	}
	for _, ending := range w.Files {
		var data []byte
		if err == nil {
			data, err = inForm(&p, ending)
		}
		if err == nil {
			a.Files = append(a.Files, File{fileName(b.Title, ending), mediaType(ending), data})
		}
	}
	if err != nil && ctx.Err() == nil {
		a.Problem = err.Error()
	}
}

func shown(p *sowing.Plan, parts []string) (*Plan, error) {
	var html bytes.Buffer
	if err := writePage(&html, p, parts); err != nil {
		return nil, err
	}
	figures, err := inForm(p, "json")
	if err != nil {
		return nil, err
	}
	return &Plan{Page: html.String(), Figures: figures}, nil
}

func inForm(p *sowing.Plan, ending string) ([]byte, error) {
	for _, f := range forms {
		if f.Ending == ending {
			var b bytes.Buffer
			err := f.write(&b, p)
			return b.Bytes(), err
		}
	}
	return nil, fmt.Errorf("a plan has no form called %q", ending)
}

func mediaType(ending string) string {
	for _, f := range forms {
		if f.Ending == ending {
			return f.Type
		}
	}
	return ""
}

// fileName makes a plain name of a title.
func fileName(title, ending string) string {
	name := strings.Trim(strings.Join(strings.FieldsFunc(strings.ToLower(title), func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9')
	}), "-"), "-")
	if name == "" {
		name = "lawn"
	}
	return name[:min(len(name), 60)] + "." + ending
}

// plainTree is a tree with days as text.
func plainTree(v map[string]any) map[string]any {
	var plain func(v any) any
	plain = func(v any) any {
		switch x := v.(type) {
		case sheet.Day:
			return string(x)
		case float64:
			if x != x || x-x != 0 {
				return fmt.Sprint(x) // JSON has no such number
			}
		case []any:
			out := make([]any, len(x))
			for i, e := range x {
				out[i] = plain(e)
			}
			return out
		case map[string]any:
			out := make(map[string]any, len(x))
			for k, e := range x {
				out[k] = plain(e)
			}
			return out
		}
		return v
	}
	return plain(v).(map[string]any)
}

// Merge is another text to bring changes into.
type Merge struct {
	From string `json:"from"` // the text that both began as
	Into string `json:"into"`
}

// Merged is the text that has the changes of both.
type Merged struct {
	Text    string   `json:"text"`
	Brought []string `json:"brought"` // keys changed in the first and brought over
	Both    []string `json:"both"`    // keys changed in both to different ends: the other's stand
	Refused string   `json:"refused,omitempty"`
}

// merge brings what a text changed since it began into another that began as the same, key
// by key. Where both changed a key, the other's value stays and the key is told.
func (d *Desk) merge(text string, m Merge) *Merged {
	base := sheet.Open("", []byte(m.From)).Tree()
	mine, theirs := sheet.Open("", []byte(text)).Tree(), sheet.Open("", []byte(m.Into)).Tree()
	out := &Merged{Text: m.Into, Brought: []string{}, Both: []string{}}
	if !sheet.Open("", []byte(m.Into)).Readable() {
		out.Refused = "the file cannot be read as it stands"
		return out
	}
	var edits []sheet.Edit
	for _, c := range sheet.Changes(base, mine) {
		name := sheet.PathText(c.Path)
		was, now := sheet.At(base, c.Path), sheet.At(theirs, c.Path)
		switch {
		case sheet.Same(now, c.Value):
		case sheet.Same(now, was):
			edits = append(edits, c)
			out.Brought = append(out.Brought, name)
		default:
			out.Both = append(out.Both, name)
		}
	}
	if len(edits) == 0 {
		return out
	}
	spliced, err := sheet.Splice([]byte(m.Into), edits, d.order)
	if err != nil {
		out.Refused, out.Both, out.Brought = err.Error(), slices.Concat(out.Both, out.Brought), []string{}
		return out
	}
	out.Text = string(spliced)
	return out
}
