package assets

import (
	"embed"
	"io/fs"
)

//go:embed help/*.md help/*.png help/*/*.md help/*/*.png
var help embed.FS

// Help holds a page of Markdown for each word of the book and the drawings in them. README.md lists the pages in their order.
// The same pages in other languages than English stand in folders under their tags.
func Help() fs.FS {
	pages, err := fs.Sub(help, "help")
	if err != nil {
		panic(err) // the folder is embedded under this name
	}
	return pages
}
