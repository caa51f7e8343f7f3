package task

import (
	"bytes"
	"context"

	"keeperbook/model/exchange"
	"keeperbook/model/say"
	"keeperbook/pdf"
	"keeperbook/store"
)

// Sheet builds the set-up sheet as a PDF, in the chosen language. That of a set-up that was signed is the signed one, unchanged, on the paper that it
// was signed on.
func Sheet(ctx context.Context, book *store.Book, setup string, paper pdf.Paper) ([]byte, error) {
	if s, err := book.Sheet(ctx, setup); err != nil || s != nil {
		if err != nil {
			return nil, err
		}
		return s.File, nil
	}
	w, err := Work(ctx, book, setup)
	if err != nil {
		return nil, err
	}
	sheet, err := sheetOf(w, paper, say.Chosen().Language)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = pdf.Write(&b, sheet)
	return b.Bytes(), err
}

// Form builds the blank form of a set-up's head in the chosen language, its valves in the order they lie on the bench.
func Form(ctx context.Context, book *store.Book, setup string, paper pdf.Paper) ([]byte, error) {
	rec, _, err := recordOf(ctx, book, setup)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = pdf.WriteForm(&b, formOf(rec, paper, say.Chosen().Language))
	return b.Bytes(), err
}

// Export builds the exported record of a set-up; of one that was signed it is what rides in its sheet.
func Export(ctx context.Context, book *store.Book, setup string) ([]byte, error) {
	if k, err := keptOf(ctx, book, setup); err != nil || k != nil {
		if err != nil {
			return nil, err
		}
		return k.report.Record, nil
	}
	w, err := Work(ctx, book, setup)
	if err != nil {
		return nil, err
	}
	return exchange.Export(w.Record, w.Figures)
}
