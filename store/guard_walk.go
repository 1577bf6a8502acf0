package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"slices"
)

// walker reads a file's pages along its trees.
type walker struct {
	file  io.ReaderAt
	head  head
	reach reach
	// seen holds what each page was found to be.
	seen []byte
	// journalAt and journalSize say where in the file the journal's value is.
	journalAt, journalSize int64
}

// reach is how much of a file a walk reads, from the least to all.
type reach uint8

const (
	// toJournal reads what leads to the journal.
	toJournal reach = iota
	// branches leaves out the leaves of the buckets that grow with every evening.
	branches
	// butDeliveries leaves out the deliveries' leaves.
	butDeliveries
	everyPage
)

// leavesOut tells whether the walk leaves out the leaves of a bucket.
func (r reach) leavesOut(name []byte) bool {
	switch string(name) {
	case string(bucketDeliveries):
		return r < everyPage
	case string(bucketSessions), string(bucketGames), string(bucketPlayed), string(bucketActions), string(bucketForeign):
		return r < butDeliveries
	}
	return false
}

const (
	pageUnseen = iota
	pageFree
	pageInUse
)

// The flags of a page and of a leaf's element.
const (
	flagBranch   = 0x01
	flagLeaf     = 0x02
	flagFreelist = 0x10
	flagBucket   = 0x01

	elementSize = 16
	// wideCount in a freelist's header says that the number of pages comes first in its body.
	wideCount = 0xFFFF
)

func (w *walker) walk(size int64) error {
	if need := int64(w.head.high) * w.head.pageSize; need/w.head.pageSize != int64(w.head.high) || need > size {
		return fmt.Errorf("it was cut off: %d bytes of at least %d are there", size, need)
	}
	w.seen = make([]byte, w.head.high)
	w.seen[0], w.seen[1] = pageInUse, pageInUse
	if err := w.freelist(); err != nil {
		return err
	}
	if err := w.tree(w.head.root, nil, bounds{}); err != nil {
		return err
	}
	if w.reach < everyPage {
		return nil
	}
	for id, is := range w.seen {
		if is == pageUnseen {
			return fmt.Errorf("page %d belongs to nothing", id)
		}
	}
	return nil
}

// page is a page that was read, with those that it runs over into.
type page struct {
	id    uint64
	flags uint16
	count int
	b     []byte
}

// read reads a page and marks it.
func (w *walker) read(id uint64) (page, error) {
	if id < 2 || id >= w.head.high {
		return page{}, fmt.Errorf("page %d is asked for, there are %d", id, w.head.high)
	}
	order := binary.NativeEndian
	p := page{id: id, b: make([]byte, w.head.pageSize)}
	if _, err := w.file.ReadAt(p.b, int64(id)*w.head.pageSize); err != nil {
		return page{}, fmt.Errorf("page %d: %w", id, err)
	}
	if own := order.Uint64(p.b); own != id {
		return page{}, fmt.Errorf("page %d says that it is page %d", id, own)
	}
	p.flags, p.count = order.Uint16(p.b[8:]), int(order.Uint16(p.b[10:]))
	over := uint64(order.Uint32(p.b[12:]))
	if over >= w.head.high-id {
		return page{}, fmt.Errorf("page %d runs over %d more, past the end", id, over)
	}
	if over > 0 {
		p.b = make([]byte, w.head.pageSize*int64(over+1))
		if _, err := w.file.ReadAt(p.b, int64(id)*w.head.pageSize); err != nil {
			return page{}, fmt.Errorf("page %d: %w", id, err)
		}
	}
	for i := id; i <= id+over; i++ {
		if w.seen[i] != pageUnseen {
			return page{}, fmt.Errorf("page %d is there twice", i)
		}
		w.seen[i] = pageInUse
	}
	return p, nil
}

// freelist reads the list of free pages.
func (w *walker) freelist() error {
	p, err := w.read(w.head.freelist)
	if err != nil {
		return fmt.Errorf("the list of free pages: %w", err)
	}
	if p.flags != flagFreelist {
		return fmt.Errorf("page %d is no list of free pages", p.id)
	}
	order := binary.NativeEndian
	ids, count := p.b[pageHeader:], uint64(p.count)
	if count == wideCount {
		count, ids = order.Uint64(ids), ids[8:]
	}
	if count > uint64(len(ids)/8) {
		return errors.New("the list of free pages is longer than its page")
	}
	last := uint64(1)
	for i := range count {
		id := order.Uint64(ids[i*8:])
		if id <= last || id >= w.head.high || w.seen[id] != pageUnseen {
			return fmt.Errorf("page %d cannot be free", id)
		}
		last, w.seen[id] = id, pageFree
	}
	return nil
}

// bounds are the keys between which a page's keys have to lie; nil is no bound.
type bounds struct{ from, to []byte }

func (b bounds) hold(key []byte) bool {
	return (b.from == nil || bytes.Compare(key, b.from) >= 0) && (b.to == nil || bytes.Compare(key, b.to) < 0)
}

// tree reads a bucket's tree from a page on. name is the bucket's, nil for the root. Of leaves that the walk leaves out, one is
// looked at for what it is.
func (w *walker) tree(id uint64, name []byte, in bounds) error {
	p, err := w.read(id)
	if err != nil {
		return err
	}
	switch p.flags {
	case flagLeaf:
		return w.leaf(p, name, in)
	case flagBranch:
		return w.branch(p, name, in)
	}
	return fmt.Errorf("page %d is neither branch nor leaf", id)
}

func (w *walker) branch(p page, name []byte, in bounds) error {
	order := binary.NativeEndian
	keys, children := make([][]byte, p.count), make([]uint64, p.count)
	for i := range p.count {
		at := pageHeader + i*elementSize
		if at+elementSize > len(p.b) {
			return fmt.Errorf("page %d has more entries than room", p.id)
		}
		e := p.b[at:]
		key, err := p.slice(at, order.Uint32(e), order.Uint32(e[4:]))
		if err != nil {
			return err
		}
		keys[i], children[i] = key, order.Uint64(e[8:])
		if children[i] < 2 || children[i] >= w.head.high {
			return fmt.Errorf("page %d leads to page %d, which is not there", p.id, children[i])
		}
	}
	if p.count == 0 {
		return fmt.Errorf("page %d is a branch with nothing on it", p.id)
	}
	if err := p.ordered(keys, in); err != nil {
		return err
	}
	if w.reach.leavesOut(name) && w.isLeaf(children[0]) {
		return w.claim(children)
	}
	for i, child := range children {
		within := bounds{from: keys[i], to: in.to}
		if i+1 < len(keys) {
			within.to = keys[i+1]
		}
		if err := w.tree(child, name, within); err != nil {
			return err
		}
	}
	return nil
}

// claim marks pages that are not read. One that is free holds what was in its place before, and would be read for it.
func (w *walker) claim(children []uint64) error {
	for _, id := range children {
		if w.seen[id] != pageUnseen {
			return fmt.Errorf("page %d is there twice", id)
		}
		w.seen[id] = pageInUse
	}
	return nil
}

// isLeaf looks at what a page says that it is.
func (w *walker) isLeaf(id uint64) bool {
	flags := make([]byte, 2)
	_, err := w.file.ReadAt(flags, int64(id)*w.head.pageSize+8)
	return err == nil && binary.NativeEndian.Uint16(flags) == flagLeaf
}

func (w *walker) leaf(p page, name []byte, in bounds) error {
	order := binary.NativeEndian
	keys := make([][]byte, p.count)
	for i := range p.count {
		at := pageHeader + i*elementSize
		if at+elementSize > len(p.b) {
			return fmt.Errorf("page %d has more entries than room", p.id)
		}
		e := p.b[at:]
		flags, pos, ksize, vsize := order.Uint32(e), order.Uint32(e[4:]), order.Uint32(e[8:]), order.Uint32(e[12:])
		key, err := p.slice(at, pos, ksize)
		if err != nil {
			return err
		}
		value, err := p.slice(at, pos+ksize, vsize)
		if err != nil {
			return err
		}
		keys[i] = key
		if string(name) == string(bucketJournal) {
			w.journalAt, w.journalSize = int64(p.id)*w.head.pageSize+int64(at)+int64(pos)+int64(ksize), int64(vsize)
			continue
		}
		if err := w.value(flags, name, key, value); err != nil {
			return err
		}
	}
	return p.ordered(keys, in)
}

// value reads what a leaf holds: in the root a bucket, in a bucket a value of ours.
func (w *walker) value(flags uint32, name, key, value []byte) error {
	if flags&flagBucket == 0 {
		if name == nil {
			return fmt.Errorf("the root holds %q, which is no bucket", key)
		}
		if string(name) == string(bucketAbout) || !ours(name) {
			return nil
		}
		_, err := unseal(key, value)
		return bad(err, "%s", rowWords(name, key))
	}
	if name != nil || len(value) < 16 {
		return fmt.Errorf("the bucket %q cannot be there", key)
	}
	if w.reach == toJournal && string(key) != string(bucketJournal) {
		return nil
	}
	if root := binary.NativeEndian.Uint64(value); root != 0 {
		return w.tree(root, key, bounds{})
	}
	// A small bucket lies in its parent's page.
	b := value[16:]
	if len(b) < pageHeader || binary.NativeEndian.Uint16(b[8:]) != flagLeaf {
		return fmt.Errorf("the bucket %q has no page", key)
	}
	return w.leaf(page{flags: flagLeaf, count: int(binary.NativeEndian.Uint16(b[10:])), b: b}, key, bounds{})
}

// ours tells whether a bucket is of this schema: another version may keep other values.
func ours(name []byte) bool {
	return slices.ContainsFunc(buckets, func(b []byte) bool { return string(b) == string(name) })
}

// slice gives length bytes at pos behind the element at at.
func (p page) slice(at int, pos, length uint32) ([]byte, error) {
	from := uint64(at) + uint64(pos)
	if from+uint64(length) > uint64(len(p.b)) {
		return nil, fmt.Errorf("page %d points past its end", p.id)
	}
	return p.b[from : from+uint64(length)], nil
}

// ordered tells whether a page's keys rise and lie where its parent says.
func (p page) ordered(keys [][]byte, in bounds) error {
	for i, key := range keys {
		if i > 0 && bytes.Compare(keys[i-1], key) >= 0 || !in.hold(key) {
			return fmt.Errorf("page %d has its keys in disorder", p.id)
		}
	}
	return nil
}
