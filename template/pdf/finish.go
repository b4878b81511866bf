package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"
	"time"
)

// someDay is handed to the library, which insists on dates; finish takes them out again.
var someDay = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

var errUnlike = errors.New("the PDF library's file is not as this program knows it, so that print scaling can't be switched off in it")

// finish adds to the library's file what the library has no call for: the header of PDF 1.7, and in the catalog the
// wish that nobody scale the pages (ISO 32000-1, 12.2, table 150; PrintScaling needs PDF 1.6). It takes the dates out.
// The catalog is the last object, so only the place of the cross-reference table moves. It fails if anything is not
// where it should be.
func finish(file []byte) ([]byte, error) {
	const (
		header  = "%PDF-1.3\n"
		catalog = "\n<<\n/Type /Catalog\n"
		wish    = "/ViewerPreferences <</PrintScaling /None>>\n"
		table   = "\nendobj\nxref\n"
		start   = "\nstartxref\n"
		end     = "\n%%EOF\n"
	)
	if !bytes.HasPrefix(file, []byte(header)) || !bytes.HasSuffix(file, []byte(end)) {
		return nil, fmt.Errorf("%w (header or end)", errUnlike)
	}
	tableAt := bytes.LastIndex(file, []byte(table))
	startAt := bytes.LastIndex(file, []byte(start))
	if tableAt < 0 || startAt < tableAt {
		return nil, fmt.Errorf("%w (cross-reference table)", errUnlike)
	}
	catalogAt := bytes.LastIndex(file[:tableAt], []byte(catalog))
	if catalogAt < 0 || bytes.Contains(file[catalogAt:tableAt], []byte("endobj")) ||
		bytes.Contains(file[catalogAt:tableAt], []byte("/ViewerPreferences")) {
		return nil, fmt.Errorf("%w (catalog)", errUnlike)
	}
	xref, err := strconv.Atoi(string(file[startAt+len(start) : len(file)-len(end)]))
	if err != nil || xref != tableAt+len("\nendobj\n") {
		return nil, fmt.Errorf("%w (startxref)", errUnlike)
	}
	if err := undate(file[:catalogAt]); err != nil {
		return nil, err
	}
	copy(file, "%PDF-1.7\n")

	in := catalogAt + len(catalog)
	out := make([]byte, 0, len(file)+len(wish)+2)
	out = append(out, file[:in]...)
	out = append(out, wish...)
	out = append(out, file[in:startAt+len(start)]...)
	out = strconv.AppendInt(out, int64(xref+len(wish)), 10)
	return append(out, end...), nil
}

// undate blanks the dates in the last object of the file's beginning, the document information, in place.
func undate(file []byte) error {
	info := bytes.LastIndex(file, []byte(" 0 obj\n<<\n/Producer "))
	dates := []byte("/CreationDate (D:20000101000000)\n/ModDate (D:20000101000000)\n>>\nendobj\n")
	if info < 0 {
		return fmt.Errorf("%w (information)", errUnlike)
	}
	at := bytes.LastIndex(file[info:], dates)
	if at < 0 {
		return fmt.Errorf("%w (dates)", errUnlike)
	}
	for i := range len(dates) - len("\n>>\nendobj\n") {
		if c := &file[info+at+i]; *c != '\n' {
			*c = ' '
		}
	}
	return nil
}
