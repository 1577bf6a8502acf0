package tui

import (
	"bytes"
	"regexp"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// burst frames keys as the scanner does.
func burst(keys string) string {
	return pasteStart + "\x00" + keys + pasteEnd
}

// Each piece of in is one read; nothing more comes after the last.
func TestScanner(t *testing.T) {
	long := strings.Repeat("0;", heldLimit)
	for name, c := range map[string]reads{
		"one key":                                {[]string{"x"}, "x"},
		"three keys":                             {[]string{"bbx"}, "bbx"},
		"control keys":                           {[]string{"\x03\x0c"}, "\x03\x0c"},
		"lone Esc":                               {[]string{"\x1b"}, "\x1b"},
		"two Escs":                               {[]string{"\x1b\x1b"}, "\x1b\x1b"},
		"Esc and a key in one read":              {[]string{"\x1bx"}, "\x1bx"},
		"Esc and enter in one read":              {[]string{"\x1b\r"}, "\x1b\r"},
		"Esc and a wide rune split":              {[]string{"\x1b\xc3", "\xa9"}, "\x1bé"},
		"arrow whole":                            {[]string{"\x1b[A"}, "\x1b[A"},
		"arrow split after Esc":                  {[]string{"\x1b", "[A"}, "\x1b[A"},
		"arrow split before its letter":          {[]string{"\x1b[", "A"}, "\x1b[A"},
		"arrow with a modifier split":            {[]string{"\x1b[1;", "2A"}, "\x1b[1;2A"},
		"Esc, then an arrow":                     {[]string{"\x1b\x1b[A"}, "\x1b\x1b[A"},
		"function key split":                     {[]string{"\x1bO", "P"}, "\x1bOP"},
		"console function key split":             {[]string{"\x1b[[", "A"}, "\x1b[[A"},
		"Esc and a capital O":                    {[]string{"\x1bO"}, "\x1bO"},
		"Esc, a capital O and enter":             {[]string{"\x1bO\r"}, "\x1bO\r"},
		"key after an arrow":                     {[]string{"\x1b[Ax"}, "\x1b[Ax"},
		"mouse report split":                     {[]string{"\x1b[<0;10;", "5M"}, "\x1b[<0;10;5M"},
		"mouse report split byte by byte":        bytewise("\x1b[<0;10;5M"),
		"old mouse report split":                 {[]string{"\x1b[M ", "!1"}, "\x1b[M !1"},
		"mouse report without its end":           {[]string{"\x1b[<0;10;"}, ""},
		"mouse report broken off by a key":       {[]string{"\x1b[<0;1\rx"}, "\rx"},
		"mouse report broken off by an arrow":    {[]string{"\x1b[<0;1\x1b[A"}, "\x1b[A"},
		"sequence longer than any":               {[]string{"\x1b[" + long + "Mx"}, "x"},
		"wide rune split":                        {[]string{"\xe4\xb8", "\xad"}, "中"},
		"rune broken off by a key":               {[]string{"\xc3x"}, "\xc3x"},
		"byte that begins no rune":               {[]string{"\xffx"}, "\xffx"},
		"background answer":                      {[]string{"x\x1b]11;rgb:1e1e/1e1e/1e1e\x1b\\b"}, "xb"},
		"background answer ended by a bell":      {[]string{"\x1b]11;rgb:1e1e/1e1e/1e1e\ab"}, "b"},
		"background answer split":                {[]string{"\x1b]11;rgb:1e", "1e/1e1e/1e1e\x1b", "\\b"}, "b"},
		"background answer without its end":      {[]string{"\x1b]11;rgb:1e1e"}, ""},
		"background answer broken off by enter":  {[]string{"\x1b]11;rgb:1e\rx"}, "\rx"},
		"background answer broken off by Esc":    {[]string{"\x1b]11;rgb:1e\x1b[A"}, "\x1b[A"},
		"answer longer than is held":             {[]string{"\x1b]52;c;" + long + "\x1b\\x"}, "x"},
		"terminal name":                          {[]string{"\x1bP>|emulator 1.0\x1b\\x"}, "x"},
		"setting":                                {[]string{"\x1bP1$r0m\x1b\\x"}, "x"},
		"picture":                                {[]string{"\x1b_Gi=1;OK\x1b\\x"}, "x"},
		"other strings":                          {[]string{"\x1bXab\x1b\\\x1b^cd\x1b\\x"}, "x"},
		"Esc, then a pair's prompt":              {[]string{"\x1bP12"}, "\x1bP12"},
		"Esc, then a pair's prompt and enter":    {[]string{"\x1bP12\r"}, "\x1bP12\r"},
		"Esc, then a pair's prompt and Esc":      {[]string{"\x1bP12\x1b"}, "\x1bP12\x1b"},
		"Esc, a prompt, Esc and a key":           {[]string{"\x1bP12\x1bx"}, "\x1bP12\x1bx"},
		"Esc and a bracket":                      {[]string{"\x1b["}, "\x1b["},
		"four keys are a burst":                  {[]string{"bbrx"}, burst("bbrx")},
		"burst with spaces and enters":           {[]string{"the ball\r1 2\r"}, burst("the ball\r1 2\r")},
		"burst of wide runes":                    {[]string{"中文中文"}, burst("中文中文")},
		"burst before an arrow":                  {[]string{"12345\x1b[A6"}, burst("12345") + "\x1b[A6"},
		"ctrl+c ends a burst":                    {[]string{"12345\x03"}, burst("12345") + "\x03"},
		"burst with a split rune":                {[]string{"abcd\xc3", "\xa9"}, burst("abcdé")},
		"paste":                                  {[]string{pasteStart + "a b\r" + pasteEnd + "x"}, pasteStart + "a b\r" + pasteEnd + "x"},
		"paste with its start split":             {[]string{"\x1b[20", "0~12", pasteEnd}, pasteStart + "12" + pasteEnd},
		"paste with its start split after Esc":   {[]string{"\x1b", "[200~12", pasteEnd}, pasteStart + "12" + pasteEnd},
		"paste with its end split":               {[]string{pasteStart + "12\x1b[2", "01~"}, pasteStart + "12" + pasteEnd},
		"paste that holds sequences":             {[]string{pasteStart + "\x1b[A\x1b\x1b[201x" + pasteEnd}, pasteStart + "\x1b[A\x1b\x1b[201x" + pasteEnd},
		"paste without its end":                  {[]string{pasteStart + "12"}, pasteStart + "12" + pasteEnd},
		"paste broken off inside its end":        {[]string{pasteStart + "12\x1b[20"}, pasteStart + "12" + pasteEnd},
		"paste that would look like a burst":     {[]string{pasteStart + "\x0012" + pasteEnd}, pasteStart + "12" + pasteEnd},
		"paste longer than the limit keeps ends": {[]string{pasteStart, strings.Repeat("a", pasteLimit+9), pasteEnd}, pasteStart + strings.Repeat("a", pasteLimit) + pasteEnd},
	} {
		t.Run(name, func(t *testing.T) {
			var s scanner
			var got []byte
			for _, piece := range c.in {
				got = append(got, s.feed([]byte(piece))...)
			}
			if _, open := s.patience(); open {
				got = append(got, s.silence()...)
			}
			if string(got) != c.want {
				t.Errorf("read %q as %q, want %q", c.in, got, c.want)
			}
			if more := s.feed([]byte("x")); string(more) != "x" {
				t.Errorf("the next key came as %q", more)
			}
		})
	}
}

// reads are the pieces in which input comes, and what is to be handed on.
type reads struct {
	in   []string
	want string
}

// bytewise is a sequence that comes in reads of one byte, and is handed on whole.
func bytewise(sequence string) reads {
	return reads{strings.Split(sequence, ""), sequence}
}

func TestPatience(t *testing.T) {
	for name, c := range map[string]struct {
		in   string
		want time.Duration
		open bool
	}{
		"a key is whole":                         {"x", 0, false},
		"an arrow is whole":                      {"\x1b[A", 0, false},
		"a paste is whole":                       {pasteStart + "12" + pasteEnd, 0, false},
		"an Esc may be a key":                    {"\x1b", shortWait, true},
		"a bracket after it too":                 {"\x1b[", shortWait, true},
		"half a rune":                            {"\xc3", shortWait, true},
		"a capital P after Esc may be keys":      {"\x1bP1", shortWait, true},
		"a parameter is no key":                  {"\x1b[<0", longWait, true},
		"nor is an old mouse report":             {"\x1b[M", longWait, true},
		"nor is an answer":                       {"\x1b]11;", longWait, true},
		"a paste waits for its end":              {pasteStart + "12", longWait, true},
		"a burst takes only what is there":       {"12345", 0, true},
		"a burst that nobody typed may be split": {strings.Repeat("1", typedLimit+1), shortWait, true},
	} {
		t.Run(name, func(t *testing.T) {
			var s scanner
			s.feed([]byte(c.in))
			if wait, open := s.patience(); wait != c.want || open != c.open {
				t.Errorf("patience %v, open %v; want %v, %v", wait, open, c.want, c.open)
			}
		})
	}
}

var framed = regexp.MustCompile("\x1b\\[200~\x00([^\x1b]*)\x1b\\[201~")

// However keys and sequences are cut into reads, all of them arrive in order, and nothing else does.
func TestScannerLosesAndInventsNothing(t *testing.T) {
	pieces := []string{"x", "b", "1", "/", " ", "\r", "\x7f", "\x03", "é", "中", "\x1b[A", "\x1b[1;2B", "\x1bOP", "\x1b[<0;10;5M",
		"\x1b[M !!", "\x1b[[A", "\x1bx", pasteStart + "a 1\x1b[A" + pasteEnd, "\x1b]11;rgb:0/0/0\x1b\\", "\x1bP1$r0m\x1b\\"}
	rapid.Check(t, func(t *rapid.T) {
		sent := rapid.SliceOf(rapid.SampledFrom(pieces)).Draw(t, "sent")
		var want []byte
		for _, piece := range sent {
			if !answer.MatchString(piece) {
				want = append(want, piece...)
			}
		}
		var s scanner
		var got []byte
		for rest := []byte(strings.Join(sent, "")); len(rest) > 0; {
			n := rapid.IntRange(1, len(rest)).Draw(t, "read")
			got = append(got, s.feed(rest[:n])...)
			rest = rest[n:]
		}
		if _, open := s.patience(); open {
			got = append(got, s.silence()...)
		}
		if got = framed.ReplaceAll(got, []byte("$1")); !bytes.Equal(got, want) {
			t.Fatalf("got %q, want %q", got, want)
		}
	})
}
