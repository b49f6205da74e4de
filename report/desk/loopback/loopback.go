// Package loopback serves the desk to a browser on this machine, and to nothing else: it
// is the only part of the program that listens, on 127.0.0.1 alone and only when asked, and
// no part of it connects to anything.
//
// Other pages open in the same browser can reach a loopback address too. So a request must
// carry the exact host it was made for, must not come from another origin, and, but for the
// plain files of the page, must carry a token that only the printed address has, in its
// fragment, which browsers send nowhere. Bodies and times are bounded. The page names no
// file: it saves to the one named on the command line, or lets the browser save.
package loopback

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/hex"
	"encoding/json"
	"errors"
	"io"
	"net"
	"net/http"
	"strings"
	"sync"
	"time"

	"swardwright/internal/sheet"
	"swardwright/report/desk"
)

// TokenHeader carries the token of a request.
const TokenHeader = "Desk-Token"

// StateHeader tells in every answer which state of the brief's file is on disk.
const StateHeader = "Desk-File"

// File is the brief's file. Read and Write are nil where none was named; Read gives no
// text where the file is not there yet.
type File struct {
	Name  string
	Read  func() ([]byte, error)
	Write func([]byte) error
}

// Server answers a page.
type Server struct {
	desk  *desk.Desk
	file  File
	host  string // exact, with the port
	token string

	turn turn

	mu   sync.Mutex
	text string // the page's, as of its last request
	met  bool   // a page has asked something
	kept string // the text that page last read or saved
}

// Times within which a request must come and an answer go. A plan of the largest lawn
// takes some seconds.
const (
	headTimeout  = 5 * time.Second
	readTimeout  = 15 * time.Second
	writeTimeout = 2 * time.Minute
	idleTimeout  = 2 * time.Minute
)

// Serve serves a page until ctx ends. ready is called with the page's address once it can
// be opened. What is left unsaved at the end is returned as the keys that differ.
func Serve(ctx context.Context, d *desk.Desk, file File, ready func(address string)) (unsaved []string, err error) {
	l, err := net.Listen("tcp4", "127.0.0.1:0")
	if err != nil {
		return nil, err
	}
	s := New(d, file, l.Addr().String(), rand.Text())
	server := &http.Server{
		Handler: s, ReadHeaderTimeout: headTimeout, ReadTimeout: readTimeout, WriteTimeout: writeTimeout, IdleTimeout: idleTimeout,
		MaxHeaderBytes: 1 << 14,
		BaseContext:    func(net.Listener) context.Context { return ctx },
	}
	stop := context.AfterFunc(ctx, func() { server.Close() })
	defer stop()
	ready(s.address())
	if err := server.Serve(l); err != nil && !errors.Is(err, http.ErrServerClosed) {
		return nil, err
	}
	return s.unsaved(), nil
}

// New makes a server for one host, such as 127.0.0.1:40123, and one token.
func New(d *desk.Desk, file File, host, token string) *Server {
	return &Server{desk: d, file: file, host: host, token: token}
}

// address is where the page is opened.
func (s *Server) address() string { return "http://" + s.host + "/#" + s.token }

// unsaved are the keys in which the page's brief differs from what it last read or saved.
func (s *Server) unsaved() []string {
	s.mu.Lock()
	defer s.mu.Unlock()
	if !s.met || s.text == s.kept {
		return nil
	}
	var keys []string
	for _, c := range sheet.Changes(sheet.Open("", []byte(s.kept)).Tree(), sheet.Open("", []byte(s.text)).Tree()) {
		keys = append(keys, sheet.PathText(c.Path))
	}
	if len(keys) == 0 {
		return []string{"its notes or its order"}
	}
	return keys
}

// policy lets the page use its own files and nothing else.
var policy = strings.Join([]string{
	"default-src 'none'", "script-src 'self'", "style-src 'self'", "font-src 'self'", "img-src 'self'", "connect-src 'self'",
	"base-uri 'none'", "form-action 'none'", "frame-ancestors 'none'",
}, "; ")

var assets = sync.OnceValue(desk.Assets)

// ServeHTTP answers one request.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	h.Set("Content-Security-Policy", policy)
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Cache-Control", "no-store")
	if r.Host != s.host {
		http.Error(w, "this page is not served under that name", http.StatusMisdirectedRequest)
		return
	}
	if err := http.NewCrossOriginProtection().Check(r); err != nil {
		http.Error(w, "this request comes from another page", http.StatusForbidden)
		return
	}
	name := strings.TrimPrefix(r.URL.Path, "/")
	switch {
	case name == "answer" && r.Method == http.MethodPost:
		s.guarded(w, r, s.answer)
	case name == "brief" && r.Method == http.MethodGet:
		s.guarded(w, r, s.read)
	case name == "brief" && r.Method == http.MethodPost:
		s.guarded(w, r, s.save)
	case r.Method == http.MethodGet || r.Method == http.MethodHead:
		if name == "" {
			name = "index.html"
		}
		a, ok := assets()[name]
		if !ok {
			http.Error(w, "there is no such page", http.StatusNotFound)
			return
		}
		h.Set("Content-Type", a.Type)
		w.Write(a.Data)
	default:
		http.Error(w, "this can't be done here", http.StatusMethodNotAllowed)
	}
}

// guarded lets a request with the token through, its body bounded.
func (s *Server) guarded(w http.ResponseWriter, r *http.Request, next http.HandlerFunc) {
	if subtle.ConstantTimeCompare([]byte(r.Header.Get(TokenHeader)), []byte(s.token)) != 1 {
		http.Error(w, "open the page by the address that the program printed", http.StatusForbidden)
		return
	}
	r.Body = http.MaxBytesReader(w, r.Body, desk.MaxRequestBytes)
	next(w, r)
}

// body reads all of a request's body, or says why not.
func body(w http.ResponseWriter, r *http.Request) ([]byte, bool) {
	data, err := io.ReadAll(r.Body)
	var tooLong *http.MaxBytesError
	switch {
	case errors.As(err, &tooLong):
		http.Error(w, "this is longer than any brief", http.StatusRequestEntityTooLarge)
		return nil, false
	case err != nil:
		http.Error(w, "the request broke off", http.StatusBadRequest)
		return nil, false
	}
	return data, true
}

// answer asks the desk. A newer request takes the turn of an older one.
func (s *Server) answer(w http.ResponseWriter, r *http.Request) {
	data, ok := body(w, r)
	if !ok {
		return
	}
	request, err := desk.ReadRequest(data)
	if err != nil {
		http.Error(w, err.Error(), http.StatusBadRequest)
		return
	}
	ctx, done := s.turn.take(r.Context())
	defer done()
	a, err := s.desk.Answer(ctx, request)
	if err != nil {
		http.Error(w, "a newer request took over", http.StatusConflict)
		return
	}
	out, err := a.JSON()
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	s.mu.Lock()
	s.text, s.met = a.Text, true
	s.mu.Unlock()
	s.send(w, http.StatusOK, out)
}

// send writes JSON, with the state of the file.
func (s *Server) send(w http.ResponseWriter, status int, data []byte) {
	w.Header().Set("Content-Type", "application/json")
	if now, err := s.onDisk(); err == nil {
		w.Header().Set(StateHeader, state(now))
	}
	w.WriteHeader(status)
	w.Write(data)
}

func (s *Server) onDisk() ([]byte, error) {
	if s.file.Read == nil {
		return nil, nil
	}
	return s.file.Read()
}

// state is a short name of a text's content.
func state(text []byte) string {
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:12])
}

// brief is the brief's file as the page sees it.
type brief struct {
	Name  string `json:"name"` // empty: none was named
	Text  string `json:"text"`
	State string `json:"state"`
}

func (s *Server) read(w http.ResponseWriter, _ *http.Request) {
	text, err := s.onDisk()
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	s.keep(string(text))
	s.reply(w, http.StatusOK, brief{s.file.Name, string(text), state(text)})
}

func (s *Server) keep(text string) {
	s.mu.Lock()
	s.kept, s.text = text, text
	s.mu.Unlock()
}

func (s *Server) reply(w http.ResponseWriter, status int, v any) {
	data, err := json.Marshal(v)
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	s.send(w, status, data)
}

// save writes the brief, unless its file has changed since the page read it: then the
// file's text is sent back, and both are as they were.
func (s *Server) save(w http.ResponseWriter, r *http.Request) {
	data, ok := body(w, r)
	if !ok {
		return
	}
	var b brief
	if err := json.Unmarshal(data, &b); err != nil || b.Name != "" || len(b.Text) > sheet.MaxBytes {
		http.Error(w, "this is no brief to be saved", http.StatusBadRequest)
		return
	}
	if s.file.Write == nil {
		http.Error(w, "no file was named to save to", http.StatusNotFound)
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	now, err := s.onDisk()
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	if state(now) != b.State {
		s.reply(w, http.StatusPreconditionFailed, brief{s.file.Name, string(now), state(now)})
		return
	}
	if err := s.file.Write([]byte(b.Text)); err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	s.kept, s.text, s.met = b.Text, b.Text, true
	s.reply(w, http.StatusOK, brief{s.file.Name, b.Text, state([]byte(b.Text))})
}

// turn lets one computation run at a time, the newest.
type turn struct {
	mu   sync.Mutex
	stop context.CancelFunc // of the newest, running or waiting
	run  sync.Mutex         // held by the one that runs
}

// take ends the computation before and waits until it has gone.
func (t *turn) take(ctx context.Context) (context.Context, context.CancelFunc) {
	ctx, stop := context.WithCancel(ctx)
	t.mu.Lock()
	if t.stop != nil {
		t.stop()
	}
	t.stop = stop
	t.mu.Unlock()
	t.run.Lock()
	return ctx, func() { stop(); t.run.Unlock() }
}
