package store

import "errors"

// errLostFrame tells of a frame that was kept and cannot be read.
var errLostFrame = errors.New("its journal is damaged, and the last calls may be missing")

// lost looks at the journal's bytes behind the frames that were read. A frame that cannot be read is where the journal
// ends: it was torn by a crash, and nobody was told that it is kept. But a frame is written only when the one before it is
// on the disk: where there is another one of this round behind it, it was kept.
func (j *journal) lost(b []byte) error {
	if j.resumes(b, j.end) >= 0 {
		return errLostFrame
	}
	return nil
}

// resumes gives where the next frame of this round is behind one that cannot be read, or -1.
func (j *journal) resumes(b []byte, end int64) int64 {
	for at := end + 1; at < int64(len(b)); at++ {
		if _, ok := j.frameAt(b, at); ok {
			return at
		}
	}
	return -1
}
