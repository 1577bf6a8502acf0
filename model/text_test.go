package model_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"coach.settee/model"
)

func TestNames(t *testing.T) {
	taken := []string{
		"Ada", "Ada Marsh", "Zoë", "Zoe\u0308", "李小龍", "أمل", "שרה", "नेहा", "👩‍🎳", "O'Neil-Smith", "Bo 2", "x",
		strings.Repeat("ä", model.MaxName),
	}
	for _, name := range taken {
		if err := model.ValidateName(name); err != nil {
			t.Errorf("%q: %v", name, err)
		}
	}
	refused := []string{
		"", " ", "\u00a0", "\u200d", "\u0301", "Ada\x1b[31m", "Ada\n", "Ada\tMarsh", "Ada\x00", "Ada\x7f", "Ada\u0085",
		"\u202eada", "Ada\u2066", "Ada\u200f", "Ada\u061c", "Ada\u2028Bo", "Ada\u2029",
		"\u200b", "Ada\xff", strings.Repeat("a", model.MaxName+1),
	}
	for _, name := range refused {
		if err := model.ValidateName(name); err == nil {
			t.Errorf("%q was taken", name)
		}
	}
}

func TestTextsAreCleaned(t *testing.T) {
	for text, want := range map[string]string{
		"":                    "",
		"  slow feet ":        "slow feet",
		"slow\tfeet\r\nnow":   "slow feet  now",
		"red\x1b[31m":         "red[31m",
		"\u202eback\u202c":    "back",
		"a\xffb":              "ab",
		"soft\u00adhyphen":    "softhyphen",
		"zero\u200bwidth":     "zerowidth",
		"👩‍🎳 stays":           "👩‍🎳 stays",
		"क्षेत्र\u200c stays": "क्षेत्र\u200c stays",
	} {
		if got := model.CleanText(text); got != want {
			t.Errorf("%q is cleaned to %q, want %q", text, got, want)
		}
	}
}

func TestCleanTextIsAlwaysTaken(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.String(), rapid.Map(rapid.SliceOf(rapid.Byte()), func(b []byte) string {
			return string(b)
		})).Draw(t, "text")
		clean := model.CleanText(text)
		if err := model.ValidateText(clean); err != nil {
			t.Fatalf("%q: %v", clean, err)
		}
		if again := model.CleanText(clean); again != clean {
			t.Fatalf("%q is cleaned again to %q", clean, again)
		}
	})
	long := strings.Repeat("ä", 3*model.MaxText)
	if n := utf8.RuneCountInString(model.CleanText(long)); n != model.MaxText || model.ValidateText(long) == nil {
		t.Errorf("a long text is cut to %d characters", n)
	}
}

func TestUnsafeTextsAreRefusedWhereverTheyAreTyped(t *testing.T) {
	bad := "a\x1b[2Jb"
	for _, keys := range []string{"N" + bad + "⏎", "C" + bad + "⏎", "G10 " + bad + "⏎", "x ⇤ Gw because " + bad + "⏎", "x , C" + bad + "⏎"} {
		beginLesson(t, "Ada 172, Bo 120").refuse(keys, "control character")
	}
}

func TestIDs(t *testing.T) {
	for _, id := range []model.ID{"a", "Z", "0", "_", "-", "01ARZ3NDEKTSV4RRFFQ69G5FAV", model.ID(strings.Repeat("x", 40))} {
		if err := id.Validate(); err != nil {
			t.Errorf("%q: %v", id, err)
		}
	}
	for _, id := range []model.ID{"", " ", "a b", "é", "a/b", "a\n", "a.b", model.ID(strings.Repeat("x", 41))} {
		if err := id.Validate(); err == nil {
			t.Errorf("%q was taken", id)
		}
	}
}

func TestSerialIDs(t *testing.T) {
	ulid := model.ID("01ARZ3NDEKTSV4RRFFQ69G5FAV")
	for _, id := range []model.ID{"s-0", "s-007", "s-+5", "s--5", "s-", "s-5x", "s-5 ", "s-٣", "s-1_0", "s-99999999999999999999", "s5", "t-5", "s", "", "s-1-5"} {
		if n, ok := model.Serial("s", id); ok || n != 0 {
			t.Errorf("%q was taken for number %d", id, n)
		}
	}
	if model.SerialID(ulid, 12) != ulid+"-12" {
		t.Errorf("%q", model.SerialID(ulid, 12))
	}
	rapid.Check(t, func(t *rapid.T) {
		ids := rapid.StringMatching(`[A-Za-z0-9_-]{1,40}`)
		session, other := model.ID(ids.Draw(t, "session")), model.ID(ids.Draw(t, "other"))
		n := rapid.IntRange(1, 9_999_999).Draw(t, "n")
		id := model.SerialID(session, n)
		if err := id.Validate(); err != nil {
			t.Fatal(err)
		}
		if got, ok := model.Serial(session, id); !ok || got != n {
			t.Fatalf("%q is number %d of %q", id, got, session)
		}
		if _, ok := model.Serial(other, id); ok && other != session {
			t.Fatalf("%q is one of %q too", id, other)
		}
	})
}

// Two evenings whose long ids begin alike do not share numbers.
func TestSerialIDsOfLongSessions(t *testing.T) {
	long := strings.Repeat("a", 39)
	one, two := model.SerialID(model.ID(long+"1"), 1), model.SerialID(model.ID(long+"2"), 1)
	if one == two || one.Validate() != nil || len(one) > 40 {
		t.Errorf("%q and %q", one, two)
	}
	e, _, err := model.NewEvening(model.Session{ID: model.ID(long + "1"), At: evening, Pairs: []model.Pair{{7, 8}}})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := e.Seat(model.Student{ID: "Ada", Name: "Ada", Hand: model.RightHand}, 7); err != nil {
		t.Fatal(err)
	}
	step, err := e.RecordAllDown(evening)
	if err != nil {
		t.Fatal(err)
	}
	k := model.Kept{Session: e.Session(), Students: []model.Student{e.Student("Ada")}, Up: step.Up}
	used := map[model.ID]bool{}
	for _, c := range step.Changes {
		if err := c.After.Validate(); err != nil {
			t.Error(err)
		}
		used[c.Ref.ID] = true
		switch r := c.After.(type) {
		case model.Game:
			k.Games = append(k.Games, r)
		case model.Delivery:
			k.Deliveries = append(k.Deliveries, r)
		}
	}
	// The highest number is found in the ids, also where it is not told.
	if e, err = model.Resume(k); err != nil {
		t.Fatal(err)
	}
	if step, err = e.RecordAllDown(evening); err != nil || used[step.Changes[0].Ref.ID] {
		t.Errorf("%v is used again, %v", step.Changes[0].Ref, err)
	}
}
