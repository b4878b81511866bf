package tolerance

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/template/job"
)

func TestLikelyErrorOverThePlayIsReportedWithWhatHelpsMost(t *testing.T) {
	j, boards := letter(), []Board{board()}
	assert.Empty(t, Check(j, boards, Estimate(j, boards, true, Print{})), "jigs do it")

	boards[0].Template = job.WholeTemplate
	found := Check(j, boards, Estimate(j, boards, true, Print{}))
	require.Len(t, found, 1)
	assert.Contains(t, found[0].Params.(ErrorOverPlay).Help, "drill board and wall in one go")
	assert.Equal(t, "board A", found[0].Subject.String())
}

func TestJigsOnBoardsSawnRoughlyAreReported(t *testing.T) {
	j, boards := letter(), []Board{board()}
	j.Accuracy.Squared = in / 32
	assert.Empty(t, Check(j, boards, Estimate(j, boards, true, Print{})), "half the play is still right")
	j.Accuracy.Squared = in/32 + in/64
	found := Check(j, boards, Estimate(j, boards, true, Print{}))
	require.NotEmpty(t, found)
	assert.Equal(t, JigSawError{Saw: in/32 + in/64, Play: in / 16}, found[len(found)-1].Params)
}

func TestNoBoardsMakeNoBudget(t *testing.T) {
	b := Estimate(letter(), nil, true, Print{})
	assert.Equal(t, -1, b.Board)
	assert.Empty(t, Check(letter(), nil, b))
}
