package rule

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestEveryRuleSaysWhatItAsksFor(t *testing.T) {
	said := map[string]string{}
	for _, r := range Rules() {
		assert.Regexp(t, `^.{15,}\.$`, r.What, r.ID)
		assert.Empty(t, said[r.What], "%s says the same", r.ID)
		said[r.What] = r.ID
	}
}
