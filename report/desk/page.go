package desk

import (
	"embed"
	"io/fs"
	"path"

	"swardwright/report/face"
)

//go:embed page
var embedded embed.FS

// Asset is one file of the page.
type Asset struct {
	Type string
	Data []byte
}

// Assets are the files of the page by their path, the faces of the paper among them.
func Assets() map[string]Asset {
	types := map[string]string{
		"html": "text/html; charset=utf-8", "css": "text/css; charset=utf-8", "js": "text/javascript; charset=utf-8", "svg": "image/svg+xml",
	}
	out := map[string]Asset{
		"regular.ttf": {"font/ttf", face.TTF(face.Regular)},
		"bold.ttf":    {"font/ttf", face.TTF(face.Bold)},
	}
	names, err := fs.Glob(embedded, "page/*.*")
	if err != nil {
		panic(err) // the pattern is sound
	}
	for _, name := range names {
		data, err := embedded.ReadFile(name)
		if err != nil {
			panic(err) // it was listed
		}
		name = path.Base(name)
		out[name] = Asset{types[path.Ext(name)[1:]], data}
	}
	return out
}
