package plan

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Whatever the bytes: no panic; what reads has no faults, names its manoeuvres,
// formats and reads again the same, and saves over itself without a change.
func FuzzParse(f *testing.F) {
	c, tm := mill(f)
	for _, pattern := range []string{"testdata/right/*.toml", "testdata/wrong/*.toml"} {
		files, err := filepath.Glob(pattern)
		require.NoError(f, err)
		require.NotEmpty(f, files)
		for _, file := range files {
			src, err := os.ReadFile(file)
			require.NoError(f, err)
			f.Add(src)
		}
	}
	f.Add([]byte(commented))
	f.Fuzz(func(t *testing.T, src []byte) {
		p, err := Parse("fuzz", src, c, tm)
		if err != nil {
			assert.Nil(t, p)
			assert.NotEmpty(t, err.Error())
			return
		}
		assert.Empty(t, p.Validate(c, tm))
		p.Resolve(c, tm)
		same, err := Save(src, p, p, c)
		require.NoError(t, err)
		assert.Equal(t, string(src), string(same))
		text := Format(p, c)
		again, err := Parse("again", text, c, tm)
		require.NoError(t, err, "%s", text)
		assert.Equal(t, string(text), string(Format(again, c)))
	})
}
