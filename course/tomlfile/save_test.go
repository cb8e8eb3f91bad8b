package tomlfile

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// onlyFiles checks what is in a folder: nothing may be left behind.
func onlyFiles(t *testing.T, dir string, names ...string) {
	t.Helper()
	files, err := os.ReadDir(dir)
	require.NoError(t, err)
	var got []string
	for _, f := range files {
		got = append(got, f.Name())
	}
	assert.Equal(t, names, got)
}

func content(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(data)
}

func TestSaveKeepsModeAndLink(t *testing.T) {
	dir := t.TempDir()
	plan, link := filepath.Join(dir, "plan.toml"), filepath.Join(dir, "z.toml")
	require.NoError(t, os.WriteFile(plan, []byte("old"), 0o640))
	require.NoError(t, os.Chmod(plan, 0o640))
	require.NoError(t, os.Symlink("plan.toml", link))
	require.NoError(t, Save(link, []byte("new")))
	assert.Equal(t, "new", content(t, plan))
	info, err := os.Lstat(link)
	require.NoError(t, err)
	assert.NotZero(t, info.Mode()&fs.ModeSymlink)
	info, err = os.Stat(plan)
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o640), info.Mode().Perm())
	require.NoError(t, Save(filepath.Join(dir, "a.toml"), []byte("made")))
	onlyFiles(t, dir, "a.toml", "plan.toml", "z.toml")
}

func TestSaveRefuses(t *testing.T) {
	dir := t.TempDir()
	dangling := filepath.Join(dir, "dangling")
	require.NoError(t, os.Symlink("nowhere", dangling))
	for path, want := range map[string]string{
		dir:                             "is a folder, not a file",
		dangling:                        "is a link that points to nothing",
		os.DevNull:                      "is no ordinary file",
		filepath.Join(dir, "no", "a"):   "its folder does not exist",
		filepath.Join(dangling, "file"): "its folder does not exist",
	} {
		err := Save(path, []byte("x"))
		if assert.EqualError(t, err, path+": "+want) {
			assert.NotEmpty(t, err.(Problem).Hint)
		}
	}
	onlyFiles(t, dir, "dangling")
}

func TestSaveHonoursWriteProtection(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Skip("root may write everything")
	}
	path := filepath.Join(t.TempDir(), "a.toml")
	require.NoError(t, os.WriteFile(path, []byte("old"), 0o444))
	require.ErrorIs(t, Save(path, []byte("new")), fs.ErrPermission)
	assert.Equal(t, "old", content(t, path))
}

// TestSaveIsAtomic: a reader meets the old or the new content, whole.
func TestSaveIsAtomic(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.toml")
	long := func(i int) string { return strings.Repeat(fmt.Sprint(i%10), 50_000) }
	require.NoError(t, Save(path, []byte(long(0))))
	var wg sync.WaitGroup
	wg.Go(func() {
		for i := range 40 {
			assert.NoError(t, Save(path, []byte(long(i))))
		}
	})
	for range 200 {
		got := content(t, path)
		require.Len(t, got, 50_000)
		require.Equal(t, strings.Repeat(got[:1], 50_000), got)
	}
	wg.Wait()
}

func TestCreateNeverOverwrites(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.toml")
	require.NoError(t, Create(path, []byte("first")))
	info, err := os.Stat(path)
	require.NoError(t, err)
	assert.Zero(t, info.Mode().Perm()&0o111)
	dangling := filepath.Join(dir, "dangling")
	require.NoError(t, os.Symlink("nowhere", dangling))
	for _, taken := range []string{path, dangling, dir} {
		err := Create(taken, []byte("second"))
		require.ErrorIs(t, err, fs.ErrExist)
		assert.EqualError(t, err, taken+": is there already, and was left as it is")
	}
	assert.Equal(t, "first", content(t, path))
	err = Create(filepath.Join(dir, "no", "a"), nil)
	assert.ErrorIs(t, err, fs.ErrNotExist)
	assert.ErrorContains(t, err, "its folder does not exist")
	onlyFiles(t, dir, "a.toml", "dangling")
}

// TestCreateRace: of many at once exactly one makes the file.
func TestCreateRace(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.toml")
	errs := make([]error, 16)
	var wg sync.WaitGroup
	for i := range errs {
		wg.Go(func() { errs[i] = Create(path, []byte(fmt.Sprint(i))) })
	}
	wg.Wait()
	made := 0
	for i, err := range errs {
		if err == nil {
			made++
			assert.Equal(t, fmt.Sprint(i), content(t, path))
		} else {
			assert.ErrorIs(t, err, fs.ErrExist)
		}
	}
	assert.Equal(t, 1, made)
	onlyFiles(t, dir, "a.toml")
}

func TestReadFile(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.toml")
	require.NoError(t, os.WriteFile(path, []byte("a = 1\n"), 0o600))
	src, err := ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "a = 1\n", string(src))
	_, err = Load(path)
	require.NoError(t, err)
	for path, want := range map[string]string{
		dir:                       "is a folder, not a file",
		filepath.Join(dir, "zzz"): "there is no such file",
		filepath.Join(path, "b"):  "not a directory",
		"/dev/zero":               "is larger than 1 MiB",
	} {
		_, err := ReadFile(path)
		assert.EqualError(t, err, path+": "+want)
		assert.NotEmpty(t, err.(Problem).Hint)
		_, err = Load(path)
		assert.EqualError(t, err, path+": "+want)
	}
}

// TestReadFileStopsAtTheLimit: a large file is refused without its content
// coming into memory, also one that does not tell its size.
func TestReadFileStopsAtTheLimit(t *testing.T) {
	dir := t.TempDir()
	large := filepath.Join(dir, "large.toml")
	require.NoError(t, os.WriteFile(large, make([]byte, 10<<20), 0o600))
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, err := ReadFile(large)
	runtime.ReadMemStats(&after)
	require.ErrorContains(t, err, "is larger than 1 MiB")
	assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(1<<20))

	_, err = ReadFile("/dev/zero") // does not tell its size
	assert.ErrorContains(t, err, "is larger than 1 MiB")
}
