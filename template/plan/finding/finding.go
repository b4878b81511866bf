// Package finding holds what the steps of a plan have to say about it: plain data, without a sentence. Package rule has
// the words.
//
// A finding is a [Subject], the field of the job file that mends it, and [Params], the names and numbers. Each kind of
// finding has a params type of its own beside the step that reports it, so that neither a number nor a name can be
// forgotten or misspelt on the way to its words.
package finding

// A Finding is one thing a step found out that somebody should know before drilling.
type Finding struct {
	Params
	Subject Subject
	Field   string // path in the job file of the value that mends it, as in job.Source; it need not be there yet
}

// Params are the names and numbers of a finding: a struct of lengths, weights, counts and names, as few as its words
// need. Findings of one ID have params of one type. A field that doesn't apply is zero. Its fields are written for
// other programs too, under their own names: none is renamed once it is out.
type Params interface {
	// ID is the finding's stable name, kebab-case, as in the job file's `accept`.
	ID() string
}

// A List holds findings in the order in which they were made.
type List []Finding

// Add reports a finding.
func (l *List) Add(subject Subject, field string, params Params) {
	*l = append(*l, Finding{params, subject, field})
}
