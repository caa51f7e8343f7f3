package task

import (
	"bytes"
	"slices"
	"strconv"
	"strings"

	"keeperbook/app/internal/files"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/pdf"
)

// LabelAsk is what labels are asked for.
type LabelAsk struct {
	Tags []string // of single springs; none is all
	Grid string   // how the sheet is cut, columns by rows
	From int      // the place of the first label on its sheet, counted from 1
}

// Grids name the cuts of label sheets, the first one usual.
func Grids() (names []string) {
	for _, g := range pdf.LabelGrids {
		names = append(names, g.Name)
	}
	return names
}

// Cut is how the sheet is cut. It fails (say.Invalid) with a grid or a place that there is not.
func (ask LabelAsk) Cut() (pdf.LabelGrid, error) {
	at := slices.IndexFunc(pdf.LabelGrids, func(g pdf.LabelGrid) bool { return strings.EqualFold(g.Name, strings.TrimSpace(ask.Grid)) })
	if at < 0 {
		return pdf.LabelGrid{}, say.Fail(say.Invalid, "labels.grid", ask.Grid, strings.Join(Grids(), ", "))
	}
	g := pdf.LabelGrids[at]
	if most := g.Columns * g.Rows; ask.From < 1 || ask.From > most {
		return g, say.Fail(say.Invalid, "labels.from", ask.From, g.Name, most)
	}
	return g, nil
}

// Labels are labels for the bags of single springs as a PDF: tag, type, bind heights and loads without what stood in the tester,
// and the tag as a code for a scanner. It fails (say.NotFound) with a tag that the book does not have, and (say.Invalid) with a
// grid or a place that there is not.
func (c *Counter) Labels(ask LabelAsk) ([]byte, error) {
	g, err := ask.Cut()
	if err != nil {
		return nil, err
	}
	pieces := c.Parts().Pieces
	if len(ask.Tags) > 0 {
		pieces = nil
		for _, tag := range ask.Tags {
			i := slices.IndexFunc(c.Parts().Pieces, func(p record.SpringPiece) bool { return p.Tag == tag })
			if i < 0 {
				return nil, say.Fail(say.NotFound, "labels.tag", tag)
			}
			pieces = append(pieces, c.Parts().Pieces[i])
		}
	}
	if len(pieces) == 0 {
		return nil, say.Fail(say.NotFound, "labels.none")
	}
	l := pdf.Labels{Grid: g, From: ask.From, Made: c.bench.desk.Clock(), Words: c.Words()}
	for _, p := range pieces {
		l.All = append(l.All, c.label(p))
	}
	var b bytes.Buffer
	err = pdf.WriteLabels(&b, l)
	return b.Bytes(), err
}

// label is that of one spring.
func (c *Counter) label(p record.SpringPiece) pdf.Label {
	words := c.Words()
	text := func(key string, args ...any) string { return words.Line(say.New(key, args...)) }
	l := pdf.Label{Tag: p.Tag, Code: "keeperbook:spring:" + p.Tag}
	put := func(rank int, key string, args ...any) {
		l.Lines = append(l.Lines, pdf.LabelLine{Text: text(key, args...), Rank: rank})
	}
	of := c.PieceType(p)
	if binds := bindsOf(of); len(binds) > 0 {
		put(0, "labels.bind", binds)
	} else if binds := bindsOf(c.SpringOf(p.Spring)); len(binds) > 0 {
		put(0, "labels.bind-type", binds)
	}
	day := say.Day("")
	for _, t := range p.Loads {
		points := evaluate.TestedPoints(c.bench.rec, &t.Loads)
		for i, at := range points {
			key := "labels.load"
			if t.Coil > 0 && len(of.Coils) > 1 {
				key = "labels.load-of"
			}
			rank := 4
			switch i { // the load on the seat and the one nearest to open matter most
			case 0:
				rank = 1
			case len(points) - 1:
				rank = 3
			}
			load := say.New(key, at.Height, at.Load, string(c.Units().Load), t.Coil)
			if t.Loads.Source != record.Measured {
				load = say.New("labels.not-measured", load, say.New("labels."+string(t.Loads.Source)))
			}
			put(rank, load.Key, load.Args...)
		}
		day = max(day, t.Loads.At.Day())
	}
	var state []say.Line
	if p.Condition != "" {
		state = append(state, say.New("condition."+string(p.Condition)))
	}
	if p.Batch != "" {
		state = append(state, say.New("expr.one", p.Batch))
	}
	if len(state) > 0 {
		put(2, "expr.one", state)
	}
	put(5, "expr.one", of.Name)
	if day != "" {
		put(2, "labels.tested", day)
	}
	return l
}

// bindsOf are the bind heights of a spring that are known, coil by coil.
func bindsOf(s record.Spring) (binds []say.Line) {
	for i, bind := range TypeBinds(s) {
		switch {
		case !bind.Known:
			continue
		case len(s.Coils) == 1:
			binds = append(binds, say.New("expr.one", bind.Value))
		default:
			binds = append(binds, say.New("labels.of-coil", CoilLine(s.Coils[i].Name), bind.Value))
		}
		if b := s.Coils[i].Bind; b != nil && b.Source != record.Measured {
			last := len(binds) - 1
			binds[last] = say.New("labels.not-measured", binds[last], say.New("labels."+string(b.Source)))
		}
	}
	return binds
}

// ReadFrom reads the place of the first label; nothing typed is the first.
func ReadFrom(text string) int {
	if strings.TrimSpace(text) == "" {
		return 1
	}
	n, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil {
		return 0 // which no sheet has
	}
	return n
}

// LabelPath is where labels go where nobody says otherwise: beside the book, named after it.
func (c *Counter) LabelPath() string {
	return strings.TrimSuffix(c.bench.desk.Path(), BookEnding) + "-labels.pdf"
}

// SaveLabels writes labels on the terms of [Bench.Save], and returns the whole path.
func (c *Counter) SaveLabels(ask LabelAsk, path string, replace bool) (string, error) {
	path, err := files.Place(path, c.LabelPath(), replace)
	if err != nil {
		return path, err
	}
	data, err := c.Labels(ask)
	if err != nil {
		return path, err
	}
	return path, files.Write(path, data)
}
