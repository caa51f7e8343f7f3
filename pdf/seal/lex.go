package seal

import (
	"bytes"
	"encoding/hex"
	"strconv"
)

// lexer reads values out of a file. It knows what this program writes, and refuses the rest with errForeign.
type lexer struct {
	b     []byte
	at    int
	depth int
	// where the value of a key of the outermost dictionary lies: from its first byte to behind its last
	spans map[name][2]int
}

// MostBytes is how large a sheet may be; none of ours comes near.
const MostBytes = 32 << 20

const (
	deepest  = 24       // dictionaries and arrays in one another
	mostPart = 24 << 20 // of an attached record, unpacked
)

func white(c byte) bool { return c == 0 || c == 9 || c == 10 || c == 12 || c == 13 || c == 32 }

func delimiter(c byte) bool { return bytes.IndexByte([]byte("()<>[]{}/%"), c) >= 0 }

func (l *lexer) skip() {
	for l.at < len(l.b) {
		switch c := l.b[l.at]; {
		case white(c):
			l.at++
		case c == '%':
			for l.at < len(l.b) && l.b[l.at] != '\n' && l.b[l.at] != '\r' {
				l.at++
			}
		default:
			return
		}
	}
}

// word takes regular characters.
func (l *lexer) word() string {
	from := l.at
	for l.at < len(l.b) && !white(l.b[l.at]) && !delimiter(l.b[l.at]) {
		l.at++
	}
	return string(l.b[from:l.at])
}

// take takes a word that has to be there.
func (l *lexer) take(want string) error {
	l.skip()
	if !bytes.HasPrefix(l.b[l.at:], []byte(want)) {
		return errForeign
	}
	l.at += len(want)
	return nil
}

// integer takes a whole number that is not below nought.
func (l *lexer) integer() (int, error) {
	l.skip()
	w := l.word()
	n, err := strconv.Atoi(w)
	if err != nil || n < 0 || len(w) > 10 {
		return 0, errForeign
	}
	return n, nil
}

// value takes a value.
func (l *lexer) value() (any, error) {
	if l.depth++; l.depth > deepest {
		return nil, errForeign
	}
	defer func() { l.depth-- }()
	l.skip()
	if l.at >= len(l.b) {
		return nil, errForeign
	}
	switch c := l.b[l.at]; {
	case c == '/':
		l.at++
		return l.name()
	case c == '(':
		return l.literal()
	case bytes.HasPrefix(l.b[l.at:], []byte("<<")):
		return l.dict()
	case c == '<':
		return l.hex()
	case c == '[':
		l.at++
		var a array
		for {
			l.skip()
			if l.at < len(l.b) && l.b[l.at] == ']' {
				l.at++
				return a, nil
			}
			v, err := l.value()
			if err != nil {
				return nil, err
			}
			a = append(a, v)
		}
	}
	return l.plain()
}

// plain is a number, a reference or a word.
func (l *lexer) plain() (any, error) {
	w := l.word()
	switch w {
	case "true", "false":
		return w == "true", nil
	case "null":
		return nil, nil
	case "":
		return nil, errForeign
	}
	if _, err := strconv.ParseFloat(w, 64); err != nil {
		return nil, errForeign
	}
	// "12 0 R" is one value.
	if num, err := strconv.Atoi(w); err == nil && num >= 0 {
		before := l.at
		if gen, err := l.integer(); err == nil {
			l.skip()
			if l.word() == "R" {
				return ref{num, gen}, nil
			}
		}
		l.at = before
	}
	return number(w), nil
}

func (l *lexer) name() (name, error) {
	w := l.word()
	if !bytes.ContainsRune([]byte(w), '#') {
		return name(w), nil
	}
	var out []byte
	for i := 0; i < len(w); i++ {
		if w[i] != '#' {
			out = append(out, w[i])
			continue
		}
		if i+2 >= len(w) {
			return "", errForeign
		}
		c, err := hex.DecodeString(w[i+1 : i+3])
		if err != nil {
			return "", errForeign
		}
		out, i = append(out, c[0]), i+2
	}
	return name(out), nil
}

func (l *lexer) hex() (text, error) {
	end := bytes.IndexByte(l.b[l.at:], '>')
	if end < 0 {
		return nil, errForeign
	}
	digits := l.b[l.at+1 : l.at+end]
	if len(digits)%2 != 0 {
		return nil, errForeign
	}
	out := make(text, len(digits)/2)
	if _, err := hex.Decode(out, digits); err != nil {
		return nil, errForeign
	}
	l.at += end + 1
	return out, nil
}

// literal is a string in brackets.
func (l *lexer) literal() (text, error) {
	l.at++
	out, open := text{}, 1
	for l.at < len(l.b) {
		c := l.b[l.at]
		l.at++
		switch c {
		case '(':
			open++
		case ')':
			if open--; open == 0 {
				return out, nil
			}
		case '\\':
			if l.at >= len(l.b) {
				return nil, errForeign
			}
			c = l.b[l.at]
			l.at++
			switch c {
			case 'n':
				c = '\n'
			case 'r':
				c = '\r'
			case 't':
				c = '\t'
			case 'b':
				c = '\b'
			case 'f':
				c = '\f'
			case '(', ')', '\\':
			default: // octal codes and broken lines are none of ours
				return nil, errForeign
			}
		}
		out = append(out, c)
	}
	return nil, errForeign
}

func (l *lexer) dict() (dict, error) {
	outer := l.depth == 1
	l.at += 2
	d := dict{}
	for {
		l.skip()
		if bytes.HasPrefix(l.b[l.at:], []byte(">>")) {
			l.at += 2
			return d, nil
		}
		if l.at >= len(l.b) || l.b[l.at] != '/' {
			return nil, errForeign
		}
		l.at++
		key, err := l.name()
		if err != nil {
			return nil, err
		}
		if _, twice := d[key]; twice {
			return nil, errForeign
		}
		l.skip()
		from := l.at
		v, err := l.value()
		if err != nil {
			return nil, err
		}
		d[key] = v
		if outer && l.spans != nil {
			l.spans[key] = [2]int{from, l.at}
		}
	}
}
