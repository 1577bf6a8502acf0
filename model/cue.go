package model

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
	return ValidateText(c.Text)
}
