package evaluate

import (
	"slices"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// The lines of the working, as a machinist would write them: "installed height = 1.842 − .030 = 1.812".

func is(name say.Line, expr say.Line, value any) say.Line {
	return say.New("work.is", name, expr, value)
}

// minus writes "a − b − c", leaving out what is nought; plus the same with a sum. With nothing left to
// write it is the number alone.
func minus(a any, parts ...any) say.Line { return chain("expr.minus", a, parts) }
func plus(a any, parts ...any) say.Line  { return chain("expr.plus", a, parts) }

func chain(key string, a any, parts []any) say.Line {
	line := say.New("expr.one", a)
	for _, p := range parts {
		if l, ok := p.(unit.Length); ok && l == 0 {
			continue
		}
		line = say.New(key, line, p)
	}
	return line
}

// name of a quantity, with the coil it belongs to where the spring has several.
func name(key string) say.Line { return say.New("name." + key) }

func ofCoil(key string, c *Coil, several bool) say.Line {
	if !several {
		return name(key)
	}
	return say.New("name.of", name(key), coilName(c.Name))
}

// coilName translates the usual names and leaves a shop's own word as it is.
func coilName(n string) say.Line { return coilWord("coil.", n) }

// CoilShort is the name of a coil for a narrow cell, without the word coil: usual names are translated.
func CoilShort(n string) say.Line { return coilWord("coil-short.", n) }

func coilWord(prefix, n string) say.Line {
	switch n {
	case "outer", "inner", "middle", "damper", "assembly":
		return say.New(prefix + n)
	}
	return say.New("expr.one", n)
}

// KindName is the name of what a reading is of.
func KindName(k record.Kind) say.Line { return say.New("kind." + string(k)) }

// known returns a figure whose working is one line. The line is written when somebody asks for it: a
// head has thousands of lines and a reader looks at a few.
func known(value unit.Length, mark Mark, write func() say.Line) Figure {
	return Figure{Known: true, Value: value, Mark: mark, write: func() []say.Line { return []say.Line{write()} }}
}

// also returns the figure with one more line of working.
func (f Figure) also(write func() say.Line) Figure {
	before := f.write
	f.write = func() []say.Line {
		if before == nil {
			return []say.Line{write()}
		}
		return append(before(), write())
	}
	return f
}

// after returns the figure with the working of others before its own.
func (f Figure) after(others ...Figure) Figure {
	own := f.write
	f.write = func() []say.Line {
		var lines []say.Line
		for _, o := range others {
			lines = append(lines, o.Working()...)
		}
		return append(lines, own()...)
	}
	return f
}

// Working returns the lines of how the figure came about, as a machinist would write them. They are
// written from the record that was evaluated: after a change, evaluate again.
func (f Figure) Working() []say.Line {
	if f.write == nil {
		return nil
	}
	return slices.DeleteFunc(f.write(), say.Line.Zero)
}
