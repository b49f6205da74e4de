package loopback

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"swardwright/internal/files"
	"swardwright/report/desk"
	"swardwright/sowing"
)

const smallest = `title = "Back lawn" # as the client calls it
[place]
latitude = 57.1
station = "Aviemore"
[lawn]
outline = [[0, 0], [12, 0], [12, 7], [0, 7]]
[use]
grade = "utility"
`

// served is a desk that serves a brief's file, until the test ends.
type served struct {
	t       testing.TB
	address string // of the page, with the token
	path    string // of the file
	stop    context.CancelFunc
	unsaved chan []string
}

func serve(t testing.TB, text string) *served {
	t.Helper()
	tables, err := sowing.BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	s := &served{t: t, path: filepath.Join(t.TempDir(), "lawn.toml"), unsaved: make(chan []string, 1)}
	if text != "" {
		if err := os.WriteFile(s.path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	var ctx context.Context
	ctx, s.stop = context.WithCancel(t.Context())
	file := File{
		Name: "lawn.toml",
		Read: func() ([]byte, error) {
			text, err := os.ReadFile(s.path)
			if os.IsNotExist(err) {
				return nil, nil
			}
			return text, err
		},
		Write: func(text []byte) error {
			return files.Write(ctx, io.Discard, []files.Output{{Name: s.path, Data: text}})
		},
	}
	ready := make(chan string, 1)
	go func() {
		unsaved, err := Serve(ctx, desk.New(tables, nil), file, func(address string) { ready <- address })
		if err != nil {
			t.Error(err)
		}
		s.unsaved <- unsaved
	}()
	s.address = <-ready
	t.Cleanup(s.stop)
	return s
}

func (s *served) base() string  { return s.address[:strings.Index(s.address, "/#")] }
func (s *served) token() string { return s.address[strings.Index(s.address, "#")+1:] }

// send asks as a page does, with some headers changed; an empty value leaves one out.
func (s *served) send(method, path string, body any, headers map[string]string) (*http.Response, []byte) {
	s.t.Helper()
	var data []byte
	if text, ok := body.(string); ok {
		data = []byte(text)
	} else if body != nil {
		var err error
		if data, err = json.Marshal(body); err != nil {
			s.t.Fatal(err)
		}
	}
	r, err := http.NewRequestWithContext(s.t.Context(), method, s.base()+path, bytes.NewReader(data))
	if err != nil {
		s.t.Fatal(err)
	}
	r.Header.Set(TokenHeader, s.token())
	for k, v := range headers {
		switch {
		case k == "Host":
			r.Host = v
		case v == "":
			r.Header.Del(k)
		default:
			r.Header.Set(k, v)
		}
	}
	resp, err := http.DefaultClient.Do(r)
	if err != nil {
		s.t.Fatal(err)
	}
	defer resp.Body.Close()
	out, err := io.ReadAll(resp.Body)
	if err != nil {
		s.t.Fatal(err)
	}
	return resp, out
}

// TestLoopbackAlone: the address is 127.0.0.1, on a port of the system's choice, and the
// token is too long to be guessed.
func TestLoopbackAlone(t *testing.T) {
	s := serve(t, smallest)
	host, port, err := net.SplitHostPort(strings.TrimPrefix(s.base(), "http://"))
	if err != nil || host != "127.0.0.1" || port == "0" {
		t.Errorf("served at %s", s.base())
	}
	if len(s.token()) < 26 { // 26 letters of base32 are 130 bits
		t.Errorf("a token of %d letters", len(s.token()))
	}
	if other := serve(t, smallest); other.token() == s.token() {
		t.Error("two desks have one token")
	}
	// Nothing listens beside it on the machine's other addresses.
	addresses, err := net.InterfaceAddrs()
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range addresses {
		ip, ok := a.(*net.IPNet)
		if !ok || ip.IP.IsLoopback() {
			continue
		}
		if c, err := net.DialTimeout("tcp", net.JoinHostPort(ip.IP.String(), port), time.Second); err == nil {
			c.Close()
			t.Errorf("it listens on %s", ip.IP)
		}
	}
}

// TestAttacks tries what another page, another program or a slip could send.
func TestAttacks(t *testing.T) {
	s := serve(t, smallest)
	ask := desk.Request{Text: smallest}
	long := strings.Repeat("x", desk.MaxRequestBytes+1)
	for _, c := range []struct {
		name, method, path string
		body               any
		headers            map[string]string
		want               int
	}{
		{"as the page asks", "POST", "/answer", ask, nil, 200},
		{"from the page's own origin", "POST", "/answer", ask, map[string]string{"Origin": s.base(), "Sec-Fetch-Site": "same-origin"}, 200},
		{"the page itself needs no token", "GET", "/", nil, map[string]string{TokenHeader: ""}, 200},

		{"a name that leads to this address", "POST", "/answer", ask, map[string]string{"Host": "lawn.example"}, 421},
		{"that name for the page", "GET", "/", nil, map[string]string{"Host": "lawn.example"}, 421},
		{"localhost is another host", "GET", "/", nil, map[string]string{"Host": "localhost" + s.base()[strings.LastIndex(s.base(), ":"):]}, 421},
		{"without the port", "GET", "/", nil, map[string]string{"Host": "127.0.0.1"}, 421},

		{"no token", "POST", "/answer", ask, map[string]string{TokenHeader: ""}, 403},
		{"a wrong token", "POST", "/answer", ask, map[string]string{TokenHeader: "A" + s.token()[1:] + "B"}, 403},
		{"no token to read the brief", "GET", "/brief", nil, map[string]string{TokenHeader: ""}, 403},
		{"no token to save", "POST", "/brief", brief{Text: "x"}, map[string]string{TokenHeader: ""}, 403},
		{"the token in the address", "GET", "/brief?token=" + s.token(), nil, map[string]string{TokenHeader: ""}, 403},

		{"a form of another page", "POST", "/answer", ask, map[string]string{"Origin": "https://lawn.example", "Sec-Fetch-Site": "cross-site"}, 403},
		{"a page on another port here", "POST", "/brief", brief{Text: "x"}, map[string]string{"Origin": "http://127.0.0.1:1", "Sec-Fetch-Site": "same-site"}, 403},
		{"an old browser without fetch metadata", "POST", "/brief", brief{Text: "x"}, map[string]string{"Origin": "null"}, 403},

		{"a body without end", "POST", "/answer", long, nil, 413},
		{"a brief without end", "POST", "/brief", long, nil, 413},
		{"no request", "POST", "/answer", "{", nil, 400},
		{"a request for more than there is", "POST", "/answer", `{"text": "", "file": "/etc/passwd"}`, nil, 400},
		{"a file named by the page", "POST", "/brief", brief{Name: "../../other.toml", Text: "x"}, nil, 400},

		{"another file", "GET", "/../../../../etc/passwd", nil, nil, 404},
		{"another file, encoded", "GET", "/..%2f..%2fetc%2fpasswd", nil, nil, 404},
		{"the folder", "GET", "/page/", nil, nil, 404},
		{"another method", "DELETE", "/brief", nil, nil, 405},
		{"another method on a file", "POST", "/desk.css", nil, nil, 405},
	} {
		resp, _ := s.send(c.method, c.path, c.body, c.headers)
		if resp.StatusCode != c.want {
			t.Errorf("%s: %d, want %d", c.name, resp.StatusCode, c.want)
		}
		if p := resp.Header.Get("Content-Security-Policy"); !strings.Contains(p, "default-src 'none'") || strings.Contains(p, "unsafe") {
			t.Errorf("%s: policy %q", c.name, p)
		}
		if resp.Header.Get("Access-Control-Allow-Origin") != "" || resp.Header.Get("X-Content-Type-Options") != "nosniff" || resp.Header.Get("Referrer-Policy") != "no-referrer" {
			t.Errorf("%s: headers %v", c.name, resp.Header)
		}
	}
	if text, err := os.ReadFile(s.path); err != nil || string(text) != smallest {
		t.Errorf("the file was changed: %s %v", text, err)
	}
}

// TestNoInlineScript: the policy forbids it, and the page has none.
func TestNoInlineScript(t *testing.T) {
	s := serve(t, smallest)
	_, page := s.send("GET", "/", nil, nil)
	for _, part := range strings.Split(string(page), "<script")[1:] {
		if head, rest, _ := strings.Cut(part, ">"); !strings.Contains(head, "src=") || !strings.HasPrefix(rest, "</script>") {
			t.Errorf("a script in the page: <script%s", part)
		}
	}
	if strings.Contains(string(page), "style=") || strings.Contains(string(page), "<style") || strings.Contains(string(page), " on") && strings.Contains(string(page), `onclick`) {
		t.Error("style or handlers in the page")
	}
}

// TestSlowRequests: one that never ends is cut off; others are answered meanwhile.
func TestSlowRequests(t *testing.T) {
	if testing.Short() {
		t.Skip("waits for a timeout")
	}
	s := serve(t, smallest)
	c, err := net.Dial("tcp", strings.TrimPrefix(s.base(), "http://"))
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	fmt.Fprintf(c, "POST /answer HTTP/1.1\r\nHost: x\r\n")
	if resp, _ := s.send("GET", "/", nil, nil); resp.StatusCode != 200 {
		t.Errorf("%d beside a slow request", resp.StatusCode)
	}
	if err := c.SetReadDeadline(time.Now().Add(4 * headTimeout)); err != nil {
		t.Fatal(err)
	}
	if _, err := io.ReadAll(c); err != nil {
		t.Errorf("a request without an end is held: %v", err)
	}
}

func TestReadAndSave(t *testing.T) {
	s := serve(t, smallest)
	_, out := s.send("GET", "/brief", nil, nil)
	var b brief
	if err := json.Unmarshal(out, &b); err != nil || b.Text != smallest || b.Name != "lawn.toml" {
		t.Fatalf("%+v, %v", b, err)
	}
	changed := strings.Replace(smallest, "57.1", "57.2", 1)
	resp, out := s.send("POST", "/brief", brief{Text: changed, State: b.State}, nil)
	if resp.StatusCode != 200 {
		t.Fatalf("%d: %s", resp.StatusCode, out)
	}
	if text, _ := os.ReadFile(s.path); string(text) != changed {
		t.Errorf("saved:\n%s", text)
	}
	if info, err := os.Stat(s.path); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the file's mode is %v", info.Mode())
	}
	s.stop()
	if keys := <-s.unsaved; len(keys) > 0 {
		t.Errorf("unsaved after saving: %v", keys)
	}
}

// TestChangedOnDisk: what another program wrote is noticed with every answer, and never
// written over.
func TestChangedOnDisk(t *testing.T) {
	s := serve(t, smallest)
	_, out := s.send("GET", "/brief", nil, nil)
	var b brief
	if err := json.Unmarshal(out, &b); err != nil {
		t.Fatal(err)
	}
	other := smallest + "traffic = \"heavy\" # by another hand\n"
	if err := os.WriteFile(s.path, []byte(other), 0o600); err != nil {
		t.Fatal(err)
	}
	resp, _ := s.send("POST", "/answer", desk.Request{Text: smallest}, nil)
	if now := resp.Header.Get(StateHeader); now == b.State || now == "" {
		t.Errorf("an answer tells of state %q, as before", now)
	}
	resp, out = s.send("POST", "/brief", brief{Text: "mine", State: b.State}, nil)
	var theirs brief
	if err := json.Unmarshal(out, &theirs); err != nil || resp.StatusCode != http.StatusPreconditionFailed || theirs.Text != other {
		t.Errorf("saved over it: %d %+v %v", resp.StatusCode, theirs, err)
	}
	if text, _ := os.ReadFile(s.path); string(text) != other {
		t.Errorf("the file is now:\n%s", text)
	}
	// With that state seen, it can be saved.
	if resp, _ := s.send("POST", "/brief", brief{Text: "mine = 1\n", State: theirs.State}, nil); resp.StatusCode != 200 {
		t.Errorf("not saved: %d", resp.StatusCode)
	}
}

// TestNewFile begins a file that is not there, and finds one that came there meanwhile.
func TestNewFile(t *testing.T) {
	s := serve(t, "")
	_, out := s.send("GET", "/brief", nil, nil)
	var b brief
	if err := json.Unmarshal(out, &b); err != nil || b.Text != "" || b.State == "" {
		t.Fatalf("%+v, %v", b, err)
	}
	if err := os.WriteFile(s.path, []byte(smallest), 0o600); err != nil {
		t.Fatal(err)
	}
	if resp, _ := s.send("POST", "/brief", brief{Text: "mine = 1\n", State: b.State}, nil); resp.StatusCode != http.StatusPreconditionFailed {
		t.Errorf("a file that came there meanwhile is written over: %d", resp.StatusCode)
	}
	if err := os.Remove(s.path); err != nil {
		t.Fatal(err)
	}
	if resp, _ := s.send("POST", "/brief", brief{Text: "mine = 1\n", State: b.State}, nil); resp.StatusCode != 200 {
		t.Errorf("not begun: %d", resp.StatusCode)
	}
}

func TestSaveFails(t *testing.T) {
	s := serve(t, smallest)
	_, out := s.send("GET", "/brief", nil, nil)
	var b brief
	if err := json.Unmarshal(out, &b); err != nil {
		t.Fatal(err)
	}
	// A folder stands where the file should be.
	if err := os.Remove(s.path); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(s.path, 0o700); err != nil {
		t.Fatal(err)
	}
	if resp, out := s.send("POST", "/brief", brief{Text: "mine", State: b.State}, nil); resp.StatusCode < 400 || len(out) == 0 {
		t.Errorf("saved into a folder: %d %s", resp.StatusCode, out)
	}
}

func TestUnsaved(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{smallest, ""},
		{strings.NewReplacer("57.1", "57.2", "utility", "extensive").Replace(smallest), "place.latitude, use.grade"},
		{smallest + "# a note\n", "its notes or its order"},
	} {
		s := serve(t, smallest)
		s.send("GET", "/brief", nil, nil)
		s.send("POST", "/answer", desk.Request{Text: c.text}, nil)
		s.stop()
		if got := strings.Join(<-s.unsaved, ", "); got != c.want {
			t.Errorf("unsaved %q, want %q", got, c.want)
		}
	}
}

// TestLatestWins starts a plan and asks for light meanwhile: the plan is given up at once
// and the light comes.
func TestLatestWins(t *testing.T) {
	s := serve(t, smallest)
	large := strings.Replace(smallest, "[[0, 0], [12, 0], [12, 7], [0, 7]]", "[[0, 0], [60, 0], [60, 60], [0, 60]]", 1)
	const crowd = 6
	status := make(chan int, crowd)
	for range crowd {
		go func() {
			resp, _ := s.send("POST", "/answer", desk.Request{Text: large, Want: desk.Want{Plan: true}}, nil)
			status <- resp.StatusCode
		}()
	}
	over, done := 0, 0
	for range crowd {
		switch code := <-status; code {
		case http.StatusConflict:
			over++
		case http.StatusOK:
			done++
		default:
			t.Errorf("status %d", code)
		}
	}
	if done == 0 || over == 0 {
		t.Errorf("%d plans done, %d taken over", done, over)
	}
	if resp, out := s.send("POST", "/answer", desk.Request{Text: smallest, Want: desk.Want{Cells: 50}}, nil); resp.StatusCode != 200 || !bytes.Contains(out, []byte(`"light"`)) {
		t.Errorf("no light after it: %d", resp.StatusCode)
	}
}

// TestGivenUp: a page that goes away ends its computation.
func TestGivenUp(t *testing.T) {
	s := serve(t, smallest)
	ctx, cancel := context.WithTimeout(t.Context(), 30*time.Millisecond)
	defer cancel()
	large := strings.Replace(smallest, "[[0, 0], [12, 0], [12, 7], [0, 7]]", "[[0, 0], [200, 0], [200, 200], [0, 200]]", 1)
	data, err := json.Marshal(desk.Request{Text: large, Want: desk.Want{Plan: true}})
	if err != nil {
		t.Fatal(err)
	}
	r, err := http.NewRequestWithContext(ctx, "POST", s.base()+"/answer", bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set(TokenHeader, s.token())
	if resp, err := http.DefaultClient.Do(r); err == nil {
		resp.Body.Close()
		t.Skip("it was done before it was given up")
	}
	if resp, _ := s.send("POST", "/answer", desk.Request{Text: smallest}, nil); resp.StatusCode != 200 {
		t.Errorf("%d after one was given up", resp.StatusCode)
	}
}

// BenchmarkRequests asks for the light ten thousand times over, of a lawn that is never
// twice the same, and tells how much memory is held after the first thousand and at the end.
func BenchmarkRequests(b *testing.B) {
	tables, err := sowing.BuiltIn()
	if err != nil {
		b.Fatal(err)
	}
	d := desk.New(tables, nil)
	s := New(d, File{}, "127.0.0.1:1", "token")
	n := 0
	for b.Loop() {
		var early, late uint64
		for i := range 10_000 {
			n++
			w := &counted{header: http.Header{}}
			data, err := json.Marshal(desk.Request{Text: smallest, Want: desk.Want{Cells: 50}, Edits: []desk.Edit{{
				Path: []any{"lawn", "outline"}, Value: []any{[]any{0, 0}, []any{12 + float64(n%1000)/1000, 0}, []any{12, 7}, []any{0, 7}},
			}}})
			if err != nil {
				b.Fatal(err)
			}
			r, err := http.NewRequest("POST", "/answer", bytes.NewReader(data))
			if err != nil {
				b.Fatal(err)
			}
			r.Host = "127.0.0.1:1"
			r.Header.Set(TokenHeader, "token")
			s.ServeHTTP(w, r)
			if w.status != 200 || w.n < 1000 {
				b.Fatalf("status %d, %d bytes", w.status, w.n)
			}
			if i == 1000 {
				early = held()
			}
		}
		late = held()
		b.ReportMetric(float64(early)/1e6, "MB-early")
		b.ReportMetric(float64(late)/1e6, "MB-late")
	}
}
