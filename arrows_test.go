package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// allowed is policy: what is in a folder or below it may import, of ours, what is
// in the folders named here and below them, and its own. Folders further down
// have a line of their own where they may do less.
var allowed = map[string][]string{
	"course":          {},
	"course/geom":     {},
	"course/tomlfile": {},
	"plan":            {"course"},
	"plan/team":       {"course"},
	"sim":             {"plan", "course"},
	"sim/dog":         {"plan/team", "course"},
	"sim/handler":     {"plan", "course"},
	"sim/search":      {"plan", "course"},
	"tui":             {"sim", "plan", "course", "testdata/demo"},
	"tui/canvas":      {},
	"tui/background":  {},
}

// goFiles parses the Go files at and below dir, tests left out; it fails where
// there are none.
func goFiles(t *testing.T, dir string) map[string]*ast.File {
	t.Helper()
	files := map[string]*ast.File{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		files[filepath.ToSlash(path)] = f
		return err
	}))
	require.NotEmpty(t, files, "no Go files below %s", dir)
	return files
}

// imports are the packages a file imports.
func imports(t *testing.T, f *ast.File) []string {
	t.Helper()
	var all []string
	for _, spec := range f.Imports {
		path, err := strconv.Unquote(spec.Path.Value)
		require.NoError(t, err)
		all = append(all, path)
	}
	return all
}

// below reports whether a package of ours is dir or below it.
func below(path, dir string) bool { return path == dir || strings.HasPrefix(path, dir+"/") }

// Who may import whom.
func TestArrows(t *testing.T) {
	for dir, may := range allowed {
		for name, f := range goFiles(t, dir) {
			for _, path := range imports(t, f) {
				ours, ok := strings.CutPrefix(path, "cuewalk/")
				if !ok {
					continue
				}
				fits := func(d string) bool { return below(ours, d) }
				assert.True(t, below(ours, dir) || slices.ContainsFunc(may, fits), "%s may not import %s", name, path)
			}
		}
	}
}

// A folder that appears must be in the table.
func TestArrowsCoverEveryFolder(t *testing.T) {
	entries, err := os.ReadDir(".")
	require.NoError(t, err)
	for _, e := range entries {
		if matches, _ := filepath.Glob(e.Name() + "/*.go"); e.IsDir() && len(matches) > 0 {
			assert.Contains(t, allowed, e.Name(), "the folder %s has no line in allowed", e.Name())
		}
	}
}

// The simulator is pure: no files, no clock, no terminal, no luck but its own.
func TestSimIsPure(t *testing.T) {
	for _, dir := range []string{"sim", "plan/team", "course/geom"} {
		for name, f := range goFiles(t, dir) {
			for _, path := range imports(t, f) {
				assert.NotContains(t, []string{"os", "io", "io/fs", "net", "time", "math/rand", "log", "os/exec", "syscall"}, path, name)
			}
			ast.Inspect(f, func(n ast.Node) bool {
				call, ok := n.(*ast.SelectorExpr)
				if !ok {
					return true
				}
				if x, ok := call.X.(*ast.Ident); ok && x.Name == "rand" {
					assert.Contains(t, []string{"Rand", "New", "NewPCG", "PCG", "Source"}, call.Sel.Name, "%s draws luck from rand.%s", name, call.Sel.Name)
				}
				return true
			})
		}
	}
}

// The dog never knows the numbers: nothing at or below sim/dog imports a plan, nor
// names what holds the numbered order of a course.
func TestTheDogKnowsNoNumbers(t *testing.T) {
	for name, f := range goFiles(t, "sim/dog") {
		assert.NotContains(t, imports(t, f), "cuewalk/plan", name)
		ast.Inspect(f, func(n ast.Node) bool {
			s, ok := n.(*ast.SelectorExpr)
			if !ok {
				return true
			}
			if x, ok := s.X.(*ast.Ident); ok && x.Name == "course" {
				assert.NotContains(t, []string{"Step", "Course"}, s.Sel.Name, "%s uses course.%s", name, s.Sel.Name)
			}
			assert.NotContains(t, []string{"Order", "Numbers", "Takes", "Label"}, s.Sel.Name, "%s uses .%s", name, s.Sel.Name)
			return true
		})
	}
}
