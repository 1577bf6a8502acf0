package model

// Record is one thing that is kept under an id of its own: a Cue, a Student, a Session, a Game or a Delivery.
type Record interface {
	// Ref names the record among all kinds.
	Ref() Ref
	// Validate tells what is wrong with the record on its own, or nil.
	Validate() error
}

// RecordKind tells records apart.
type RecordKind uint8

// The kinds of records, in the order in which one may refer to another.
const (
	CueRecord RecordKind = iota + 1
	StudentRecord
	SessionRecord
	GameRecord
	DeliveryRecord
)

// Ref names a record.
type Ref struct {
	Kind RecordKind
	ID   ID
}

// Ref names the cue.
func (c Cue) Ref() Ref { return Ref{CueRecord, c.ID} }

// Ref names the student.
func (s Student) Ref() Ref { return Ref{StudentRecord, s.ID} }

// Ref names the session.
func (s Session) Ref() Ref { return Ref{SessionRecord, s.ID} }

// Ref names the game.
func (g Game) Ref() Ref { return Ref{GameRecord, g.ID} }

// Ref names the delivery.
func (d Delivery) Ref() Ref { return Ref{DeliveryRecord, d.ID} }
