package view

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"maps"
	"mime"
	"net/http"
	"path/filepath"
	"slices"
	"strings"

	"rodsheet/template/pdf"
	"rodsheet/template/report"
	"rodsheet/template/svg"
	"rodsheet/template/tables"

	work "rodsheet/template"
)

// A refusal is why the job can't be printed or listed as it is.
type refusal struct {
	words string
	stops *work.StopError // where it is for them
}

func (r *refusal) Error() string { return r.words }

// printable returns the state to print from.
func (s *Server) printable() (*state, error) {
	now := s.current.Load()
	switch {
	case now == nil:
		return nil, &refusal{words: "No job is open."}
	case now.Condition != sound:
		return nil, &refusal{words: "Nothing is printed while the job has problems: mend them first."}
	}
	return now, nil
}

// download sends a file: what the command would write, byte for byte.
func (s *Server) download(w http.ResponseWriter, r *http.Request) {
	now, err := s.printable()
	if err != nil {
		refuseDownload(w, err)
		return
	}
	what := r.PathValue("what")
	data, err := s.file(r, now, what)
	if err != nil {
		refuseDownload(w, err)
		return
	}
	base := strings.TrimSuffix(now.Name, filepath.Ext(now.Name))
	name := base + "-" + what
	switch what {
	case "sheets.pdf":
		name = base + ".pdf"
	case "job.yaml":
		name = now.Name
	}
	kind := mime.TypeByExtension(filepath.Ext(what))
	switch filepath.Ext(what) { // the system's own table may lack them
	case ".pdf":
		kind = "application/pdf"
	case ".zip":
		kind = "application/zip"
	case ".json":
		kind = "application/json"
	case ".csv":
		kind = "text/csv; charset=utf-8"
	case ".txt", ".yaml":
		kind = "text/plain; charset=utf-8"
	}
	if p, err := choiceOf(r.URL.Query()).print(now, s.Printers); what == "sheets.pdf" && err == nil && drills(p) {
		s.notePrinted(now)
	}
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": name}))
	w.Header().Set("Content-Length", fmt.Sprint(len(data)))
	_, _ = w.Write(data) // whoever asked has gone
}

// refuseDownload answers with a page of words, since a download is asked for by a link.
func refuseDownload(w http.ResponseWriter, err error) {
	status := http.StatusConflict
	var unknown *unknownError
	if errors.As(err, &unknown) {
		status = http.StatusNotFound
	}
	writePage(w, status, "", sentence(err.Error()))
}

// An unknownError says that there is no such download.
type unknownError struct{ what string }

func (e *unknownError) Error() string { return fmt.Sprintf("there is no %s to download", e.what) }

// file makes what is downloaded under a name.
func (s *Server) file(r *http.Request, now *state, what string) ([]byte, error) {
	text := func(words string, err error) ([]byte, error) { return []byte(words), err }
	work := now.Work
	switch what {
	case "job.yaml":
		return []byte(now.Source), nil
	case "check-sheet.pdf", "check-sheet-corrected.pdf":
		return s.checkSheet(r.URL.Query(), now, what == "check-sheet-corrected.pdf")
	case "sheets.pdf":
		set, _, err := s.sheets.lay(r.Context(), now, s.Printers, choiceOf(r.URL.Query()))
		if err != nil {
			return nil, err
		}
		var b bytes.Buffer
		err = pdf.Write(&b, set)
		return b.Bytes(), err
	case "svg.zip":
		set, _, err := s.sheets.lay(r.Context(), now, s.Printers, choiceOf(r.URL.Query()))
		if err != nil {
			return nil, err
		}
		files, err := svg.Files(set, len(set.Pages))
		if err != nil {
			return nil, err
		}
		return zipped(files)
	case "list.txt":
		return text(tables.List(work.Plan), nil)
	case "list.csv":
		return text(report.ListsCSV(work.Plan))
	case "list.json":
		return text(report.Lists(work.Plan))
	case "blocks.txt":
		return text(tables.Blocks(work), nil)
	case "blocks.json":
		return text(report.Blocks(work.Plan))
	case "check.txt":
		return text(tables.Check(work.Job, work.Findings), nil)
	case "check.json":
		return text(report.Findings(work.Job, work.Findings))
	case "plan.txt", "plan.json":
		counts, whyNot, err := work.CountPages()
		if err != nil {
			return nil, err
		}
		if what == "plan.json" {
			return text(report.Plan(work.Plan, work.Findings, counts))
		}
		return text(tables.Plan(work, counts, whyNot, now.Name), nil)
	}
	return nil, &unknownError{what}
}

// zipped packs files by name, the same bytes each time.
func zipped(files map[string][]byte) ([]byte, error) {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, name := range slices.Sorted(maps.Keys(files)) {
		f, err := z.Create(name)
		if err != nil {
			return nil, err
		}
		if _, err := f.Write(files[name]); err != nil {
			return nil, err
		}
	}
	err := z.Close()
	return b.Bytes(), err
}
