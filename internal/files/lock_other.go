//go:build !(darwin || dragonfly || freebsd || linux || netbsd || openbsd)

package files

import (
	"os"
	"time"
)

const canLock = false

// longest is far more than any run takes to write a file.
const longest = time.Hour

func hold(*os.File) bool { return true }

// abandoned says whether a file is so old that no run can still be writing it.
func abandoned(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && time.Since(info.ModTime()) > longest
}
