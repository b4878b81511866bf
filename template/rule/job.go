package rule

// reading are rules about the job file itself.
func reading() []Rule {
	return []Rule{
		{ID: "accept-unknown", Level: Caution, Find: unmet,
			What:   "Each entry under accept meets a finding of this job.",
			Why:    "An acceptance that meets nothing silences nothing now, and perhaps something else later.",
			Source: "the job file",
			say:    say(acceptUnknown)},
		{ID: "not-acted-on", Level: Note, Find: idle,
			What:   "Every field that is given takes part in the plan.",
			Why:    "What is written down looks as if it had been taken into account, and here it was not.",
			Source: "this program",
			say:    say(notActedOn)},
	}
}
