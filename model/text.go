package model

import (
	"errors"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// MaxName and MaxText are the longest name and the longest note, cue or other text, in characters.
const (
	MaxName = 80
	MaxText = 2000
)

// ValidateName tells what is wrong with a person's name, or nil.
func ValidateName(name string) error {
	if strings.IndexFunc(name, seenRune) < 0 {
		return errors.New("the name is empty: give a name")
	}
	if n := utf8.RuneCountInString(name); n > MaxName {
		return fmt.Errorf("a name of %d characters: names have up to %d", n, MaxName)
	}
	return ValidateText(name)
}

// ValidateText tells what would make a text unsafe to keep or to show, or nil: bytes that are no UTF-8, control
// characters, and the marks that turn the writing direction of what follows.
func ValidateText(s string) error {
	if !utf8.ValidString(s) {
		return errors.New("the text is not valid UTF-8")
	}
	if n := utf8.RuneCountInString(s); n > MaxText {
		return fmt.Errorf("a text of %d characters: texts have up to %d", n, MaxText)
	}
	for _, r := range s {
		if unsafeRune(r) {
			return fmt.Errorf("the text holds the control character %U: leave it out", r)
		}
	}
	return nil
}

func validateTexts(texts ...string) error {
	for _, text := range texts {
		if err := ValidateText(text); err != nil {
			return err
		}
	}
	return nil
}

// CleanText gives s without what ValidateText refuses and without characters that nobody can see, cut at MaxText
// characters and trimmed of blanks.
func CleanText(s string) string {
	s = strings.ToValidUTF8(s, "")
	s = strings.Map(func(r rune) rune {
		switch {
		case r == '\t' || r == '\n' || r == '\r':
			return ' '
		case unsafeRune(r) || hidden(r):
			return -1
		}
		return r
	}, s)
	if utf8.RuneCountInString(s) > MaxText {
		s = string([]rune(s)[:MaxText])
	}
	return strings.TrimSpace(s)
}

func unsafeRune(r rune) bool {
	return unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) || r == '\u2028' || r == '\u2029'
}

// hidden tells whether a character has no width and no part in writing any script, unlike the joiners of emoji and of
// Arabic and Indian scripts.
func hidden(r rune) bool {
	switch r {
	case '\u00ad', '\u200b', '\u2060', '\ufeff':
		return true
	}
	return r >= '\u206a' && r <= '\u206f' || r >= '\ufff9' && r <= '\ufffb'
}

// seenRune tells whether a character shows by itself.
func seenRune(r rune) bool {
	return unicode.In(r, unicode.L, unicode.N, unicode.P, unicode.S)
}

// NumberOf says a number of things whose name takes an s: "1 game", "2 games".
func NumberOf(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}
