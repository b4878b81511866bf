package job

// Source remembers where the values of a job stand in its file. Keys are paths as in "walls[0].runs[1].panels".
type Source struct {
	File   string
	Lines  []string
	places map[string]Place
}

// Place is a line and column of the job file, both from 1.
type Place struct{ Line, Col int }

// Of is the place of the value with that path, or of the nearest thing round it that the file holds; the zero Place
// when the job was not read from a file.
func (s Source) Of(key string) Place {
	for key != "" {
		if p, ok := s.places[key]; ok {
			return p
		}
		cut := len(key) - 1
		for cut > 0 && key[cut] != '.' && key[cut] != '[' {
			cut--
		}
		key = key[:cut]
	}
	return Place{}
}

// Has tells whether the file itself holds a value at that path (a default has none).
func (s Source) Has(key string) bool {
	_, ok := s.places[key]
	return ok
}
