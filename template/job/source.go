package job

// Source remembers where the values of a job stand in its file. Keys are written [Path]s, as in
// "walls[0].runs[1].panels".
type Source struct {
	File   string
	Lines  []string
	places map[string]Place
}

// Place is a line and column of the job file, both from 1.
type Place struct{ Line, Col int }

// Of returns the place of the value with that path, or of the nearest thing round it that the file holds; the zero Place
// when the job was not read from a file.
func (s Source) Of(key string) Place {
	if p, ok := s.places[key]; ok {
		return p
	}
	path, err := ParsePath(key)
	if err != nil {
		return Place{}
	}
	for ; len(path) > 0; path = path.Parent() {
		if p, ok := s.places[path.String()]; ok {
			return p
		}
	}
	return Place{}
}

// Has reports whether the file itself holds a value at that path (a default has none).
func (s Source) Has(key string) bool {
	_, ok := s.places[key]
	return ok
}
