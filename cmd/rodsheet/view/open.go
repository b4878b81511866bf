package view

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"slices"

	"rodsheet/template"
	"rodsheet/template/job"
)

// A Hash tells texts of a file apart.
type Hash = [sha256.Size]byte

// condition is what can be made of a text.
type condition string

// The conditions.
const (
	sound      condition = "sound"      // it opens
	invalid    condition = "invalid"    // it can be read and has problems
	unreadable condition = "unreadable" // it is no YAML that can be edited by fields
)

// How far undo goes back.
const (
	maxSteps   = 200
	maxHistory = 16 << 20 // bytes of texts
)

// A step is a text before or after a change.
type step struct {
	text  []byte
	words string // what was changed
	lists bool   // entries were added, removed or renamed
}

// An openJob is the job under way: its text, the texts behind and ahead of it, and what is on the disk. Its methods are
// not safe for concurrent use.
type openJob struct {
	disk Disk
	name string

	text    []byte
	cond    condition
	fields  *job.Text      // of text; nil when it is unreadable
	version int            // counts every change that a window must hear of, over all jobs of the server
	changed int            // version of the last change of the text
	barrier int            // version of the last change of lists and names: older edits don't know where they are
	begun   int            // version at which this job was opened
	work    *template.Work // of the last sound text; nil when there was none
	since   string         // what was changed since then
	trouble *job.Problems  // of text, when it isn't sound
	printed *template.Work // what the last PDF of drill templates showed; nil for none

	undo, redo []step

	saved   []byte // as last read from or written to the disk
	base    Hash   // of saved
	pending *Hash  // of a text on the disk that doesn't open: it may be half written, so it is looked at twice
	clash   bool   // another program wrote the file while there was something unsaved
	theirs  []byte // what it wrote
	lost    string // why the file can't be read any more; ""
	draft   string // ID of this session's draft; "" for none
	undrawn string // why no draft is kept; ""
	offered []Draft
}

// openFile reads a job from the disk. Versions go on after version.
func openFile(disk Disk, name string, version int) (*openJob, error) {
	if err := checkName(name); err != nil {
		return nil, err
	}
	text, err := disk.Read(name)
	if err != nil {
		return nil, err
	}
	d := &openJob{disk: disk, name: name, version: version}
	d.setSaved(text)
	d.set(read(name, text), "", true)
	d.begun = d.version
	drafts, err := disk.Drafts(name)
	if err != nil {
		d.undrawn = err.Error()
	}
	for _, one := range drafts {
		if bytes.Equal(one.Text, text) { // saved after all
			if err := disk.DropDraft(name, one.ID); err != nil {
				d.undrawn = err.Error()
			}
			continue
		}
		d.offered = append(d.offered, one)
	}
	return d, nil
}

func (d *openJob) setSaved(text []byte) {
	d.saved, d.base = text, sha256.Sum256(text)
	d.clash, d.theirs, d.lost, d.pending = false, nil, "", nil
}

func (d *openJob) unsaved() bool { return d.lost != "" || !bytes.Equal(d.text, d.saved) }

// A reading is what can be made of a text.
type reading struct {
	text    []byte
	cond    condition
	fields  *job.Text // nil when it is unreadable
	work    *template.Work
	trouble *job.Problems
}

func read(name string, text []byte) reading {
	r := reading{text: text, cond: sound}
	var err error
	if r.fields, err = job.ParseText(text); err != nil {
		r.fields = nil
	}
	if r.work, err = template.Open(name, text); err == nil {
		return r
	}
	r.cond = invalid
	if !errors.As(err, &r.trouble) {
		r.trouble = &job.Problems{Source: job.Source{File: name}}
		r.trouble.Add("", "%s", err)
	}
	if r.fields == nil {
		r.cond = unreadable
	}
	return r
}

// set makes a text the job's and keeps it as a draft.
func (d *openJob) set(r reading, words string, lists bool) {
	d.version++
	d.changed = d.version
	if lists {
		d.barrier = d.version
	}
	d.text, d.cond, d.fields, d.trouble = r.text, r.cond, r.fields, r.trouble
	switch {
	case r.cond == sound:
		d.work, d.since = r.work, ""
	case d.since == "":
		d.since = words
	}
	d.keepDraft()
}

// keepDraft writes what is not saved to the draft. A draft that can't be kept is told, and editing goes on.
func (d *openJob) keepDraft() {
	d.undrawn = ""
	var err error
	switch {
	case d.unsaved():
		d.draft, err = d.disk.PutDraft(d.name, Draft{ID: d.draft, Base: d.base, Text: d.text})
	case d.draft != "":
		if err = d.disk.DropDraft(d.name, d.draft); err == nil {
			d.draft = ""
		}
	}
	if err != nil {
		d.undrawn = err.Error()
	}
}

// apply makes a change of the text, which can be undone.
func (d *openJob) apply(text []byte, words string, lists bool) {
	if bytes.Equal(text, d.text) {
		return
	}
	r := read(d.name, text) // before anything changes, whatever happens in there
	d.undo = trim(append(d.undo, step{d.text, words, lists}))
	d.redo = nil
	d.set(r, words, lists)
}

// trim drops the oldest steps beyond what is kept.
func trim(steps []step) []step {
	size, first := 0, len(steps)
	for first > 0 && len(steps)-first < maxSteps && size+len(steps[first-1].text) <= maxHistory {
		first--
		size += len(steps[first].text)
	}
	return slices.Delete(steps, 0, first)
}

// back undoes the last change; forth makes it again. They report whether there was one.
func (d *openJob) back() bool  { return d.move(&d.undo, &d.redo) }
func (d *openJob) forth() bool { return d.move(&d.redo, &d.undo) }

func (d *openJob) move(from, to *[]step) bool {
	if len(*from) == 0 {
		return false
	}
	s := (*from)[len(*from)-1]
	r := read(d.name, s.text)
	*from = (*from)[:len(*from)-1]
	*to = append(*to, step{d.text, s.words, s.lists})
	d.set(r, s.words, s.lists)
	return true
}

// next are the words of the step that back or forth would take; "" for none.
func next(steps []step) string {
	if len(steps) == 0 {
		return ""
	}
	return steps[len(steps)-1].words
}

// look takes notice of what other programs have done to the file.
func (d *openJob) look() {
	text, err := d.disk.Read(d.name)
	if err != nil {
		why := err.Error()
		if errors.Is(err, fs.ErrNotExist) {
			why = fmt.Sprintf("The file %s is gone. What you see is kept; saving writes it anew.", d.name)
		}
		if why != d.lost {
			d.lost = why
			d.version++
			d.keepDraft()
		}
		return
	}
	hash := sha256.Sum256(text)
	switch {
	case hash == d.base:
		if d.lost != "" || d.clash {
			d.setSaved(d.saved)
			d.version++
			d.keepDraft()
		}
		d.pending = nil
	case bytes.Equal(text, d.text):
		d.setSaved(text)
		d.version++
		d.keepDraft()
	case bytes.Equal(d.text, d.saved): // nothing of ours is lost
		if (d.pending == nil || *d.pending != hash) && read(d.name, text).cond != sound {
			d.pending = &hash
			return
		}
		d.setSaved(text)
		d.apply(text, "what another program changed in the file", true)
	case !d.clash || !bytes.Equal(text, d.theirs):
		d.lost, d.clash, d.theirs = "", true, text
		d.version++
	}
}

// A clashError says that the file was changed by another program while there was something unsaved.
type clashError struct{ name string }

func (e *clashError) Error() string {
	return fmt.Sprintf("%s was changed by another program. Nothing is saved before you choose between the two.", e.name)
}

// save writes the text to its file. The error is a *[clashError], or says in words why it can't be written.
func (d *openJob) save() error {
	d.look()
	if d.clash {
		return &clashError{d.name}
	}
	if !d.unsaved() {
		return nil
	}
	write := d.disk.Replace
	if d.lost != "" {
		write = d.disk.Create
	}
	if err := write(d.name, d.text); err != nil {
		return err
	}
	d.setSaved(d.text)
	d.version++
	d.keepDraft()
	return nil
}

// saveAs writes the text to a new file, which is the job's from then on.
func (d *openJob) saveAs(name string) error {
	if err := checkName(name); err != nil {
		return err
	}
	if err := d.disk.Create(name, d.text); err != nil {
		return err
	}
	if d.draft != "" {
		if err := d.disk.DropDraft(d.name, d.draft); err != nil {
			d.undrawn = err.Error()
		}
	}
	d.name, d.draft, d.offered = name, "", nil
	d.setSaved(d.text)
	d.version++
	return nil
}

// resolve ends a clash: one text goes on, the other is saved beside under a new name, which is returned.
func (d *openJob) resolve(takeTheirs bool) (other string, err error) {
	if !d.clash {
		return "", nil
	}
	theirs := d.theirs
	left := theirs
	if takeTheirs {
		left = d.text
	}
	if other, err = createBeside(d.disk, d.name, "other", left); err != nil {
		return "", err
	}
	d.setSaved(theirs)
	if takeTheirs {
		d.apply(theirs, "what another program changed in the file", true)
	} else {
		d.version++
		d.keepDraft()
	}
	return other, nil
}

// createBeside writes a new file under the first free name beside another one.
func createBeside(disk Disk, name, what string, text []byte) (string, error) {
	for n := 1; ; n++ {
		free := beside(name, what, n)
		err := disk.Create(free, text)
		if err == nil {
			return free, nil
		}
		if !errors.Is(err, fs.ErrExist) || n > 1000 {
			return "", err
		}
	}
}

// takeDraft makes an offered draft the text, which can be undone. Where the file was changed since, its text is saved
// beside under a new name, which is returned.
func (d *openJob) takeDraft(id string) (other string, err error) {
	i := slices.IndexFunc(d.offered, func(o Draft) bool { return o.ID == id })
	if i < 0 {
		return "", errors.New("this draft is not there any more")
	}
	if d.offered[i].Base != d.base {
		if other, err = createBeside(d.disk, d.name, "other", d.saved); err != nil {
			return "", err
		}
	}
	d.apply(d.offered[i].Text, "the draft of last time", true)
	return other, d.dropDraft(id)
}

// dropDraft throws an offered draft away.
func (d *openJob) dropDraft(id string) error {
	i := slices.IndexFunc(d.offered, func(o Draft) bool { return o.ID == id })
	if i < 0 {
		return nil
	}
	if err := d.disk.DropDraft(d.name, id); err != nil {
		return err
	}
	d.offered = slices.Delete(d.offered, i, i+1)
	d.version++
	return nil
}
