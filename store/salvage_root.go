package store

import (
	"cmp"
	"slices"
)

// rootPage is a page from which a tree of ours grows, or grew.
type rootPage struct {
	id    uint64
	round roundRow
	// ofHead is the head that names it.
	ofHead *head
}

// findRoot gives the page from which the newest tree grows. Each transaction writes it anew, with the journal's round and
// its own number in it under a checksum, so that the newest can be told also where a head is damaged.
func (v *salvage) findRoot() (uint64, bool) {
	first, errFirst := pageHead(v.file, 0)
	second, errSecond := pageHead(v.file, v.pageSize)
	var heads []*head
	if errFirst == nil {
		heads = append(heads, &first)
	}
	if errSecond == nil {
		heads = append(heads, &second)
	}
	if len(heads) == 2 {
		newest := slices.MaxFunc(heads, func(a, b *head) int { return cmp.Compare(a.txid, b.txid) })
		v.useFree(newest)
		return newest.root, true
	}
	v.badHeads = 2 - len(heads)
	roots := v.roots(heads)
	if len(roots) == 0 {
		return 0, false
	}
	root := slices.MaxFunc(roots, func(a, b rootPage) int {
		return cmp.Or(cmp.Compare(a.round.round, b.round.round), cmp.Compare(a.round.txid, b.round.txid),
			named(a)-named(b), cmp.Compare(a.id, b.id))
	})
	if root.ofHead != nil {
		v.useFree(root.ofHead)
	}
	return root.id, true
}

func (v *salvage) useFree(h *head) {
	v.free, v.freeKnown = v.freePages(*h)
	v.high = h.high
}

func named(r rootPage) int {
	if r.ofHead != nil {
		return 1
	}
	return 0
}

// roots gives every page that looks like a root, and those that heads name.
func (v *salvage) roots(heads []*head) []rootPage {
	var out []rootPage
	for id := uint64(2); id < v.pages(); id++ {
		r := rootPage{id: id}
		for _, h := range heads {
			if h.root == id {
				r.ofHead = h
			}
		}
		entries, _, err := v.page(id)
		is := err == nil && len(entries) >= len(bucketsOf(1)) && len(entries) <= len(buckets)
		for _, e := range entries {
			is = is && e.bucket
			if !is || string(e.key) != string(bucketAbout) {
				continue
			}
			for _, in := range v.inline(e) {
				if string(in.key) == string(keyRound) {
					r.round, _ = readRound(in.key, in.value)
				}
			}
		}
		if is || r.ofHead != nil {
			out = append(out, r)
		}
	}
	return out
}
