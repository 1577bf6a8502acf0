//go:build unix

package tui

import (
	"errors"
	"io"
	"os"
	"sync"
	"syscall"
	"time"

	"golang.org/x/sys/unix"
)

// inputReserve is the room that a read keeps for the end of what it began: a held sequence, the frame of a burst,
// the end of a paste. Before that, framed bursts make of five bytes at most eighteen.
const inputReserve = heldLimit + len(pasteStart) + 1 + burstFrom*4 + len(pasteEnd)

// Input is the terminal as the runtime reads it: each Read ends where a sequence, a rune and a paste may end. Nothing
// is kept from one Read for the next unless more is already waiting, because the runtime waits for the file and not
// for this. It embeds the file, so that raw mode and cancelling work as ever.
type Input struct {
	*os.File
	ended func()
	more  func(time.Duration) bool // whether more can be read within that time
	scan  scanner
}

// NewInput wraps the terminal f. When it is gone, ended is called once, from the reading goroutine.
func NewInput(f *os.File, ended func()) *Input {
	fd := int(f.Fd())
	return &Input{
		File:  f,
		ended: sync.OnceFunc(ended),
		more:  func(wait time.Duration) bool { return readable(fd, wait) },
	}
}

// Read reads what is there and, if that ends inside of a sequence, up to 40 ms longer for the rest; up to a second
// where only a terminal begins so. What is dropped counts for nothing: 0 bytes and no error is a usual answer. p must
// hold 256 bytes, as the runtime's does.
func (in *Input) Read(p []byte) (int, error) {
	size := (len(p) - inputReserve) / 4
	if size < 1 {
		return 0, io.ErrShortBuffer
	}
	var got []byte
	for {
		n, err := in.File.Read(p[:size])
		if err != nil {
			return in.end(p, got, err)
		}
		got = append(got, in.scan.feed(p[:n])...)
		wait, open := in.scan.patience()
		if !open {
			return copy(p, got), nil
		}
		if len(got) > len(p)-inputReserve || !in.more(wait) {
			return copy(p, append(got, in.scan.silence()...)), nil
		}
		if in.scan.spans() {
			return copy(p, got), nil
		}
		size = 1
	}
}

// end hands on what was read before err; the next Read meets err again.
func (in *Input) end(p, got []byte, err error) (int, error) {
	if got = append(got, in.scan.silence()...); len(got) > 0 {
		return copy(p, got), nil
	}
	if errors.Is(err, io.EOF) || errors.Is(err, syscall.EIO) {
		in.ended()
	}
	return 0, err
}

// readable waits for input on fd. It uses select, because poll does not know terminals on every system.
func readable(fd int, wait time.Duration) bool {
	if fd >= unix.FD_SETSIZE {
		return false
	}
	deadline := time.Now().Add(wait)
	for {
		var set unix.FdSet
		set.Set(fd)
		left := unix.NsecToTimeval(max(0, int64(time.Until(deadline))))
		n, err := unix.Select(fd+1, &set, nil, nil, &left)
		if !errors.Is(err, unix.EINTR) {
			return n > 0
		}
	}
}
