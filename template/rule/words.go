package rule

import (
	"fmt"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
)

// words put a rule's findings into sentences: what is wrong, and what would be right, which may be empty.
type words struct {
	zero   finding.Params
	render func(*speech, finding.Params) (text, remedy string, ok bool)
}

// say makes words of a function that takes the params of the rule's findings.
func say[P finding.Params](render func(s *speech, f P) (text, remedy string)) words {
	return words{*new(P), func(s *speech, params finding.Params) (text, remedy string, ok bool) {
		f, ok := params.(P)
		if ok {
			text, remedy = render(s, f)
		}
		return text, remedy, ok
	}}
}

// fixed are words without a name or number in them.
func fixed[P finding.Params](text, remedy string) words {
	return say(func(*speech, P) (string, string) { return text, remedy })
}

// of puts params about a subject into words. Those that the rule has no words for come as they are: nothing gets lost.
func (w words) of(s *speech, params finding.Params) (text, remedy string) {
	if w.render != nil {
		if text, remedy, ok := w.render(s, params); ok {
			return text, remedy
		}
	}
	return fmt.Sprintf("%s %+v.", params.ID(), params), ""
}

// speech is what words need to know beside their params: in which units, and about whom.
type speech struct {
	units   geom.System
	subject finding.Subject
	many    bool // the same is told of several subjects, which subject holds together
	named   bool // the text has named the subject
}

// sprintf is fmt.Sprintf with lengths, sizes, weights and lists of names as people of the units read them.
func (s *speech) sprintf(format string, args ...any) string {
	for i, a := range args {
		switch a := a.(type) {
		case geom.Length:
			args[i] = a.In(s.units)
		case geom.Size:
			args[i] = a.W.Bare(s.units) + " × " + a.H.In(s.units)
		case geom.Span:
			args[i] = a.From.In(s.units) + " to " + a.To.In(s.units)
		case job.Weight:
			args[i] = a.In(s.units)
		case job.Density:
			args[i] = a.In(s.units)
		case job.Screw:
			args[i] = a.In(s.units) + " screw"
		case []string:
			args[i] = finding.Listed(a)
		}
	}
	return fmt.Sprintf(format, args...)
}

// atMost and atLeast are limits: what lies on no mark of the rule goes to the mark on the side that keeps the limit.
func (s *speech) atMost(l geom.Length) string { return l.MarkBelow(s.units).In(s.units) }

func (s *speech) atLeast(l geom.Length) string { return l.MarkAbove(s.units).In(s.units) }

// who names the subject within a sentence: "N1", "run N", "each of N1–N4".
func (s *speech) who() string {
	s.named = true
	if s.many {
		return "each of " + s.subject.List()
	}
	return s.subject.String()
}

// whoFirst is who at the beginning of a sentence.
func (s *speech) whoFirst() string {
	name := s.who()
	if s.many || s.subject.Kind != finding.Panel {
		return strings.ToUpper(name[:1]) + name[1:]
	}
	return name
}

// panelFirst is whoFirst for a panel that the sentence calls one.
func (s *speech) panelFirst() string {
	if s.many {
		return s.whoFirst()
	}
	return "Panel " + s.who()
}

// hang is who, at the beginning of a sentence, with its verb.
func (s *speech) hang() string {
	if !s.many && len(s.subject.Names) > 1 {
		return s.whoFirst() + " hang"
	}
	return s.whoFirst() + " hangs"
}
