package tui

import (
	"testing"

	"coach.settee/model"
)

// What was taken in before the start is said beside the evening that is resumed, or alone where none is open.
func TestWhatWasBroughtInIsSaidAtTheStart(t *testing.T) {
	const words = "6 calls that the disk had refused are in: settee.db.taken-in.jsonl"
	kept := keptEvening(onBoard(t, "Ada 120").press("xx"))
	for want, reader := range map[string]*fakeReader{
		"resumed: 4 March 2026, 2 deliveries; " + words: {evenings: []model.Kept{kept}},
		words: {},
	} {
		conf := testConfig(newFakeRecorder(), reader)
		conf.Brought = words
		app, err := New(conf)
		if err != nil {
			t.Fatal(err)
		}
		if got := app.status.words; got != want {
			t.Errorf("it says %q, not %q", got, want)
		}
	}
}
