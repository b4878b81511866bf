package tolerance

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestLikelyErrorOverThePlayIsReportedWithWhatHelpsMost(t *testing.T) {
	j, boards := letter(), []Board{board()}
	j.Clip.Play = in / 4
	assert.Empty(t, Check(j, boards, jigs(), Estimate(j, boards, true, jigs())), "jigs do it")

	j.Clip.Play = in / 16
	found := Check(j, boards, taped(), Estimate(j, boards, true, taped()))
	require.Len(t, found, 1)
	assert.NotEmpty(t, found[0].Params.(ErrorOverPlay).Help)
	assert.Equal(t, "board A", found[0].Subject.String())
}

func TestJigsOnBoardsSawnRoughlyAreReported(t *testing.T) {
	j, boards := letter(), []Board{board()}
	check := func(p Print) []string {
		var ids []string
		for _, f := range Check(j, boards, p, Estimate(j, boards, true, p)) {
			ids = append(ids, f.Params.ID())
		}
		return ids
	}
	j.Accuracy.Squared = in / 32
	assert.NotContains(t, check(jigs()), "jig-saw-error", "half the play is still right")
	j.Accuracy.Squared = in/32 + in/64
	assert.Contains(t, check(jigs()), "jig-saw-error")
	assert.NotContains(t, check(taped()), "jig-saw-error")
}

func TestNoBoardsMakeNoBudget(t *testing.T) {
	b := Estimate(letter(), nil, true, taped())
	assert.Equal(t, -1, b.Board)
	assert.Empty(t, Check(letter(), nil, taped(), b))
}
