package rule

// rules are all rules, stops first.
var rules []Rule

func init() {
	rules = append(rules, Rule{
		ID: "accept-unknown", Level: Caution, Find: unmet,
		Why: "An acceptance that names nothing silences nothing.", Source: "the job file",
	})
}
