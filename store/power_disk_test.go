package store

import (
	"bytes"
	"maps"
	"math/rand/v2"
	"slices"
)

// sector is the number of bytes that a disk writes whole or not at all.
const sector = 512

// platter is what a file may be on the disk when the power goes: what the last sync has made sure of, and what was written
// since, of which any part may have arrived, sector by sector.
type platter struct {
	// cache is what the system shows of the file, sure what the disk has in any case.
	cache, sure []byte
	// pending is what was written and cut since the last sync, in order.
	pending []arriving
	// doubtful holds, by sector, what was written before a sync that failed: the system takes it for written and does not
	// write it again, whatever is synced later, until the sector is written anew.
	doubtful map[int64][][]byte
	writes   int
}

// arriving is a sector as a write left it, or where it has no bytes a new size of the file.
type arriving struct {
	write int
	at    int64
	bytes []byte
	size  int64
}

func newPlatter(sure []byte) *platter {
	return &platter{cache: bytes.Clone(sure), sure: bytes.Clone(sure), doubtful: map[int64][][]byte{}}
}

func (p *platter) write(b []byte, at int64) {
	p.writes++
	end := at + int64(len(b))
	p.cache = sized(p.cache, max(int64(len(p.cache)), end))
	copy(p.cache[at:], b)
	for s := at / sector; s*sector < end; s++ {
		to := min((s+1)*sector, int64(len(p.cache)))
		p.pending = append(p.pending, arriving{write: p.writes, at: s, bytes: bytes.Clone(p.cache[s*sector : to])})
	}
}

func (p *platter) truncate(size int64) {
	p.writes++
	p.cache = sized(p.cache, size)
	p.pending = append(p.pending, arriving{write: p.writes, size: size})
}

// sync makes sure of what is pending, or where it failed leaves it in doubt.
func (p *platter) sync(failed bool) {
	for _, a := range p.pending {
		switch {
		case a.bytes == nil || !failed:
			p.sure = a.on(p.sure)
			delete(p.doubtful, a.at)
		default:
			p.doubtful[a.at] = append(p.doubtful[a.at], a.bytes)
		}
	}
	p.pending = nil
}

// on gives a file with what arrives on it.
func (a arriving) on(file []byte) []byte {
	if a.bytes == nil {
		return sized(file, a.size)
	}
	file = sized(file, max(int64(len(file)), a.at*sector+int64(len(a.bytes))))
	copy(file[a.at*sector:], a.bytes)
	return file
}

func sized(b []byte, size int64) []byte {
	if size <= int64(len(b)) {
		return b[:size]
	}
	return append(b, make([]byte, size-int64(len(b)))...)
}

// inFlight gives how many writes are not synced.
func (p *platter) inFlight() int {
	n := map[int]bool{}
	for _, a := range p.pending {
		n[a.write] = true
	}
	return len(n)
}

// fate says which of what is not sure has arrived.
type fate int

const (
	nothingArrived fate = iota
	allArrived
	wholeWrites
	singleSectors
	firstWrites
	fates
)

// image gives the file as it may be found, by a fate.
func (p *platter) image(f fate, random *rand.Rand) []byte {
	file := bytes.Clone(p.sure)
	for _, at := range slices.Sorted(maps.Keys(p.doubtful)) {
		versions := p.doubtful[at]
		i := random.IntN(len(versions) + 1)
		switch f {
		case nothingArrived:
			i = len(versions)
		case allArrived:
			i = len(versions) - 1
		}
		if i < len(versions) {
			file = arriving{at: at, bytes: versions[i]}.on(file)
		}
	}
	coins := map[int]bool{}
	until := random.IntN(p.inFlight() + 1)
	for _, a := range p.pending {
		coin, tossed := coins[a.write]
		if !tossed {
			coin = random.IntN(2) == 0
			if f == firstWrites {
				coin = len(coins) < until
			}
			coins[a.write] = coin
		}
		switch f {
		case nothingArrived:
			coin = false
		case allArrived:
			coin = true
		case singleSectors:
			coin = random.IntN(2) == 0
		}
		if coin {
			file = a.on(file)
		}
	}
	return file
}
