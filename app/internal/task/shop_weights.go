package task

import (
	"slices"
	"strings"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// ReadLoadStep returns a spring tester that shows loads by this step; nothing typed leaves it unknown.
func (c *Counter) ReadLoadStep(g record.Gauge, text string) (record.Gauge, error) {
	q, err := c.bench.ReadLoad(text)
	if err != nil {
		return g, err
	}
	return withScale(g, func(l *record.LoadScale) { l.Step = q }), nil
}

// ReadWeights returns a spring tester with what it showed under dead weights: what was put on and what was shown, in
// pairs with a semicolon between them, "50 50.4; 100 100.6". They have to make a calibration. Weights that are typed
// for the first time were put on today. Nothing typed takes them away.
func (c *Counter) ReadWeights(g record.Gauge, text string) (record.Gauge, error) {
	if strings.TrimSpace(text) == "" {
		return withScale(g, func(l *record.LoadScale) { l.Weights = nil }), nil
	}
	w := record.Weights{Date: record.Date(c.Today()), By: c.bench.desk.Who}
	if g.LoadScale != nil && g.LoadScale.Weights != nil {
		w = *g.LoadScale.Weights
	}
	kept := w.Points
	w.Points = nil
	for _, pair := range pairsIn(text) {
		// What only shows again what was read before stays as it was typed then.
		if i := slices.IndexFunc(kept, func(p record.Weighing) bool { return c.weightTyped(p) == pair }); i >= 0 {
			w.Points = append(w.Points, kept[i])
			continue
		}
		words := strings.Fields(pair)
		if len(words) != 2 {
			return g, say.Fail(say.Invalid, "shop.weights-pair", pair)
		}
		on, err := c.bench.ReadLoad(words[0])
		if err != nil {
			return g, err
		}
		shown, err := c.bench.ReadLoad(words[1])
		if err != nil {
			return g, err
		}
		w.Points = append(w.Points, record.Weighing{Applied: *on, Shown: *shown})
	}
	if _, err := evaluate.Weighed(&w); err != nil {
		return g, err
	}
	return withScale(g, func(l *record.LoadScale) { l.Weights = &w }), nil
}

// WeightsOn returns a spring tester of which the weights were put on that day.
func (c *Counter) WeightsOn(g record.Gauge, text string) record.Gauge {
	return withScale(g, func(l *record.LoadScale) {
		if l.Weights != nil {
			w := *l.Weights
			w.Date = record.DateOf(text)
			l.Weights = &w
		}
	})
}

// withScale returns a gauge with its load scale changed; a scale of which nothing is left goes away.
func withScale(g record.Gauge, change func(*record.LoadScale)) record.Gauge {
	l := record.LoadScale{}
	if g.LoadScale != nil {
		l = *g.LoadScale
	}
	change(&l)
	g.LoadScale = &l
	if l == (record.LoadScale{}) {
		g.LoadScale = nil
	}
	return g
}

// WeightsTyped writes the weights of a tester as [Counter.ReadWeights] reads them.
func (c *Counter) WeightsTyped(g record.Gauge) string {
	if g.LoadScale == nil || g.LoadScale.Weights == nil {
		return ""
	}
	pairs := make([]string, len(g.LoadScale.Weights.Points))
	for i, p := range g.LoadScale.Weights.Points {
		pairs[i] = c.weightTyped(p)
	}
	return strings.Join(pairs, "; ")
}

func (c *Counter) weightTyped(p record.Weighing) string {
	return inPair(c.Units().Load, p.Applied) + " " + inPair(c.Units().Load, p.Shown)
}

// WeightGraph is what the curve through the weights of a tester leaves, for a drawing; false where there is none.
func (c *Counter) WeightGraph(g record.Gauge) (evaluate.WeightGraph, bool) {
	if g.LoadScale == nil {
		return evaluate.WeightGraph{}, false
	}
	return evaluate.WeightGraphOf(g.LoadScale.Weights, c.Units())
}

// WeightLines say what the weights of a tester come to: what is behind what it showed under each.
func (c *Counter) WeightLines(g record.Gauge) []say.Line {
	if g.LoadScale == nil || g.LoadScale.Weights == nil {
		return nil
	}
	return evaluate.WeightLines(g.LoadScale.Weights)
}
