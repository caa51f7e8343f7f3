//go:build !cgo

package main

import "keeperbook/app/internal/wire"

// window returns nothing: a program that was built without cgo has no window, whose drivers need it.
func window() wire.Window { return nil }
