package mesh

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"encoding/xml"
	"io"
	"strconv"
	"time"
)

// The parts of a package that are the same in all (3MF Core Specification
// 1.3, chapter 2; Open Packaging Conventions, ECMA-376 part 2).
const (
	contentTypes = xml.Header + `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">` +
		`<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
		`<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>` + "\n"
	relationships = xml.Header + `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">` +
		`<Relationship Id="rel0" Target="/3D/3dmodel.model" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>` + "\n"
)

// ThreeMF writes a solid as a 3MF package, in millimetres. The one item that
// is to be built is moved so that all its coordinates are above 0, as the
// specification wants it; the object itself keeps its frame.
func (s *Solid) ThreeMF(title string) []byte {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	z.RegisterCompressor(zip.Deflate, func(w io.Writer) (io.WriteCloser, error) { return flate.NewWriter(w, flate.BestSpeed) })
	for _, part := range []struct {
		name string
		data []byte
	}{
		{"[Content_Types].xml", []byte(contentTypes)},
		{"_rels/.rels", []byte(relationships)},
		{"3D/3dmodel.model", s.model(title)},
	} {
		w, err := z.CreateHeader(&zip.FileHeader{
			Name: part.name, Method: zip.Deflate,
			Modified: time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC), // the first that the format has
		})
		mustWrite(w, part.data, err)
	}
	if err := z.Close(); err != nil {
		panic("mesh: " + err.Error())
	}
	return out.Bytes()
}

// mustWrite writes into a buffer in memory, which takes everything.
func mustWrite(w io.Writer, data []byte, err error) {
	if err == nil {
		_, err = w.Write(data)
	}
	if err != nil {
		panic("mesh: " + err.Error())
	}
}

// model is the part with the mesh.
func (s *Solid) model(title string) []byte {
	b := make([]byte, 0, 64*(len(s.Points)+len(s.Facets))+2000)
	text := func(t string) {
		var e bytes.Buffer
		mustWrite(&e, nil, xml.EscapeText(&e, []byte(t)))
		b = append(b, e.Bytes()...)
	}
	number := func(name string, v float64) {
		b = append(b, ' ')
		b = append(b, name...)
		b = append(b, '=', '"')
		b = appendMillimetres(b, v)
		b = append(b, '"')
	}
	b = append(b, xml.Header...)
	b = append(b, `<model unit="millimeter" xml:lang="en-US" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">`+"\n"+`<metadata name="Title">`...)
	text(title)
	b = append(b, "</metadata>\n<resources>\n"+`<object id="1" type="model" name="`...)
	text(s.Name)
	b = append(b, "\">\n<mesh>\n<vertices>\n"...)
	for _, p := range s.Points {
		b = append(b, "<vertex"...)
		number("x", p[0])
		number("y", p[1])
		number("z", p[2])
		b = append(b, "/>\n"...)
	}
	b = append(b, "</vertices>\n<triangles>\n"...)
	for _, f := range s.Facets {
		b = append(b, `<triangle v1="`...)
		b = strconv.AppendInt(b, int64(f[0]), 10)
		b = append(b, `" v2="`...)
		b = strconv.AppendInt(b, int64(f[1]), 10)
		b = append(b, `" v3="`...)
		b = strconv.AppendInt(b, int64(f[2]), 10)
		b = append(b, "\"/>\n"...)
	}
	b = append(b, "</triangles>\n</mesh>\n</object>\n</resources>\n<build>\n"+`<item objectid="1" transform="1 0 0 0 1 0 0 0 1`...)
	low, _ := s.Box()
	for _, v := range low {
		b = append(b, ' ')
		b = appendMillimetres(b, 0-v)
	}
	return append(b, "\"/>\n</build>\n</model>\n"...)
}

// appendMillimetres writes a coordinate as short as it is exact.
func appendMillimetres(b []byte, v float64) []byte {
	return strconv.AppendFloat(b, v, 'f', -1, 64)
}
