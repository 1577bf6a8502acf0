package store

import (
	"bytes"
	"encoding/binary"
	"io"

	"coach.settee/model"
)

// salvage is what can be read of a damaged file. Every value has its checksum, so that what is read is what was once
// written; the question is only whether it was still so in the end, since the library writes a changed page to another
// place and leaves the old one. So values are taken, in this order: those of pages that the tree leads to; those of pages
// that it should have led to, being neither reached nor free; and, for the stretches of keys that are lost, those of pages
// no longer in use, which may be older than what is lost.
type salvage struct {
	image
	read func(bytes int) error
	// free are the pages below high that are not in use; freeKnown is false where the list of them cannot be read.
	free      map[uint64]bool
	freeKnown bool
	high      uint64
	seen      map[uint64]bool
	// lost are the stretches of keys of each bucket of which a page could not be read.
	lost map[string][]bounds

	cues     map[model.ID]version[model.Cue]
	students map[model.ID]version[model.Student]
	sessions map[model.ID]version[sessionRow]
	games    map[place]version[gameRow]
	// balls are where in the file deliveries are: read when their sessions are known.
	balls map[place]version[int64]
	// unread counts values that are wrong by their checksum or mean nothing.
	unread int
	// badHeads is how many of the heads are damaged.
	badHeads int
	// round is the journal's, as the root says it where it could be read.
	round            roundRow
	rounds, rootRead bool
	// journalAt is where in the file the journal's value is, 0 where it was not found.
	journalAt, journalSize int64
}

// rank tells how surely a value is what was kept last: the lower, the surer.
type rank uint8

const (
	rankReached rank = iota
	rankInUse
	rankOlder
)

// version is a record as it was found somewhere.
type version[T any] struct {
	value T
	rank  rank
	// size is the value's length. Of several older versions the longest is taken: a record mostly grows.
	size int
}

// better puts a version where none is yet that is as sure.
func better[K comparable, T any](m map[K]version[T], key K, v version[T]) {
	if old, ok := m[key]; !ok || v.rank < old.rank || v.rank == rankOlder && old.rank == rankOlder && v.size > old.size {
		m[key] = v
	}
}

func newSalvage(f io.ReaderAt, size int64, read func(int) error) *salvage {
	return &salvage{
		image: openImage(f, size), read: read, seen: map[uint64]bool{}, lost: map[string][]bounds{},
		cues: map[model.ID]version[model.Cue]{}, students: map[model.ID]version[model.Student]{},
		sessions: map[model.ID]version[sessionRow]{}, games: map[place]version[gameRow]{},
		balls: map[place]version[int64]{},
	}
}

// all reads the file: along the tree first, then every other page.
func (v *salvage) all() error {
	if root, ok := v.findRoot(); ok {
		v.root(root)
	} else {
		v.loseAll()
	}
	for id := uint64(2); id < v.pages(); id++ {
		if err := v.tell(v.pageSize); err != nil {
			return err
		}
		if v.seen[id] {
			continue
		}
		r := rankOlder
		// A page that says it is another was written to the wrong place.
		own := v.bytes(int64(id)*v.pageSize, 8)
		if v.freeKnown && !v.free[id] && id < v.high && len(own) == 8 && binary.NativeEndian.Uint64(own) == id {
			r = rankInUse
		}
		for _, e := range v.leaf(id) {
			v.stray(e, nil, r)
		}
	}
	return nil
}

func (v *salvage) tell(n int64) error {
	if v.read == nil {
		return nil
	}
	return v.read(int(n))
}

func (v *salvage) loseAll() {
	for _, name := range buckets {
		v.lost[string(name)] = []bounds{{}}
	}
}

// root takes what the tree leads to from its root page on.
func (v *salvage) root(id uint64) {
	entries, children, err := v.page(id)
	if err != nil || len(children) > 0 {
		v.loseAll()
	}
	if err == nil {
		v.seen[id], v.rootRead = true, true
	}
	there := map[string]bool{}
	for _, e := range entries {
		there[string(e.key)] = e.bucket
		if !e.bucket || len(e.value) < 16 {
			continue
		}
		if root := binary.NativeEndian.Uint64(e.value); root != 0 {
			v.tree(root, bytes.Clone(e.key), bounds{}, 0)
			continue
		}
		for _, in := range v.inline(e) {
			v.take(in, e.key, rankReached)
		}
	}
	for _, name := range buckets {
		if !there[string(name)] {
			v.lost[string(name)] = append(v.lost[string(name)], bounds{})
		}
	}
}

// maxDepth is more levels than any tree has: a damaged one may lead in a circle.
const maxDepth = 16

// tree takes what a bucket's tree holds from a page on, whose keys should lie within bounds.
func (v *salvage) tree(id uint64, name []byte, in bounds, depth int) {
	if v.seen[id] || depth > maxDepth {
		v.lost[string(name)] = append(v.lost[string(name)], in)
		return
	}
	entries, children, err := v.page(id)
	if err != nil {
		v.lost[string(name)] = append(v.lost[string(name)], in)
	}
	if err != nil && len(entries)+len(children) == 0 {
		return
	}
	v.seen[id] = true
	for _, e := range entries {
		if !v.take(e, name, rankReached) {
			v.lost[string(name)] = append(v.lost[string(name)], in)
		}
	}
	for i, c := range children {
		within := bounds{from: c.key, to: in.to}
		if i+1 < len(children) {
			within.to = children[i+1].key
		}
		if i == 0 {
			within.from = in.from
		}
		v.tree(c.page, name, within, depth+1)
	}
}

// take takes an entry of a bucket, and tells whether it can be read.
func (v *salvage) take(e element, name []byte, r rank) bool {
	ok := true
	switch string(name) {
	case string(bucketAbout):
		if bytes.Equal(e.key, keyRound) {
			v.takeRound(e)
		}
	case string(bucketCues):
		ok = v.cue(e, r)
	case string(bucketStudents):
		ok = v.student(e, r)
	case string(bucketSessions):
		ok = v.session(e, r)
	case string(bucketGames):
		ok = v.game(e, r)
	case string(bucketDeliveries):
		ok = v.ball(e, r)
	case string(bucketJournal):
		v.foundJournal(e)
	}
	if !ok {
		v.unread++
	}
	return ok
}

// stray takes an entry of which nothing tells the bucket, except in a bucket within a page. What a kind would write in the
// same bytes is of that kind.
func (v *salvage) stray(e element, name []byte, r rank) {
	if e.bucket {
		if name == nil && len(e.value) >= 16 && binary.NativeEndian.Uint64(e.value) == 0 {
			for _, in := range v.inline(e) {
				v.stray(in, e.key, r)
			}
		}
		return
	}
	if v.foundJournal(e) {
		return
	}
	if bytes.Equal(e.key, keyRound) {
		if !v.rootRead {
			v.takeRound(e)
		}
		return
	}
	if _, err := unseal(e.key, e.value); err != nil {
		return
	}
	for _, kind := range []struct {
		bucket []byte
		take   func(element, rank) bool
	}{
		{bucketCues, v.cue}, {bucketStudents, v.student}, {bucketSessions, v.session}, {bucketGames, v.game},
		{bucketDeliveries, v.ball},
	} {
		if name != nil && !bytes.Equal(name, kind.bucket) || r == rankOlder && !v.isLost(kind.bucket, e.key) {
			continue
		}
		if kind.take(e, r) {
			return
		}
	}
}

func (v *salvage) isLost(name, key []byte) bool {
	for _, in := range v.lost[string(name)] {
		if in.hold(key) {
			return true
		}
	}
	return false
}

func (v *salvage) takeRound(e element) {
	// Rounds rise: of several the highest is the last.
	if r, err := readRound(e.key, e.value); err == nil && r.round >= v.round.round {
		v.round, v.rounds = r, true
	}
}

func (v *salvage) foundJournal(e element) bool {
	if !bytes.Equal(e.key, keyJournal) || !bytes.HasPrefix(e.value, journalMark) {
		return false
	}
	// The tree comes first: what looks like another journal is a copy of its beginning.
	if v.journalAt == 0 {
		v.journalAt, v.journalSize = e.at, int64(len(e.value))
	}
	return true
}
