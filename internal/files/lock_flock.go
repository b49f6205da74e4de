//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package files

import (
	"os"
	"syscall"
)

const canLock = true

// hold locks a file until it is closed or its process ends, however it ends. Where
// the file system knows no locks, it does without.
func hold(f *os.File) bool {
	for {
		if err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX); err != syscall.EINTR {
			return true
		}
	}
}

// abandoned says whether no run holds a file.
func abandoned(f *os.File) bool {
	return syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB) == nil
}
