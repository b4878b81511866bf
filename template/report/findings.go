package report

import (
	"rodsheet/template/job"
	"rodsheet/template/rule"
)

type finding struct {
	ID       string  `json:"id"`
	Level    string  `json:"level"`
	At       string  `json:"at"`
	Text     string  `json:"text"`
	Why      string  `json:"why"`
	Remedy   string  `json:"remedy"`
	Source   string  `json:"source"`
	Line     int     `json:"line"` // of the job file; 0 when it comes from no line
	Column   int     `json:"column"`
	Accepted *string `json:"accepted"` // the reason; null when it is not accepted
}

func findingsOf(list []rule.Finding) []finding {
	out := make([]finding, 0, len(list))
	for _, f := range list {
		one := finding{
			ID: f.ID, Level: f.Level.String(), At: f.At, Text: f.Text, Why: f.Why, Remedy: f.Remedy, Source: f.Source,
			Line: f.Place.Line, Column: f.Place.Col,
		}
		if f.Accepted {
			one.Accepted = &f.Because
		}
		out = append(out, one)
	}
	return out
}

// Findings writes the findings about a job, worst first, with the usual cautions: {job, file, findings, cautions}.
func Findings(j *job.Job, list []rule.Finding) (string, error) {
	return write(struct {
		Job      string    `json:"job"`
		File     string    `json:"file"`
		Findings []finding `json:"findings"`
		Cautions []string  `json:"cautions"`
	}{j.Name, j.Source.File, findingsOf(list), rule.Cautions()})
}

// Rules writes rules with their level, what each asks for, why, and its source: {rules}.
func Rules(list []rule.Rule) (string, error) {
	type entry struct {
		ID     string `json:"id"`
		Level  string `json:"level"`
		What   string `json:"what"`
		Why    string `json:"why"`
		Source string `json:"source"`
	}
	out := make([]entry, len(list))
	for i, r := range list {
		out[i] = entry{r.ID, r.Level.String(), r.What, r.Why, r.Source}
	}
	return write(struct {
		Rules []entry `json:"rules"`
	}{out})
}
