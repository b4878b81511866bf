package view

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/template/job"
)

const wall = "wall.yaml"

func demo() string {
	_, text := job.Demo()
	return string(text)
}

// named is the demo job under another name.
func named(name string) string {
	return strings.Replace(demo(), "name: Reading-room settle", "name: "+name, 1)
}

func opened(t *testing.T, m *memory) *openJob {
	t.Helper()
	d, err := openFile(m, wall, 0)
	require.NoError(t, err)
	return d
}

// rename is an edit of the job's name.
func (d *openJob) rename(name string) { d.apply([]byte(named(name)), "the name", false) }

func TestAJobOpensSoundAndSaved(t *testing.T) {
	d := opened(t, newMemory(map[string]string{wall: demo()}))
	assert.Equal(t, sound, d.cond)
	assert.False(t, d.unsaved())
	assert.NotNil(t, d.work)
	_, err := openFile(newMemory(nil), wall, 0)
	assert.ErrorContains(t, err, "can't be read")
	_, err = openFile(newMemory(nil), "../wall.yaml", 0)
	assert.ErrorContains(t, err, "can't be a file's name")
}

func TestUndoGoesBackToTheBeginningAndRedoToTheEnd(t *testing.T) {
	d := opened(t, newMemory(map[string]string{wall: demo()}))
	texts := []string{demo()}
	for i := range 10 {
		d.rename(fmt.Sprint("Wall ", i))
		texts = append(texts, named(fmt.Sprint("Wall ", i)))
	}
	assert.Equal(t, "the name", next(d.undo))
	version := d.version
	for i := len(texts) - 2; i >= 0; i-- {
		require.True(t, d.back())
		assert.Equal(t, texts[i], string(d.text))
		assert.Greater(t, d.version, version, "a version is never used again")
		version = d.version
	}
	assert.False(t, d.back())
	assert.False(t, d.unsaved())
	for _, want := range texts[1:] {
		require.True(t, d.forth())
		assert.Equal(t, want, string(d.text))
	}
	assert.False(t, d.forth())
	d.back()
	d.rename("Another way")
	assert.False(t, d.forth(), "a change leaves what was undone behind")
}

func TestHistoryIsBounded(t *testing.T) {
	many := make([]step, maxSteps+50)
	for i := range many {
		many[i].words = fmt.Sprint(i)
	}
	kept := trim(many)
	assert.Len(t, kept, maxSteps)
	assert.Equal(t, "249", kept[len(kept)-1].words)
	large := []step{{text: make([]byte, maxHistory)}, {text: make([]byte, maxHistory/2)}, {text: make([]byte, maxHistory/2)}}
	assert.Len(t, trim(large), 2)
}

func TestATextWithProblemsKeepsTheLastSoundPicture(t *testing.T) {
	d := opened(t, newMemory(map[string]string{wall: demo()}))
	before := d.work
	d.apply([]byte(strings.Replace(demo(), "units: in", "units: ell", 1)), "the units", false)
	assert.Equal(t, invalid, d.cond)
	assert.Same(t, before, d.work)
	assert.Equal(t, "the units", d.since)
	assert.NotEmpty(t, d.trouble.List)
	d.rename("x")
	assert.Equal(t, sound, d.cond)
	assert.Empty(t, d.since)
	d.apply([]byte("a: [b"), "the text", true)
	assert.Equal(t, unreadable, d.cond)
	require.True(t, d.back())
	assert.Equal(t, sound, d.cond)
}

func TestADraftIsKeptUntilTheJobIsSaved(t *testing.T) {
	m := newMemory(map[string]string{wall: demo()})
	d := opened(t, m)
	assert.Empty(t, m.drafts[wall])
	d.rename("One")
	d.rename("Two")
	require.Len(t, m.drafts[wall], 1)
	assert.Equal(t, named("Two"), string(m.drafts[wall]["1"].Text))
	assert.Equal(t, demo(), m.files[wall], "nothing is saved unasked")

	// Another session, as after a crash, is offered the draft, and its own doesn't take its place.
	again := opened(t, m)
	require.Len(t, again.offered, 1)
	again.rename("Three")
	assert.Len(t, m.drafts[wall], 2)
	other, err := again.takeDraft("1")
	require.NoError(t, err)
	assert.Empty(t, other, "the file is as it was")
	assert.Equal(t, named("Two"), string(again.text))
	assert.Empty(t, again.offered)
	require.True(t, again.back())
	assert.Equal(t, named("Three"), string(again.text))
	require.NoError(t, again.save())
	assert.Equal(t, named("Three"), m.files[wall])
	assert.Empty(t, m.drafts[wall])
}

func TestADraftOfAnOlderFileLeavesTheFilesTextBeside(t *testing.T) {
	m := newMemory(map[string]string{wall: demo()})
	opened(t, m).rename("Mine")
	m.files[wall] = named("Theirs")
	d := opened(t, m)
	other, err := d.takeDraft("1")
	require.NoError(t, err)
	assert.Equal(t, "wall-other.yaml", other)
	assert.Equal(t, named("Theirs"), m.files[other])
	assert.Equal(t, named("Mine"), string(d.text))
}

func TestADraftCanBeThrownAwayAndOneThatWasSavedIsNotOffered(t *testing.T) {
	m := newMemory(map[string]string{wall: demo()})
	opened(t, m).rename("Mine")
	d := opened(t, m)
	require.NoError(t, d.dropDraft("1"))
	assert.Empty(t, m.drafts[wall])
	_, err := d.takeDraft("1")
	assert.Error(t, err)

	opened(t, m).rename("Mine")
	m.files[wall] = named("Mine")
	assert.Empty(t, opened(t, m).offered)
	assert.Empty(t, m.drafts[wall])
}

func TestADraftThatCannotBeKeptIsToldAndEditingGoesOn(t *testing.T) {
	m := newMemory(map[string]string{wall: demo()})
	d := opened(t, m)
	m.full = errFull
	d.rename("One")
	assert.Equal(t, named("One"), string(d.text))
	assert.Contains(t, d.undrawn, "no space left")
	m.full = nil
	d.rename("Two")
	assert.Empty(t, d.undrawn)
}

func TestAChangeOnTheDiskIsTakenWhenNothingIsUnsaved(t *testing.T) {
	m := newMemory(map[string]string{wall: demo()})
	d := opened(t, m)
	v := d.version
	d.look()
	assert.Equal(t, v, d.version, "nothing new")
	m.files[wall] = named("Theirs")
	d.look()
	assert.Equal(t, named("Theirs"), string(d.text))
	assert.Greater(t, d.version, v)
	assert.Equal(t, d.version, d.barrier, "older edits don't know where they are")
	assert.False(t, d.unsaved())
	require.True(t, d.back())
	assert.Equal(t, demo(), string(d.text))
	assert.True(t, d.unsaved())
}

// A program that writes in place leaves half a file for a moment.
func TestAFileThatDoesNotOpenIsLookedAtTwice(t *testing.T) {
	m := newMemory(map[string]string{wall: demo()})
	d := opened(t, m)
	m.files[wall] = demo()[:500]
	d.look()
	assert.Equal(t, demo(), string(d.text))
	m.files[wall] = named("Theirs")
	d.look()
	assert.Equal(t, named("Theirs"), string(d.text))
	m.files[wall] = ""
	d.look()
	assert.Equal(t, sound, d.cond)
	d.look()
	assert.Equal(t, "", string(d.text), "emptied")
	assert.NotEqual(t, sound, d.cond)
	require.True(t, d.back())
	assert.Equal(t, named("Theirs"), string(d.text), "nothing is lost")
}

func TestAClashKeepsBothTexts(t *testing.T) {
	for _, take := range []string{"mine", "theirs"} {
		m := newMemory(map[string]string{wall: demo(), "wall-other.yaml": "taken"})
		d := opened(t, m)
		d.rename("Mine")
		m.files[wall] = named("Theirs")
		var clash *clashError
		require.ErrorAs(t, d.save(), &clash)
		assert.Equal(t, named("Theirs"), m.files[wall])
		d.rename("Mine too")
		require.ErrorAs(t, d.save(), &clash, "not before it is resolved")
		other, err := d.resolve(take == "theirs")
		require.NoError(t, err)
		assert.Equal(t, "wall-other-2.yaml", other)
		assert.Equal(t, "taken", m.files["wall-other.yaml"])
		if take == "mine" {
			assert.Equal(t, named("Theirs"), m.files[other])
			assert.Equal(t, named("Mine too"), string(d.text))
			assert.True(t, d.unsaved())
			require.NoError(t, d.save())
			assert.Equal(t, named("Mine too"), m.files[wall])
		} else {
			assert.Equal(t, named("Mine too"), m.files[other])
			assert.Equal(t, named("Theirs"), string(d.text))
			assert.False(t, d.unsaved())
			require.True(t, d.back())
			assert.Equal(t, named("Mine too"), string(d.text))
		}
	}
}

func TestAFileThatWasEmptiedIsAClashToo(t *testing.T) {
	m := newMemory(map[string]string{wall: demo()})
	d := opened(t, m)
	d.rename("Mine")
	m.files[wall] = ""
	var clash *clashError
	require.ErrorAs(t, d.save(), &clash)
	assert.Equal(t, named("Mine"), string(d.text))
}

func TestAClashEndsWhenTheFileIsAsItWas(t *testing.T) {
	m := newMemory(map[string]string{wall: demo()})
	d := opened(t, m)
	d.rename("Mine")
	m.files[wall] = named("Theirs")
	d.look()
	require.True(t, d.clash)
	m.files[wall] = demo()
	d.look()
	assert.False(t, d.clash)
	m.files[wall] = named("Mine")
	d.look()
	assert.False(t, d.unsaved(), "the other program wrote the same")
	assert.Empty(t, m.drafts[wall])
}

func TestAFileThatIsGoneIsToldAndSavedAnew(t *testing.T) {
	m := newMemory(map[string]string{wall: demo()})
	d := opened(t, m)
	delete(m.files, wall)
	d.look()
	assert.Contains(t, d.lost, "is gone")
	assert.True(t, d.unsaved())
	assert.NotEmpty(t, m.drafts[wall])
	v := d.version
	d.look()
	assert.Equal(t, v, d.version)
	require.NoError(t, d.save())
	assert.Equal(t, demo(), m.files[wall])
	assert.False(t, d.unsaved())

	d.rename("Mine")
	m.files[wall] = "FOLDER"
	d.look()
	assert.Contains(t, d.lost, "is a folder")
	assert.Error(t, d.save())
	assert.Equal(t, named("Mine"), string(d.text))
	m.files[wall] = demo()
	d.look()
	assert.Empty(t, d.lost)
	require.NoError(t, d.save())
}

func TestAFileThatCannotBeWrittenLosesNothing(t *testing.T) {
	m := newMemory(map[string]string{wall: demo()})
	d := opened(t, m)
	d.rename("Mine")
	m.fail = errFull
	assert.ErrorIs(t, d.save(), errFull)
	assert.True(t, d.unsaved())
	assert.Equal(t, named("Mine"), string(m.drafts[wall]["1"].Text))
	assert.ErrorIs(t, d.saveAs("new.yaml"), errFull)
	assert.Equal(t, wall, d.name)
}

func TestSavingBesideGoesOnWithTheNewFile(t *testing.T) {
	m := newMemory(map[string]string{wall: demo(), "taken.yaml": "x"})
	d := opened(t, m)
	d.rename("Mine")
	assert.ErrorContains(t, d.saveAs("taken.yaml"), "is there already")
	assert.Error(t, d.saveAs("../new.yaml"))
	require.NoError(t, d.saveAs("new.yaml"))
	assert.Equal(t, named("Mine"), m.files["new.yaml"])
	assert.Equal(t, demo(), m.files[wall])
	assert.Empty(t, m.drafts[wall])
	d.rename("More")
	require.NoError(t, d.save())
	assert.Equal(t, named("More"), m.files["new.yaml"])
	assert.Equal(t, "x", m.files["taken.yaml"])
}
