package signers

import "keeperbook/app/internal/kit"

// Begin, Keep and Pad are the drawing of a signature.
func (v *View) Begin()           { v.beginDrawing() }
func (v *View) Keep()            { v.keepDrawing() }
func (v *View) Pad() *kit.InkPad { return v.pad }
