// Package assets holds the files that travel inside the program. It imports nothing of the
// program's own, so that every room may use it.
package assets

import _ "embed"

// Icon is the program's mark as a PNG of 512 by 512 pixels: two valve locks on a stem, in greys. It
// is drawn from icon.svg.
//
//go:embed icon.png
var Icon []byte
