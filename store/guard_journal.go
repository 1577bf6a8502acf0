package store

import (
	"bytes"
	"errors"
)

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

// earlierRounds is how many rounds back the first frame is looked for: more than there ever are in a row without any.
const earlierRounds = 100

// broken tells whether bytes of a frame that cannot be read are where the frames end. Either it was being written when the
// program ended, so that nobody was told that it is kept, or it was kept and is damaged since: one write makes both, and
// no cheaper sign than a second write would tell them apart. A frame that reads as zeros is like one that was never begun.
func (j *journal) broken(b []byte, end int64) bool {
	if end+frameHead > int64(len(b)) || len(bytes.Trim(b[end:end+frameHead], "\x00")) == 0 {
		return false
	}
	if end > 0 {
		return true
	}
	// Where nothing was written in this round the first frame of an earlier one is still there, and whole.
	earlier := journal{round: j.round}
	for n := 0; n < earlierRounds && earlier.round > 0; n++ {
		earlier.round--
		if _, ok := earlier.frameAt(b, 0); ok {
			return false
		}
	}
	return true
}

// leaveBroken puts what is no frame where the next one goes: that the last call may be missing is told until one is kept.
func (j *journal) leaveBroken() error {
	if _, err := j.file.WriteAt(bytes.Repeat([]byte{0xFF}, frameHead), j.from+j.end); err != nil {
		return err
	}
	return j.sync()
}
