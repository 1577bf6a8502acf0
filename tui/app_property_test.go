package tui

import (
	"maps"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"coach.settee/model"
)

// handfuls are what a coach's hand does, as keys; and single keys of all kinds.
var handfuls = []string{
	"x", "x", "x", "bx", "rfx", "70<enter>", "-<enter>", "=7", "=2", "=0", "/", "!x", "zx", "ix", "oo4<enter>", "D",
	"1<enter>", "9<enter>", "tt6<enter>", "<bs>", "<bs>", "U", "U", ",", ",b<enter>", ",0<enter>", ",x", ",<left>", "<right>",
	"<esc>", "<enter>", " ", "<tab>", "<shift+tab>", "<up>", "<down>", "@bo<enter>", ",@ada<enter>", ",@cy<enter>", "V", "W",
	"P9<enter>", "Pall 7<enter>", "P11<enter><enter>", "OB+<enter>", "Cslow<enter>", "C<enter>", "Nlate<enter>", "L17 34<enter>",
	"Z9/ 43<enter>", "Z81<enter>", "ZX<enter>", "Gg<enter>tired<enter>", "Gw<enter>late<enter>", "G5<enter>done<enter>",
	"G10 corner 10<enter>x<enter>", "G<enter>", "AEve 101<enter>", "AFinn<enter>", "=", "b", "7", "z", "!", "p", "h", "l",
	"e", "ed", "eu", "et", "er", "eb", "epHere<enter>", "ei40<enter>", "el13<enter><enter>", "exyy", "exhwalk, 10, Monday<enter>", "exd+7<enter>", "exDwed<enter><bs>", "exwgood<enter><down>", "ext90<enter>", "exxy", "ex", "y", "n", "s", "o", "ev", "eW", "eP9<enter>",
	"efquiet head<enter>", "ewbt<enter>", "ew<enter>", "eI", "eGg<enter>", "eG10<enter>", "eG<enter>", "e=y", "eaAda<enter><enter>",
	"ekhouse<enter>", "em1730<enter>", "ejleague<enter>", "eJ15<enter>", "eE<enter>y", "eE<down><pgdown>=", "eE<end>g",
	"g", "gb<enter>", "g<up>x", "g<up><up>f<enter>", "g=5", "g<left>", "g<tab>OB<enter><enter>", "gm", "gmmm", "gk<pgdown>", "gv", "v",
	"g<bs>", "gU", "gwslow<enter>", "gw<enter>", "gn3<enter>", "m", "w", "g@bo<enter>", "gb@cy<enter>", "g<enter>@ada<enter>",
	"g<home>xy", "g<home>9<enter>/<enter>", "g<up>=7-<enter>", ",,,xy", ",,,-<enter>8<enter>", ",,0<enter><esc>", "gv<pgdown>",
	"y", "y<enter>", "yc17 34 8@43<enter>", "y<right>c12 22<enter>", "y<tab>", "ys<end>", "ym", "y<bs>", "yU", "yb",
	"L12 22 8@43 +3<enter>x", "L12 22 8@43 -1<enter>x",
	"?", "<pgdown>", "<end>", "k", "C", "q", "<ctrl+l>", "<nul>", "<f5>",
}

// TestRandomHands: whatever is pressed, nothing breaks, the window is filled, the steps handed over make the records of the
// evening, and everything can be taken back to the start and done again.
func TestRandomHands(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		d := onBoard(r, "Ada 120", "Bo 172", "Cy 90 l", "Di 190")
		hands := rapid.SliceOfN(rapid.SampledFrom(handfuls), 1, 60).Draw(r, "hands")
		for _, keys := range hands {
			d.press(keys)
			if d.quit {
				break
			}
			filled(r, d, d.w, d.h)
			if d.evening == nil {
				d.press("<esc><bs>")
			}
			if d.evening == nil {
				break
			}
		}
		if d.evening == nil {
			return
		}
		all := d.recorder.records
		agree(r, "the steps", d.evening, all, hands)
		resumed, err := model.Resume(keptEvening(d))
		if err != nil {
			r.Fatalf("%s: cannot be resumed: %v", strings.Join(hands, " "), err)
		}
		agree(r, "resuming", resumed, all, hands)

		done := maps.Clone(all)
		d.evening.Leave()
		undone := 0
		for _, err := d.evening.Undo(); err == nil; _, err = d.evening.Undo() {
			undone++
		}
		if n := d.evening.Deliveries(); n != 0 {
			r.Fatalf("%s: %d deliveries are left at the start", strings.Join(hands, " "), n)
		}
		for range undone {
			if _, err := d.evening.Redo(); err != nil {
				r.Fatalf("%s: cannot be done again: %v", strings.Join(hands, " "), err)
			}
		}
		agree(r, "taking back and doing again", d.evening, done, hands)
	})
}

func agree(r *rapid.T, what string, e *model.Evening, records map[model.Ref]model.Record, hands []string) {
	r.Helper()
	want := tidy(records, e)
	maps.DeleteFunc(want, func(ref model.Ref, rec model.Record) bool {
		s, ok := rec.(model.Session)
		return ok && s.ID != e.Session().ID
	})
	if diff := cmp.Diff(want, eveningRecords(e), cmpopts.EquateEmpty()); diff != "" {
		r.Fatalf("%s: %s gives other records (-kept +evening):\n%s", strings.Join(hands, " "), what, diff)
	}
}
