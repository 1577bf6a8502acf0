package tenpin

import "fmt"

// Error refuses a ball and says which one and why.
type Error struct {
	Frame   int    // 1 to 10
	InFrame int    // 1 to 3, the ball's place in its frame; 0 for a ball after the game's end
	Ball    int    // the ball's place among those scored or read together, from 1; 0 for one alone
	Reason  string // in words
}

// Error says where and why: "frame 4, ball 2: 9 pins cannot fall where 8 stand".
func (e *Error) Error() string {
	switch {
	case e.InFrame > 0:
		return fmt.Sprintf("frame %d, ball %d: %s", e.Frame, e.InFrame, e.Reason)
	case e.Ball > 0:
		return fmt.Sprintf("ball %d: %s", e.Ball, e.Reason)
	default:
		return e.Reason
	}
}
