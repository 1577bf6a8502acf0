package tui

import "testing"

// Tight rows are one line each, however much room there is, and every student is in view.
func TestTightRows(t *testing.T) {
	for _, tight := range []bool{false, true} {
		plan := planFor(6, 3, 50, boardPicture{Tight: tight}.highestRow(160))
		if (plan.row == 1) != tight || plan.shown != 6 {
			t.Errorf("tight %v: %+v", tight, plan)
		}
	}
}
