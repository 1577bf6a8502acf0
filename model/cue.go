package model

import "fmt"

// Cue is an entry of the coach's book of cues.
type Cue struct {
	ID   ID
	Axis Axis
	Text string
}

// Validate tells what is wrong with the cue, or nil.
func (c Cue) Validate() error {
	if err := c.ID.Validate(); err != nil {
		return err
	}
	if c.Axis >= AxisCount {
		return fmt.Errorf("a cue of axis %d: there are %d", c.Axis, AxisCount)
	}
	return ValidateText(c.Text)
}
