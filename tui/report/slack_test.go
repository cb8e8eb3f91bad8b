package report

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/sim/slack"
)

// Text and JSON say the same of the room that a cue has, and nothing of what it has not.
func TestRoomOfACue(t *testing.T) {
	r := sample()
	room := &slack.Slack{Cues: make([]slack.Cue, len(r.Setup.Plan.Cues)), Tightest: 1}
	room.Cues[1] = slack.Cue{Timed: true, Early: 0.45, EarlyStep: 1.5, Late: 0.15, LateStep: 0.5, LateMore: true, Placed: true, Off: 0.5, Way: slack.Behind}
	var text, js bytes.Buffer
	require.NoError(t, Text(&text, r, nil, room))
	assert.Regexp(t, `0\.[45] s \(1\.5\) +0\.[12] s \(0\.5\)\+ +0\.5 m behind`, text.String())
	assert.Contains(t, text.String(), "The tightest is cue 2")
	require.NoError(t, JSON(&js, r, nil, room))
	var got Rehearsal
	require.NoError(t, json.Unmarshal(js.Bytes(), &got))
	require.NotNil(t, got.Tightest)
	assert.Equal(t, 2, *got.Tightest)
	cue := got.Cues[2] // the lead-out comes first
	require.NotNil(t, cue.Early)
	assert.Equal(t, 0.45, *cue.Early)
	assert.Equal(t, 0.15, *cue.Lateness)
	assert.Equal(t, 0.5, *cue.Off)
	assert.Equal(t, "behind", *cue.OffWay)
	assert.Nil(t, got.Cues[1].Early, "the release cannot be shifted")
	assert.Nil(t, got.Cues[1].Off)
}
