// Package depskeep pins modules while the tree is young; removed before the end.
package depskeep

import (
	_ "github.com/BurntSushi/toml"
	_ "github.com/charmbracelet/bubbletea"
	_ "github.com/charmbracelet/bubbles/key"
	_ "github.com/charmbracelet/lipgloss"
	_ "github.com/charmbracelet/x/ansi"
	_ "github.com/charmbracelet/x/vt"
	_ "github.com/creack/pty"
	_ "github.com/fsnotify/fsnotify"
	_ "github.com/google/renameio/v2"
	_ "github.com/muesli/termenv"
	_ "github.com/pelletier/go-toml/v2/unstable"
	_ "github.com/peterstace/simplefeatures/geom"
	_ "github.com/rogpeppe/go-internal/testscript"
	_ "github.com/spf13/cobra"
	_ "github.com/stretchr/testify/assert"
	_ "github.com/stretchr/testify/require"
	_ "github.com/toml-lang/toml-test/v2"
	_ "gonum.org/v1/gonum/stat/distuv"
	_ "gonum.org/v1/gonum/integrate/quad"
	_ "pgregory.net/rapid"
)
