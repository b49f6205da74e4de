package loopback

import (
	"net/http"
	"runtime"
)

// held is the memory in use after a collection.
func held() uint64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

// counted is a response of which only the length is kept.
type counted struct {
	header http.Header
	status int
	n      int
}

func (c *counted) Header() http.Header { return c.header }
func (c *counted) WriteHeader(s int)   { c.status = s }
func (c *counted) Write(p []byte) (int, error) {
	c.n += len(p)
	return len(p), nil
}
