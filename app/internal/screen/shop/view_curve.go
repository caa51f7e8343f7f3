package shop

import "keeperbook/pdf/figure"

// drawCurve draws the load curve of the spring that is open, or what the weights of the tester leave, where there is
// one, and returns its title; "" where there is none. Shown is whether anything of what is open may be seen yet.
func (v *View) drawCurve(shown bool) string {
	words := v.presenter.counter.Words()
	if g, ok := v.presenter.Graph(); ok && shown {
		v.curve.Set(figure.NewLoadCurve(g, words), words.Line(g.Of))
		v.curve.Show()
		return v.presenter.say("shop.curve")
	}
	if g, ok := v.presenter.Residuals(); ok && shown {
		v.curve.Set(figure.NewResiduals(g, words), v.presenter.Title())
		v.curve.Show()
		return v.presenter.say("shop.residuals")
	}
	v.curve.Hide()
	return ""
}
