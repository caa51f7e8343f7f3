package face_test

import (
	"testing"

	"keeperbook/pdf/face"
)

// TestTheSignsOfTheTradeAreThere in both weights, with digits of one width so that columns line up.
func TestTheSignsOfTheTradeAreThere(t *testing.T) {
	for _, r := range "″′µ±≥≤Δ−×→⟵✓⚠⌀☐□…·°" {
		if !face.Has(r) {
			t.Errorf("no picture of %c", r)
		}
	}
	for _, r := range []rune{'🏁', '日', -1, 0x110000} {
		if face.Has(r) {
			t.Errorf("a picture of %U that the font lacks", r)
		}
	}
	regular, bold := face.Regular(10), face.Bold(10)
	for _, digit := range "0123456789" {
		if regular.Width(string(digit)) != regular.Width("0") || bold.Width(string(digit)) != bold.Width("0") {
			t.Errorf("%c is not as wide as 0", digit)
		}
	}
}

// TestCopiesAreCopies: a writer that cuts the font cannot spoil the next.
func TestCopiesAreCopies(t *testing.T) {
	a := face.RegularTTF()
	a[0]++
	if face.RegularTTF()[0] == a[0] || len(face.BoldTTF()) == 0 {
		t.Error("the font files are shared")
	}
}
