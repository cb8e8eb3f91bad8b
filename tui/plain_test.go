package tui

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestPlain(t *testing.T) {
	o, _ := practice(t)
	var out strings.Builder
	in := strings.NewReader("home\n\n\nb\nc\n5\nwhy\ncue\nL\nn\np\nt\n99\nhop\nq\nlegs\n")
	require.NoError(t, Plain(fixed(o), in, &out))
	golden(t, "plain", strings.TrimSuffix(out.String(), "\n"))
	assert.NotContains(t, out.String(), "\x1b")
}

func TestPlainKnowsAllItsWords(t *testing.T) {
	o, _ := practice(t)
	o = fixed(o)
	for _, w := range allWords() {
		for _, name := range w.names {
			var out strings.Builder
			require.NoError(t, Plain(o, strings.NewReader(name+"\nq\nq\n"), &out))
			assert.NotContains(t, out.String(), "Unknown word", name)
		}
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("full") }

func TestPlainErrors(t *testing.T) {
	o, _ := practice(t)
	assert.ErrorContains(t, Plain(o, strings.NewReader(""), full{}), "full")
	assert.ErrorContains(t, Plain(Options{}, strings.NewReader(""), full{}), "no course")
}
