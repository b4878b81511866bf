package report

import (
	"reflect"

	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
	"rodsheet/template/rule"
)

type findingEntry struct {
	ID       string  `json:"id"`
	Level    string  `json:"level"`
	At       string  `json:"at"`
	Text     string  `json:"text"`
	Why      string  `json:"why"`
	Remedy   string  `json:"remedy"`
	Source   string  `json:"source"`
	Line     int     `json:"line" doc:"of the job file; 0 when it comes from no line"`
	Column   int     `json:"column"`
	Accepted *string `json:"accepted" doc:"the reason; null when it is not accepted"`

	Field  string   `json:"field" doc:"path in the job file of the value that mends it"`
	Panels []string `json:"panels" doc:"those that it is about, or comes down to"`
	Boards []string `json:"boards"`
	Runs   []string `json:"runs"`
	Walls  []string `json:"walls"`
	Bands  []string `json:"bands"`
	Blocks []string `json:"blocks"`
	Params params   `json:"params" doc:"its names and numbers; what doesn't apply is 0, empty or false"`
}

func findingsOf(list []rule.Finding) []findingEntry {
	out := make([]findingEntry, 0, len(list))
	for _, f := range list {
		of := func(kind finding.Kind) []string {
			if f.Subject.Kind != kind {
				return []string{}
			}
			return f.Subject.Names
		}
		one := findingEntry{
			ID: f.ID, Level: f.Level.String(), At: f.At, Text: f.Text, Why: f.Why, Remedy: f.Remedy, Source: f.Source,
			Line: f.Place.Line, Column: f.Place.Col, Field: f.Field,
			Panels: append([]string{}, f.Subject.AllPanels()...), Boards: of(finding.Board), Runs: of(finding.Run), Walls: of(finding.Wall),
			Bands: of(finding.Band), Blocks: of(finding.Block), Params: params{f.Params},
		}
		if f.Accepted {
			one.Accepted = &f.Because
		}
		out = append(out, one)
	}
	return out
}

type findingsDocument struct {
	Job      string         `json:"job"`
	File     string         `json:"file"`
	Findings []findingEntry `json:"findings"`
	Cautions []string       `json:"cautions"`
}

// Findings writes the findings about a job, worst first, with the usual cautions: {job, file, findings, cautions}.
func Findings(j *job.Job, list []rule.Finding) (string, error) {
	return write(findingsDocument{j.Name, j.Source.File, findingsOf(list), rule.Cautions()})
}

// Rules writes rules with their level, what each asks for, why, its source, and the keys of its findings' params: {rules}.
func Rules(list []rule.Rule) (string, error) {
	type entry struct {
		ID     string `json:"id"`
		Level  string `json:"level"`
		What   string `json:"what"`
		Why    string `json:"why"`
		Source string `json:"source"`

		Params []string `json:"params"` // "a.b" is b in a, "a[].b" is b in each of the list a
	}
	out := make([]entry, len(list))
	for i, r := range list {
		out[i] = entry{r.ID, r.Level.String(), r.What, r.Why, r.Source, keysOf("", reflect.TypeOf(r.Params()))}
	}
	return write(struct {
		Rules []entry `json:"rules"`
	}{out})
}
