package pdf

import (
	"bytes"
	"cmp"
	"compress/zlib"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"time"
)

// placeholderDate is handed to the library, which insists on dates; finish takes them out again.
var placeholderDate = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

var errUnexpectedFile = errors.New("the PDF library's file is not as this program knows it, so that print scaling can't be switched off in it")

func unexpected(what string) error { return fmt.Errorf("%w (%s)", errUnexpectedFile, what) }

// The library's file, as far as finish relies on it.
const (
	oldHeader = "%PDF-1.3\n"
	header    = "%PDF-1.7\n" // PrintScaling needs PDF 1.6
	catalog   = "<<\n/Type /Catalog\n"
	info      = "<<\n/Producer "
	noScaling = "/ViewerPreferences <</PrintScaling /None>>\n" // ISO 32000-1, 12.2, table 150
	dates     = "/CreationDate (D:20000101000000)\n/ModDate (D:20000101000000)\n>>\n"
	content   = "<</Length "
	trailer   = "trailer\n"
	start     = "\nstartxref\n"
	end       = "\n%%EOF\n"
)

// finish puts the library's file together anew, object by object. It adds what the library has no call for, the header
// of PDF 1.7 and in the catalog the wish that nobody scale the pages; takes the dates out; and compresses the pages,
// all with one compressor, where the library would make one of a megabyte for each. It fails if anything is not where
// it should be.
func finish(file []byte) ([]byte, error) {
	objects, tail, err := objectsOf(file)
	if err != nil {
		return nil, err
	}
	out := bytes.NewBuffer(make([]byte, 0, len(file)))
	out.WriteString(header)
	places := make([]int, len(objects)+1)
	var compressed bytes.Buffer
	compressor, err := zlib.NewWriterLevel(&compressed, zlib.BestSpeed)
	if err != nil {
		return nil, err
	}
	catalogs, infos := 0, 0
	for _, o := range objects {
		places[o.number] = out.Len()
		fmt.Fprintf(out, "%d 0 obj\n", o.number)
		body := o.body
		switch {
		case bytes.HasPrefix(body, []byte(catalog)):
			if bytes.Contains(body, []byte("/ViewerPreferences")) {
				return nil, unexpected("catalog")
			}
			catalogs++
			out.WriteString(catalog + noScaling)
			body = body[len(catalog):]
		case bytes.HasPrefix(body, []byte(info)):
			rest, ok := bytes.CutSuffix(body, []byte(dates+"endobj\n"))
			if !ok {
				return nil, unexpected("dates")
			}
			infos++
			out.Write(rest)
			body = []byte(">>\nendobj\n")
		default:
			stream, ok := plainStream(body)
			if !ok {
				break
			}
			compressed.Reset()
			compressor.Reset(&compressed)
			compressor.Write(stream) // a buffer takes everything
			if err := compressor.Close(); err != nil {
				return nil, err
			}
			fmt.Fprintf(out, "<</Filter /FlateDecode /Length %d>>\nstream\n", compressed.Len())
			out.Write(compressed.Bytes())
			body = []byte("\nendstream\nendobj\n")
		}
		out.Write(body)
	}
	if catalogs != 1 || infos != 1 {
		return nil, unexpected("catalog or information")
	}
	table := out.Len()
	fmt.Fprintf(out, "xref\n0 %d\n0000000000 65535 f \n", len(places))
	for _, at := range places[1:] {
		fmt.Fprintf(out, "%010d 00000 n \n", at)
	}
	out.Write(tail)
	out.WriteString(start + strconv.Itoa(table) + end)
	return out.Bytes(), nil
}

// An object is one of the file's, its body up to and with "endobj\n".
type object struct {
	number, at int
	body       []byte
}

// objectsOf takes the file apart into its objects, in the order of the file, and the trailer's dictionary.
func objectsOf(file []byte) (objects []object, tail []byte, err error) {
	if !bytes.HasPrefix(file, []byte(oldHeader)) || !bytes.HasSuffix(file, []byte(end)) {
		return nil, nil, unexpected("header or end")
	}
	startAt := bytes.LastIndex(file, []byte(start))
	if startAt < 0 {
		return nil, nil, unexpected("startxref")
	}
	table, err := strconv.Atoi(string(file[startAt+len(start) : len(file)-len(end)]))
	if err != nil || table < len(oldHeader) || table > startAt {
		return nil, nil, unexpected("startxref")
	}
	rows, tail, ok := bytes.Cut(file[table:startAt], []byte(trailer))
	lines := bytes.Split(bytes.TrimSuffix(rows, []byte("\n")), []byte("\n"))
	if !ok || len(lines) < 3 || string(lines[0]) != "xref" || string(lines[1]) != fmt.Sprintf("0 %d", len(lines)-2) {
		return nil, nil, unexpected("cross-reference table")
	}
	for i, line := range lines[3:] {
		at, err := strconv.Atoi(string(line[:min(10, len(line))]))
		if err != nil || !bytes.HasSuffix(line, []byte(" 00000 n ")) || at < len(oldHeader) || at >= table {
			return nil, nil, unexpected("cross-reference table")
		}
		objects = append(objects, object{number: i + 1, at: at})
	}
	slices.SortFunc(objects, func(a, b object) int { return cmp.Compare(a.at, b.at) })
	for i := range objects {
		o := &objects[i]
		next := table
		if i+1 < len(objects) {
			next = objects[i+1].at
		}
		body, ok := bytes.CutPrefix(file[o.at:next], fmt.Appendf(nil, "%d 0 obj\n", o.number))
		if !ok || !bytes.HasSuffix(body, []byte("endobj\n")) {
			return nil, nil, unexpected("objects")
		}
		o.body = body
	}
	if len(objects) == 0 || objects[0].at != len(oldHeader) {
		return nil, nil, unexpected("objects")
	}
	return objects, append([]byte(trailer), tail...), nil
}

// plainStream is the content of a stream object that is not compressed yet, as the pages' contents.
func plainStream(body []byte) ([]byte, bool) {
	const open, shut = ">>\nstream\n", "\nendstream\nendobj\n"
	dictionary, ok := bytes.CutPrefix(body, []byte(content))
	if !ok {
		return nil, false
	}
	length, rest, ok := bytes.Cut(dictionary, []byte(open))
	n, err := strconv.Atoi(string(length))
	if !ok || err != nil || n < 0 || len(rest) != n+len(shut) || string(rest[n:]) != shut {
		return nil, false
	}
	return rest[:n], true
}
