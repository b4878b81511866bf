package printer

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/goccy/go-yaml"
	"rodsheet/geom"
	"rodsheet/template/atomicfile"
)

// A Store is a folder with one file a printer, which holds a profile for each paper that was recorded.
type Store struct{ Dir string }

// An UnknownError names a printer that nobody has recorded, and those that somebody has.
type UnknownError struct {
	Name  string
	Known []string
}

func (e *UnknownError) Error() string {
	if len(e.Known) == 0 {
		return fmt.Sprintf("no printer %q is known, nor any other; record one first", e.Name)
	}
	return fmt.Sprintf("no printer %q is known; known are: %s", e.Name, strings.Join(e.Known, ", "))
}

// A BrokenError says that a printer's file can't be trusted. Nothing is printed by guess in its stead.
type BrokenError struct {
	File string
	Why  string
}

func (e *BrokenError) Error() string {
	return fmt.Sprintf("%s: %s; record the printer again, or forget it", e.File, e.Why)
}

const (
	prefix, suffix = "printer-", ".yaml"
	version        = 3 // 2 took a reading for nothing where a tape might have been as far off
	maxPapers      = 50
	maxSize        = 64 << 10 // bytes; a whole file has less than a third of it
)

// record is the file.
type record struct {
	Printer  string        `yaml:"printer"`
	Version  int           `yaml:"version"`
	Papers   []paperRecord `yaml:"papers"`
	Complete bool          `yaml:"complete"` // the last line: a file cut short has none
}

// paperRecord is a profile. Lengths are written with their unit; the factors are there to be read, and to be held against
// the readings when the file is loaded.
type paperRecord struct {
	Paper     sizeRecord    `yaml:"paper"`
	Units     string        `yaml:"units"`
	Across    lineRecord    `yaml:"across"`
	Down      lineRecord    `yaml:"down"`
	Diagonals *diagonals    `yaml:"diagonals,omitempty"`
	Anyway    bool          `yaml:"anyway"`
	Factors   factorsRecord `yaml:"factors"`
}

type sizeRecord struct {
	Width  string `yaml:"width"`
	Height string `yaml:"height"`
}

type lineRecord struct {
	Drawn  string `yaml:"drawn"`
	Read   string `yaml:"read"`
	Within string `yaml:"within"`
}

type diagonals struct {
	Width   string `yaml:"width"`
	Height  string `yaml:"height"`
	Rising  string `yaml:"rising"`
	Falling string `yaml:"falling"`
	Within  string `yaml:"within"`
}

type factorsRecord struct {
	Across float64 `yaml:"across"`
	Down   float64 `yaml:"down"`
	Lean   float64 `yaml:"lean"`
}

// fileOf is the file of a printer's name: lower case, a space as _, and what a file system might take amiss as %XX.
func (s Store) fileOf(name string) (string, error) {
	if strings.TrimSpace(name) != name || name == "" {
		return "", fmt.Errorf("%q is no name for a printer: it must not be empty, nor begin or end with a space", name)
	}
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r == utf8.RuneError || !unicode.IsPrint(r):
			return "", fmt.Errorf("%q is no name for a printer: it holds a character that can't be seen", name)
		case r == ' ':
			b.WriteByte('_')
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '-' || r == '.':
			b.WriteRune(r)
		default:
			for _, c := range []byte(string(r)) {
				fmt.Fprintf(&b, "%%%02X", c)
			}
		}
	}
	if b.Len() > 200 {
		return "", fmt.Errorf("%q is too long a name for a printer; 50 letters are enough", name)
	}
	return filepath.Join(s.Dir, prefix+b.String()+suffix), nil
}

// Save writes a profile, in place of an earlier one of the same name (upper and lower case are the same) and paper. Those
// of other papers are kept, unless the file is broken. The file is there whole or not at all.
func (s Store) Save(p Profile) error {
	file, err := s.fileOf(p.Name)
	if err != nil {
		return err
	}
	profiles, err := load(file)
	var broken *BrokenError
	if err != nil && !errors.Is(err, fs.ErrNotExist) && !errors.As(err, &broken) {
		return err
	}
	profiles = slices.DeleteFunc(profiles, func(other Profile) bool { return other.Paper == p.Paper })
	if len(profiles) >= maxPapers {
		return fmt.Errorf("the printer %s is recorded on %d papers already; forget it and begin anew", p.Name, len(profiles))
	}
	text, err := yaml.Marshal(recordOf(p.Name, append(profiles, p)))
	if err != nil {
		return fmt.Errorf("%s: %w", file, err)
	}
	head := "# How a printer prints, from readings of its scale sheet. To change it, record the readings anew.\n"
	if err := os.MkdirAll(s.Dir, 0o755); err != nil {
		return err
	}
	return atomicfile.Replace(file, append([]byte(head), text...), 0o644)
}

// Load reads the profile of a printer for paper of the given size. Where none was recorded on that paper it is the one of
// the paper nearest in size: compare its Paper. The error is an *[UnknownError] or a *[BrokenError], or of the file system.
func (s Store) Load(name string, paper geom.Size) (Profile, error) {
	file, err := s.fileOf(name)
	if err != nil {
		return Profile{}, err
	}
	profiles, err := load(file)
	if errors.Is(err, fs.ErrNotExist) {
		return Profile{}, s.unknown(name)
	}
	if err != nil {
		return Profile{}, err
	}
	off := func(p Profile) geom.Length { return (p.Paper.W - paper.W).Abs() + (p.Paper.H - paper.H).Abs() }
	return slices.MinFunc(profiles, func(a, b Profile) int { return cmp.Compare(off(a), off(b)) }), nil
}

// unknown is the error for a printer without a file.
func (s Store) unknown(name string) error {
	profiles, err := s.List()
	var broken *BrokenError
	if err != nil && !errors.As(err, &broken) {
		return err
	}
	var known []string
	for _, p := range profiles {
		known = append(known, p.Name)
	}
	return &UnknownError{name, slices.Compact(known)}
}

// List reads all profiles, by name, then paper. Files that are broken are left out and told of in the error, joined.
func (s Store) List() ([]Profile, error) {
	files, err := s.files()
	if err != nil {
		return nil, err
	}
	var profiles []Profile
	var broken []error
	for _, file := range files {
		of, err := load(file)
		if err != nil {
			broken = append(broken, err)
			continue
		}
		profiles = append(profiles, of...)
	}
	return profiles, errors.Join(broken...)
}

// Forget removes a printer's file, broken or not. The error is an *[UnknownError] when there is none.
func (s Store) Forget(name string) error {
	file, err := s.fileOf(name)
	if err != nil {
		return err
	}
	err = os.Remove(file)
	if errors.Is(err, fs.ErrNotExist) {
		return s.unknown(name)
	}
	return err
}

func (s Store) files() ([]string, error) {
	entries, err := os.ReadDir(s.Dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var files []string
	for _, e := range entries {
		if n := e.Name(); !e.IsDir() && strings.HasPrefix(n, prefix) && strings.HasSuffix(n, suffix) {
			files = append(files, filepath.Join(s.Dir, n))
		}
	}
	slices.Sort(files)
	return files, nil
}

// load reads the profiles of a printer, one at least.
func load(file string) ([]Profile, error) {
	info, err := os.Stat(file)
	if err != nil {
		return nil, err
	}
	if info.Size() > maxSize {
		return nil, &BrokenError{file, "it is far too large for a printer's file"}
	}
	text, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	var r record
	if err := decode(text, &r); err != nil {
		return nil, &BrokenError{file, "it can't be read: " + err.Error()}
	}
	switch {
	case r.Version > version:
		return nil, &BrokenError{file, fmt.Sprintf("it was written by a newer program (version %d; this one reads %d)", r.Version, version)}
	case r.Version > 0 && r.Version < version:
		return nil, &BrokenError{file, "it was written by an earlier program, which read a scale sheet otherwise"}
	case !r.Complete || r.Version != version || len(r.Papers) == 0:
		return nil, &BrokenError{file, "it is not whole: the end is missing"}
	}
	var profiles []Profile
	for _, one := range r.Papers {
		p, err := one.profile(r.Printer)
		if err != nil {
			return nil, &BrokenError{file, err.Error()}
		}
		profiles = append(profiles, p)
	}
	return profiles, nil
}

// decode reads strictly. Whatever a damaged file does to the parser comes back as an error.
func decode(text []byte, r *record) (err error) {
	defer func() {
		if x := recover(); x != nil {
			err = errors.New("it is no YAML")
		}
	}()
	if !utf8.Valid(text) {
		return errors.New("it is no text")
	}
	return yaml.UnmarshalWithOptions(text, r, yaml.Strict())
}

func recordOf(name string, profiles []Profile) record {
	line := func(l Line) lineRecord {
		return lineRecord{l.Drawn.String(), l.Read.String(), l.Within.String()}
	}
	r := record{Printer: name, Version: version, Complete: true}
	slices.SortFunc(profiles, func(a, b Profile) int {
		return cmp.Or(cmp.Compare(a.Paper.W, b.Paper.W), cmp.Compare(a.Paper.H, b.Paper.H))
	})
	for _, p := range profiles {
		one := paperRecord{
			Paper: sizeRecord{p.Paper.W.String(), p.Paper.H.String()}, Units: p.Readings.Units.String(),
			Across: line(p.Readings.Across), Down: line(p.Readings.Down),
			Anyway: p.Anyway, Factors: factorsRecord{p.Across, p.Down, p.Lean},
		}
		if d := p.Readings.Diagonals; d != nil {
			one.Diagonals = &diagonals{d.Of.W.String(), d.Of.H.String(), d.Rising.String(), d.Falling.String(), d.Within.String()}
		}
		r.Papers = append(r.Papers, one)
	}
	return r
}

// profile works the readings out anew and holds the result against the factors of the file.
func (r paperRecord) profile(name string) (Profile, error) {
	var bad error
	length := func(text string) geom.Length {
		l, err := geom.ParseLength(text, geom.Metric)
		if err != nil && bad == nil {
			bad = err
		}
		return l
	}
	line := func(l lineRecord) Line { return Line{length(l.Drawn), length(l.Read), length(l.Within)} }
	readings := Readings{Across: line(r.Across), Down: line(r.Down)}
	paper := geom.Size{W: length(r.Paper.Width), H: length(r.Paper.Height)}
	switch r.Units {
	case geom.Imperial.String():
		readings.Units = geom.Imperial
	case geom.Metric.String():
	default:
		return Profile{}, fmt.Errorf("units are %q; they must be mm or in", r.Units)
	}
	if d := r.Diagonals; d != nil {
		readings.Diagonals = &Diagonals{geom.Size{W: length(d.Width), H: length(d.Height)}, length(d.Rising), length(d.Falling), length(d.Within)}
	}
	if bad != nil {
		return Profile{}, bad
	}
	if paper.W <= 0 || paper.H < paper.W {
		return Profile{}, errors.New("its paper is no upright sheet")
	}
	p, _, err := Correct(name, paper, readings, r.Anyway)
	if err != nil {
		return Profile{}, err
	}
	for _, pair := range [][2]float64{{p.Across, r.Factors.Across}, {p.Down, r.Factors.Down}, {p.Lean, r.Factors.Lean}} {
		if !(math.Abs(pair[0]-pair[1]) < 1e-9) {
			return Profile{}, errors.New("its factors don't follow from its readings")
		}
	}
	return p, nil
}
