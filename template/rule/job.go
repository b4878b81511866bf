package rule

// reading are rules about the job file itself.
func reading() []Rule {
	return []Rule{
		{ID: "accept-unknown", Level: Caution, Find: unmet,
			Why:    "An acceptance that meets nothing silences nothing now, and perhaps something else later.",
			Source: "the job file"},
		{ID: "not-acted-on", Level: Note, Find: idle,
			Why:    "What is written down looks as if it had been taken into account, and here it was not.",
			Source: "this program"},
	}
}
