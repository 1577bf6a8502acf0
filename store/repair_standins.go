package store

import (
	"slices"

	"coach.settee/model"
)

// standIns names which session has a number, and adds to what was found students and sessions that are lost and that others
// refer to: a student by the id alone, a session as its deliveries tell of it.
func (r *repairer) standIns() {
	v := r.found
	r.numbers = map[uint32]model.ID{}
	need := func(id model.ID) {
		if _, ok := v.students[id]; !ok {
			s := model.Student{ID: id, Name: "Lost " + string(id), Hand: model.RightHand}
			v.students[id] = version[model.Student]{value: s}
			r.stands(s)
		}
	}
	for _, s := range v.sessions {
		r.numbers[s.value.number] = s.value.ID
		for _, seat := range s.value.Roster {
			need(seat.Student)
		}
	}
	lost := map[uint32]*model.Session{}
	for p, g := range v.games {
		need(g.value.Student)
		if _, ok := r.numbers[p.session]; !ok {
			r.numbers[p.session] = g.value.Session
			lost[p.session] = &model.Session{ID: g.value.Session}
		}
	}
	for p, b := range v.balls {
		s := lost[p.session]
		if s == nil {
			continue
		}
		row, err := decodeDeliveryRow(s.ID, p.key(), v.bytes(b.value, int64(b.size)))
		if err == nil && row.Validate() == nil {
			widen(s, row.Delivery)
		}
	}
	for number, s := range lost {
		if s.Validate() == nil && len(s.Pairs) > 0 {
			v.sessions[s.ID] = version[sessionRow]{value: sessionRow{Session: *s, number: number}}
			r.stands(*s)
		}
	}
}

func (r *repairer) stands(rec model.Record) {
	r.out.standIns[rec.Ref()] = true
}

// widen makes a session reach over a delivery.
func widen(s *model.Session, d model.Delivery) {
	if s.At.IsZero() || d.At.Before(s.At) {
		s.At = d.At
	}
	if s.Closed.IsZero() || d.At.After(s.Closed) {
		s.Closed = d.At
	}
	if pair := model.PairOf(d.Lane); !slices.Contains(s.Pairs, pair) {
		s.Pairs = append(s.Pairs, pair)
		slices.SortFunc(s.Pairs, func(a, b model.Pair) int { return a[0] - b[0] })
	}
}
