package tui

import (
	"bytes"
	"regexp"
	"time"
)

// What is read and what silence means.
//
// The runtime takes each read for complete. So a sequence that is split over two reads, or that comes while nobody
// asked, would be read as keys and become calls. The scanner below takes bytes as they come and gives them back
// only where one read may end.
const (
	// shortWait is how long the rest of a sequence may take that a hand could have begun too: Esc, Alt+[, Alt+O.
	shortWait = 40 * time.Millisecond
	// longWait is for what no hand begins: a sequence with parameters, a terminal's answer, a paste.
	longWait = time.Second

	heldLimit  = 64      // bytes; longer than any key or mouse report
	pasteLimit = 1 << 16 // bytes; the runtime searches a paste from its start again at each read
	burstFrom  = 4       // runes that come in one read and may be a paste without brackets
	typedLimit = 64      // bytes; a longer burst was not typed, and its next piece may take shortWait
)

const (
	esc        = 0x1b
	pasteStart = "\x1b[200~"
	pasteEnd   = "\x1b[201~"
	// burstMark is the first rune of a burst, which travels as a paste so that it stays one message. It cannot
	// be the first rune of a real paste, because the scanner takes it out of those.
	burstMark = 0
)

type inputState int

const (
	plainInput   inputState = iota
	inRune                  // a UTF-8 rune, need bytes are missing
	afterEsc                // Esc, or Esc Esc
	inFunction              // Esc O, a function key
	inControl               // Esc [ without parameters so far
	inParameters            // Esc [ with parameters
	inReport                // an X10 mouse report or a console function key, need bytes are missing
	inString                // Esc ] and the like: a terminal's answer, or typed
	stringEsc               // such a string and Esc, which ends it if \ follows
	inPaste
)

// scanner cuts input where a read may end. It drops answers of the terminal and what is left of a broken sequence,
// and frames a burst of burstFrom and more plain runes as a paste that begins with burstMark.
type scanner struct {
	state    inputState
	held     []byte // the sequence so far, at most heldLimit bytes
	cut      bool   // held is not all of it
	need     int
	run      []byte // plain runes of a burst that is none yet
	runes    int    // in run
	bursting bool   // a burst is open
	carried  int    // bytes of the open burst or paste
	matched  int    // bytes of pasteEnd just seen in a paste
	out      []byte
}

// feed takes bytes and returns what can be handed on, which is valid until the next call of feed or silence.
func (s *scanner) feed(bytes []byte) []byte {
	s.out = s.out[:0]
	for _, c := range bytes {
		s.step(c)
	}
	if s.state == plainInput && !s.bursting {
		s.endRun()
	}
	return s.out
}

// patience says how long to wait for more before what was fed is taken for all there is. If open is false, nothing
// waits for more.
func (s *scanner) patience() (wait time.Duration, open bool) {
	switch s.state {
	case plainInput:
		if s.bursting && s.carried > typedLimit {
			return shortWait, true
		}
		return 0, s.bursting
	case inParameters, inReport, inPaste:
		return longWait, true
	case inString, stringEsc:
		if s.answers() {
			return longWait, true
		}
	}
	return shortWait, true
}

// spans says that a paste or a burst is open, which may go on in the next read: the runtime waits for its end.
func (s *scanner) spans() bool {
	return s.state == inPaste || s.state == plainInput && s.bursting
}

// silence ends whatever is open, because no more came, and returns what that adds.
func (s *scanner) silence() []byte {
	s.out = s.out[:0]
	switch s.state {
	case inPaste:
		s.out = append(s.out, pasteEnd...)
		s.state = plainInput
	case inParameters, inReport:
		s.drop()
	case inString:
		s.endString()
	case stringEsc:
		s.endString()
		s.open(afterEsc, esc)
		s.emit()
	default:
		s.emit()
	}
	s.endRun()
	return s.out
}

func (s *scanner) step(c byte) {
	switch s.state {
	case plainInput:
		s.begin(c)
	case inRune:
		s.stepRune(c)
	case afterEsc:
		s.stepEsc(c)
	case inFunction:
		if c < ' ' || c > '~' {
			s.interrupt(c)
			return
		}
		s.finish(c)
	case inControl, inParameters:
		s.stepControl(c)
	case inReport:
		if s.need--; s.need == 0 {
			s.finish(c)
			return
		}
		s.hold(c)
	case inString, stringEsc:
		s.stepString(c)
	case inPaste:
		s.stepPaste(c)
	}
}

// begin takes a byte outside of any sequence.
func (s *scanner) begin(c byte) {
	switch {
	case c == esc:
		s.open(afterEsc, c)
	case runeLength(c) > 1:
		s.open(inRune, c)
		s.need = runeLength(c) - 1
	case plain(c):
		s.addRune(c)
	default:
		s.endRun()
		s.out = append(s.out, c)
	}
}

func (s *scanner) stepRune(c byte) {
	if c&0xc0 != 0x80 {
		s.interrupt(c)
		return
	}
	s.hold(c)
	if s.need--; s.need > 0 {
		return
	}
	if s.held[0] == esc {
		s.emit()
		return
	}
	s.addRune(s.held...)
	s.drop()
}

func (s *scanner) stepEsc(c byte) {
	switch c {
	case '[':
		s.open(inControl, append(s.held, c)...)
	case 'O':
		s.open(inFunction, append(s.held, c)...)
	case ']', 'P', 'X', '^', '_':
		s.lastEsc()
		s.open(inString, esc, c)
	case esc:
		s.lastEsc()
		s.open(afterEsc, esc, esc)
	default:
		if n := runeLength(c); n > 1 {
			s.open(inRune, append(s.held, c)...)
			s.need = n - 1
			return
		}
		s.finish(c)
	}
}

// lastEsc hands on the first of two Escs, so that the second alone begins something.
func (s *scanner) lastEsc() {
	if len(s.held) == 2 {
		s.held = s.held[:1]
		s.emit()
	}
}

// stepControl follows ECMA-48, 5.4: parameters 30 to 3F, intermediates 20 to 2F, a final byte 40 to 7E.
func (s *scanner) stepControl(c byte) {
	switch {
	case s.state == inControl && c == 'M': // X10 mouse: button, column and row follow, as any bytes
		s.hold(c)
		s.state, s.need = inReport, 3
	case s.state == inControl && c == '[': // the Linux console's F1 to F5
		s.hold(c)
		s.state, s.need = inReport, 1
	case c >= '@' && c <= '~':
		paste := bytes.HasSuffix(append(s.held, c), []byte(pasteStart))
		s.finish(c)
		if paste {
			s.state, s.carried, s.matched = inPaste, 0, 0
		}
	case c >= ' ' && c <= '?':
		s.hold(c)
		s.state = inParameters
	case s.state == inControl:
		s.interrupt(c)
	default: // broken: its parameters would be read as keys
		s.drop()
		s.begin(c)
	}
}

func (s *scanner) stepString(c byte) {
	switch {
	case s.state == stringEsc && c == '\\', c == '\a':
		s.drop()
	case s.state == stringEsc:
		s.endString()
		s.open(afterEsc, esc)
		s.stepEsc(c)
	case c == esc:
		s.state = stringEsc
	case c < ' ':
		s.endString()
		s.begin(c)
	default:
		s.hold(c)
	}
}

// endString ends a string that has no end of its own: the rest of an answer is dropped, all else was typed.
func (s *scanner) endString() {
	if s.answers() {
		s.drop()
		return
	}
	s.emit()
}

// answer is how terminals begin what they report: colours and titles, settings, names, pictures.
var answer = regexp.MustCompile(`^\x1b(\][0-9]+;|\][Ll]|P[0-9]*[$+!>]|_G)`)

func (s *scanner) answers() bool {
	return s.cut || answer.Match(s.held)
}

// stepPaste hands a paste on up to pasteLimit, and always its end.
func (s *scanner) stepPaste(c byte) {
	if c == pasteEnd[s.matched] {
		if s.matched++; s.matched == len(pasteEnd) {
			s.out = append(s.out, pasteEnd...)
			s.state = plainInput
		}
		return
	}
	content := append([]byte(pasteEnd[:s.matched]), c)
	s.matched = 0
	if c == esc {
		content, s.matched = content[:len(content)-1], 1
	}
	for _, b := range content {
		if s.carried++; s.carried <= pasteLimit && b != burstMark {
			s.out = append(s.out, b)
		}
	}
}

// addRune adds a plain rune to the run. The burst opens at its burstFrom-th rune.
func (s *scanner) addRune(r ...byte) {
	if s.bursting {
		s.out = append(s.out, r...)
		if s.carried += len(r); s.carried >= pasteLimit {
			s.endRun()
		}
		return
	}
	s.run = append(s.run, r...)
	if s.runes++; s.runes == burstFrom {
		s.out = append(s.out, pasteStart...)
		s.out = append(s.out, burstMark)
		s.out = append(s.out, s.run...)
		s.bursting, s.carried = true, len(s.run)
		s.run, s.runes = s.run[:0], 0
	}
}

func (s *scanner) endRun() {
	if s.bursting {
		s.out = append(s.out, pasteEnd...)
	}
	s.out = append(s.out, s.run...)
	s.run, s.runes, s.bursting = s.run[:0], 0, false
}

// open begins a sequence. A rune does not end a run; everything else does.
func (s *scanner) open(state inputState, held ...byte) {
	if state != inRune || held[0] == esc {
		s.endRun()
	}
	s.held = append(s.held[:0], held...)
	s.state, s.cut = state, false
}

func (s *scanner) hold(c byte) {
	if len(s.held) == heldLimit {
		s.cut = true
		return
	}
	s.held = append(s.held, c)
}

// finish hands on the sequence that c completes.
func (s *scanner) finish(c byte) {
	s.hold(c)
	if s.cut {
		s.drop()
		return
	}
	s.emit()
}

// interrupt hands on an unfinished sequence as it is, because c cannot belong to it.
func (s *scanner) interrupt(c byte) {
	s.emit()
	s.begin(c)
}

func (s *scanner) emit() {
	if len(s.held) > 0 {
		s.endRun()
		s.out = append(s.out, s.held...)
	}
	s.drop()
}

func (s *scanner) drop() {
	s.held, s.cut, s.state = s.held[:0], false, plainInput
}

// plain says whether a byte may be part of a burst: text, and the keys that pasted text holds.
func plain(c byte) bool {
	return c >= ' ' && c <= 0x7f || c == '\t' || c == '\n' || c == '\r' || c == '\b'
}

// runeLength is the number of bytes of the UTF-8 rune that c begins; 0 if it begins none.
func runeLength(c byte) int {
	switch {
	case c < 0x80:
		return 1
	case c >= 0xc2 && c <= 0xdf:
		return 2
	case c >= 0xe0 && c <= 0xef:
		return 3
	case c >= 0xf0 && c <= 0xf4:
		return 4
	}
	return 0
}
