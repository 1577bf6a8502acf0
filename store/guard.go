package store

import (
	"encoding/binary"
	"errors"
	"fmt"
	"hash/fnv"
	"io"
	"os"
)

// The guard reads a file with plain reads before the library maps it into memory, where a file that was cut off or has
// a wild page ends the process. It knows the library's form of a file: pages, two of them heads with a checksum each, a
// list of free pages, and trees of branches and leaves (go.etcd.io/bbolt v1.5.0, internal/common).

// wideUpTo is the size of a file in bytes up to which an opening reads more of it than it must, in less time than a person
// notices: some two hundred thousand deliveries.
const wideUpTo = 16 << 20

// guard looks at what is read at every opening: the heads, the file's length, the list of free pages, and the trees but
// for the deliveries' leaves. A key that is wrong, in a branch or in a leaf, would hide what is kept without a word: a ball
// that is hidden is missed by its game's count, and nothing else would be. In a file above wideUpTo it leaves out the
// leaves of evenings, of games and of what finds them too: that these are right is looked at with every automatic copy. It gives the
// refusal in words.
func guard(path string) error { return inspectPages(path, butDeliveries) }

// Check reads the whole store at path, every page and every value's checksum, and gives ErrDamaged with what is wrong,
// or another of the refusals that Open gives.
func Check(path string) error { return check(path, "", nil) }

// check is Check, which tells how much it has read.
func check(path, verb string, told Told) error {
	return locked(path, func() error {
		read := told.begin(Part{Verb: verb, Of: sizeOf(path)})
		return inspectThrough(path, everyPage, read.counted)
	})
}

// sizeOf gives a file's size in bytes, 0 where it cannot be read.
func sizeOf(path string) int64 {
	info, err := os.Stat(path)
	if err != nil {
		return 0
	}
	return info.Size()
}

func inspectPages(path string, reach reach) error {
	return inspectThrough(path, reach, func(f io.ReaderAt) io.ReaderAt { return f })
}

// inspectThrough looks at a file through what through makes of it.
func inspectThrough(path string, reach reach, through func(io.ReaderAt) io.ReaderAt) error {
	f, err := os.Open(path)
	if err != nil {
		return unread(path, err)
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return unread(path, err)
	}
	switch {
	case !info.Mode().IsRegular():
		return notOurs(path, "it is no ordinary file")
	case info.Size() == 0:
		return damaged(path, errors.New("it is empty, 0 bytes long"))
	}
	h, err := readHead(f, info.Size())
	if errors.Is(err, errNoHead) {
		return notOurs(path, "it does not begin like one: if it was one, settee check --repair NEWFILE makes a new file of what is left")
	}
	if err != nil {
		return damaged(path, err)
	}
	if h.freelist == noFreelist {
		return notOurs(path, "it is another program's database")
	}
	if reach < everyPage && info.Size() > wideUpTo {
		reach = branches
	}
	w := &walker{file: through(f), head: h, reach: reach}
	err = w.walk(info.Size())
	switch {
	case errors.Is(err, ErrNewer):
		return newer(path, err.Error())
	case err != nil:
		return damaged(path, err)
	}
	return nil
}

// findJournal gives where in a file that was looked at the journal's value is, and its size.
func findJournal(f *os.File) (at, size int64, err error) {
	info, err := f.Stat()
	if err != nil {
		return 0, 0, err
	}
	h, err := readHead(f, info.Size())
	if err != nil {
		return 0, 0, err
	}
	w := &walker{file: f, head: h, reach: toJournal}
	if err := w.walk(info.Size()); err != nil {
		return 0, 0, err
	}
	if w.journalSize <= int64(len(journalMark)) {
		return 0, 0, errors.New("it has no journal")
	}
	return w.journalAt, w.journalSize, nil
}

// The library's numbers.
const (
	pageHeader  = 16
	headLength  = 64
	headMagic   = 0xED0CDAED
	headVersion = 2
	noFreelist  = ^uint64(0)

	minPageSize = 1 << 10
	maxPageSize = 1 << 24
)

var (
	errNoHead  = errors.New("it has no head")
	errBadHead = errors.New("one of its two heads is damaged, and the last call may be missing")
)

// head is what one of the two first pages says of the file.
type head struct {
	pageSize int64
	root     uint64
	freelist uint64
	// high is the number of pages in use or once in use.
	high uint64
	txid uint64
}

// readHead gives the newer head. A file with one good head is refused too: the other may have been the newer.
func readHead(f io.ReaderAt, size int64) (head, error) {
	first, errFirst := pageHead(f, 0)
	pageSize := first.pageSize
	var second head
	var errSecond error
	if errFirst == nil {
		second, errSecond = pageHead(f, pageSize)
	} else {
		second, errSecond = secondHead(f, size)
	}
	switch {
	case errFirst != nil && errSecond != nil:
		if errors.Is(errFirst, errNoHead) && errors.Is(errSecond, errNoHead) {
			return head{}, errNoHead
		}
		return head{}, errors.New("both of its heads are damaged")
	case errFirst != nil || errSecond != nil || second.pageSize != first.pageSize:
		return head{}, errBadHead
	case second.txid > first.txid:
		return second, nil
	}
	return first, nil
}

// secondHead looks for the second head where the first does not tell the page size.
func secondHead(f io.ReaderAt, size int64) (head, error) {
	found := errNoHead
	for at := int64(minPageSize); at <= maxPageSize && at+pageHeader+headLength <= size; at *= 2 {
		h, err := pageHead(f, at)
		if err == nil {
			return h, nil
		}
		if !errors.Is(err, errNoHead) {
			found = err
		}
	}
	return head{}, found
}

func pageHead(f io.ReaderAt, at int64) (head, error) {
	page := make([]byte, pageHeader+headLength)
	if _, err := f.ReadAt(page, at); err != nil {
		return head{}, errNoHead
	}
	b, order := page[pageHeader:], binary.NativeEndian
	if order.Uint32(b) != headMagic {
		return head{}, errNoHead
	}
	sum := fnv.New64a()
	sum.Write(b[:headLength-8])
	if order.Uint64(b[headLength-8:]) != sum.Sum64() {
		return head{}, errors.New("a head's checksum is wrong")
	}
	if v := order.Uint32(b[4:]); v != headVersion {
		return head{}, fmt.Errorf("a head has the form %d", v)
	}
	h := head{
		pageSize: int64(order.Uint32(b[8:])), root: order.Uint64(b[16:]), freelist: order.Uint64(b[32:]),
		high: order.Uint64(b[40:]), txid: order.Uint64(b[48:]),
	}
	if h.pageSize < minPageSize || h.pageSize > maxPageSize || h.pageSize&(h.pageSize-1) != 0 || h.high < 4 {
		return head{}, fmt.Errorf("a head tells of %d pages of %d bytes", h.high, h.pageSize)
	}
	return h, nil
}
