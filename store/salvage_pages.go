package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	"io"
)

// image is a damaged file, read page by page with plain reads and nothing believed.
type image struct {
	file     io.ReaderAt
	size     int64
	pageSize int64
}

// maxValue is the longest key or value that is read off a damaged page, in bytes.
const maxValue = 1 << 20

// openImage finds out the size of the pages: as a sound head tells it, else the one by which the most pages say
// themselves where they are.
func openImage(f io.ReaderAt, size int64) image {
	if h, err := pageHead(f, 0); err == nil {
		return image{f, size, h.pageSize}
	}
	if h, err := secondHead(f, size); err == nil {
		return image{f, size, h.pageSize}
	}
	best, most := int64(4096), 0
	for pageSize := int64(minPageSize); pageSize <= 1<<16; pageSize *= 2 {
		n := 0
		own := make([]byte, 8)
		for id := int64(1); (id+1)*pageSize <= size && id < 1<<12; id++ {
			if _, err := f.ReadAt(own, id*pageSize); err == nil && binary.NativeEndian.Uint64(own) == uint64(id) {
				n++
			}
		}
		if n > most {
			best, most = pageSize, n
		}
	}
	return image{f, size, best}
}

func (m image) pages() uint64 { return uint64((m.size + m.pageSize - 1) / m.pageSize) }

// bytes gives what is there of length bytes at a place.
func (m image) bytes(at, length int64) []byte {
	b := make([]byte, max(0, min(length, m.size-at)))
	n, _ := m.file.ReadAt(b, at)
	return b[:n]
}

// element is an entry of a leaf.
type element struct {
	key, value []byte
	bucket     bool
	// at is where the value is in the file.
	at int64
}

// leaf gives the entries of a page that is taken for a leaf, those that lie in the file, whatever its header says.
func (m image) leaf(id uint64) []element {
	return m.elements(int64(id)*m.pageSize, m.bytes(int64(id)*m.pageSize, m.pageSize))
}

// elements reads the entries of a leaf that is at a place in the file and whose first page is b. How many they are is told
// by its header and again by where the first one's key is: keys begin where the entries end.
func (m image) elements(from int64, b []byte) []element {
	order := binary.NativeEndian
	if len(b) < pageHeader+elementSize {
		return nil
	}
	room := (len(b) - pageHeader) / elementSize
	count := max(int(order.Uint16(b[10:])), int(order.Uint32(b[pageHeader+4:])/elementSize))
	var out []element
	for i := range min(count, room) {
		at := int64(pageHeader + i*elementSize)
		e := b[at:]
		flags, pos, ksize, vsize := order.Uint32(e), int64(order.Uint32(e[4:])), int64(order.Uint32(e[8:])), int64(order.Uint32(e[12:]))
		begin := at + pos
		if ksize == 0 || ksize > maxValue || vsize > maxValue || from+begin+ksize+vsize > m.size {
			continue
		}
		kv := m.within(from, b, begin, ksize+vsize)
		if int64(len(kv)) < ksize+vsize {
			continue
		}
		out = append(out, element{kv[:ksize:ksize], kv[ksize:], flags&flagBucket != 0, from + begin + ksize})
	}
	return out
}

// within gives bytes of a page, or of those behind it that it runs over into.
func (m image) within(from int64, b []byte, begin, length int64) []byte {
	if begin+length <= int64(len(b)) {
		return b[begin : begin+length]
	}
	return m.bytes(from+begin, length)
}

// inline gives the entries of a bucket that lies in its parent's page.
func (m image) inline(e element) []element {
	if len(e.value) < 16+pageHeader {
		return nil
	}
	return m.elements(e.at+16, e.value[16:])
}

// child is where a branch leads, with the first key there.
type child struct {
	key  []byte
	page uint64
}

var errNoPage = errors.New("no such page")

// page reads a page that says itself that it is where it is, as a leaf or as a branch.
func (m image) page(id uint64) (entries []element, children []child, err error) {
	b := m.bytes(int64(id)*m.pageSize, m.pageSize)
	order := binary.NativeEndian
	if int64(len(b)) < m.pageSize || order.Uint64(b) != id {
		return nil, nil, errNoPage
	}
	switch order.Uint16(b[8:]) {
	case flagLeaf:
		entries = m.elements(int64(id)*m.pageSize, b)
		if len(entries) != int(order.Uint16(b[10:])) {
			err = errNoPage
		}
		return entries, nil, err
	case flagBranch:
		children, err = m.children(id, b)
		return nil, children, err
	}
	return nil, nil, errNoPage
}

func (m image) children(id uint64, b []byte) (out []child, err error) {
	order := binary.NativeEndian
	for i := range int(order.Uint16(b[10:])) {
		at := int64(pageHeader + i*elementSize)
		if at+elementSize > int64(len(b)) {
			return out, errNoPage
		}
		begin, ksize := at+int64(order.Uint32(b[at:])), int64(order.Uint32(b[at+4:]))
		page := order.Uint64(b[at+8:])
		if page < 2 || page >= m.pages() || ksize > maxValue {
			err = errNoPage
			continue
		}
		out = append(out, child{bytes.Clone(m.within(int64(id)*m.pageSize, b, begin, ksize)), page})
	}
	return out, err
}

// freePages gives the pages that the list of free pages names; false where the list cannot be read.
func (m image) freePages(h head) (map[uint64]bool, bool) {
	w := &walker{file: m.file, head: h, seen: make([]byte, h.high)}
	w.seen[0], w.seen[1] = pageInUse, pageInUse
	if h.high > m.pages() || w.freelist() != nil {
		return nil, false
	}
	free := map[uint64]bool{}
	for id, is := range w.seen {
		if is == pageFree {
			free[uint64(id)] = true
		}
	}
	return free, true
}
