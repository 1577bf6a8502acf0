package model

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Fold gives a text as it is looked for: in lower case, Latin letters without their marks, and every other letter as it
// is but for the accents of Greek and the dots of ё.
func Fold(text string) string {
	var b strings.Builder
	b.Grow(len(text))
	for _, r := range text {
		r = unicode.ToLower(r)
		if r < utf8.RuneSelf {
			b.WriteByte(byte(r))
			continue
		}
		switch plain, marked := unmarked[r]; {
		case marked:
			b.WriteString(plain)
		case !combining(r):
			b.WriteRune(r)
		}
	}
	return b.String()
}

// combining tells whether a rune is a mark on the letter before it, as some systems write them apart.
func combining(r rune) bool { return r >= 0x300 && r <= 0x36f }

// unmarked holds the lower-case letters of the Unicode blocks Latin-1 to Latin Extended-B and Latin Extended Additional that
// decompose into a plain one with marks, and some that are written with plain ones where the keys have no others (ß, ø).
var unmarked = unmarkedLetters(map[string]string{
	"a": "àáâãäåāăąǎǟǡǻȁȃȧḁạảấầẩẫậắằẳẵặ", "b": "ḃḅḇ", "c": "çćĉċčḉ", "d": "ďḋḍḏḑḓđð",
	"e": "èéêëēĕėęěȅȇȩḕḗḙḛḝẹẻẽếềểễệə", "f": "ḟ", "g": "ĝğġģǧǵḡ", "h": "ĥȟḣḥḧḩḫẖħ", "i": "ìíîïĩīĭįǐȉȋḭḯỉịı",
	"j": "ĵǰ", "k": "ķǩḱḳḵ", "l": "ĺļľḷḹḻḽł", "m": "ḿṁṃ", "n": "ñńņňǹṅṇṉṋŋ",
	"o": "òóôõöōŏőơǒǫǭȍȏȫȭȯȱṍṏṑṓọỏốồổỗộớờởỡợøǿ", "p": "ṕṗ", "r": "ŕŗřȑȓṙṛṝṟ", "s": "śŝşšșṡṣṥṧṩſ",
	"t": "ţťțṫṭṯṱẗŧ", "u": "ùúûüũūŭůűųưǔǖǘǚǜȕȗṳṵṷṹṻụủứừửữự", "v": "ṽṿ", "w": "ŵẁẃẅẇẉẘ", "x": "ẋẍ",
	"y": "ýÿŷȳẏẙỳỵỷỹ", "z": "źżžẑẓẕ", "ae": "æǣǽ", "oe": "œ", "ss": "ß", "th": "þ", "α": "ά", "ε": "έ",
	"η": "ή", "ι": "ΐίϊ", "ο": "ό", "υ": "ΰϋύ", "ω": "ώ", "σ": "ς", "е": "ё",
})

func unmarkedLetters(marked map[string]string) map[rune]string {
	out := map[rune]string{}
	for plain, letters := range marked {
		for _, r := range letters {
			out[r] = plain
		}
	}
	return out
}
