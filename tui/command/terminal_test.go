//go:build unix

package command

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/charmbracelet/x/term"
	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What a terminal is told (ECMA-48 and xterm's private modes): the second screen, the
// cursor, the mouse, pasting in brackets.
const (
	altScreen, noAltScreen = "\x1b[?1049h", "\x1b[?1049l"
	hideCursor, showCursor = "\x1b[?25l", "\x1b[?25h"
	mouse, noMouse         = "\x1b[?1002h", "\x1b[?1002l"
	paste, noPaste         = "\x1b[?2004h", "\x1b[?2004l"
)

// screenTest is a program on a terminal of its own.
type screenTest struct {
	t        *testing.T
	cmd      *exec.Cmd
	pty, tty *os.File
	before   *term.State
	ended    chan error

	mu   sync.Mutex
	said bytes.Buffer
}

// onTerminal starts a program on a terminal of 80 by 24 in a folder with a course, a plan and a team.
func onTerminal(t *testing.T, dir, name string, args ...string) *screenTest {
	t.Helper()
	s := &screenTest{t: t, cmd: exec.Command(name, args...), ended: make(chan error, 1)}
	var err error
	s.pty, s.tty, err = pty.Open()
	require.NoError(t, err)
	require.NoError(t, pty.Setsize(s.pty, &pty.Winsize{Rows: 24, Cols: 80}))
	s.pty = closable(t, s.pty)
	s.before, err = term.GetState(s.tty.Fd())
	require.NoError(t, err)
	s.cmd.Dir, s.cmd.Stdin, s.cmd.Stdout, s.cmd.Stderr = dir, s.tty, s.tty, s.tty
	s.cmd.Env = append(os.Environ(), "TERM=xterm-256color", "PS1=$ ", "ENV=")
	s.cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
	require.NoError(t, s.cmd.Start())
	go s.listen()
	go func() { s.ended <- s.cmd.Wait() }()
	t.Cleanup(func() {
		_ = s.cmd.Process.Kill()
		_ = s.tty.Close()
		_ = s.pty.Close()
	})
	return s
}

// closable is f as a file that can be closed while it is read; pty.Setsize made it block.
func closable(t *testing.T, f *os.File) *os.File {
	t.Helper()
	syscall.ForkLock.RLock() // no program started meanwhile may keep it open
	fd, err := syscall.Dup(int(f.Fd()))
	syscall.CloseOnExec(fd)
	syscall.ForkLock.RUnlock()
	require.NoError(t, err)
	require.NoError(t, syscall.SetNonblock(fd, true))
	require.NoError(t, f.Close())
	return os.NewFile(uintptr(fd), f.Name())
}

func (s *screenTest) listen() {
	buf := make([]byte, 4096)
	for {
		n, err := s.pty.Read(buf)
		s.mu.Lock()
		s.said.Write(buf[:n])
		s.mu.Unlock()
		if err != nil {
			return
		}
	}
}

func (s *screenTest) text() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.said.String()
}

// forget starts what waitFor looks at anew.
func (s *screenTest) forget() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.said.Reset()
}

func (s *screenTest) waitFor(what ...string) {
	s.t.Helper()
	for _, w := range what {
		require.Eventually(s.t, func() bool { return bytes.Contains([]byte(s.text()), []byte(w)) }, 20*time.Second, 2*time.Millisecond, "%q never came", w)
	}
}

func (s *screenTest) typeKeys(keys string) {
	s.t.Helper()
	_, err := io.WriteString(s.pty, keys)
	require.NoError(s.t, err)
}

// wait returns what came of the program.
func (s *screenTest) wait() error {
	s.t.Helper()
	select {
	case err := <-s.ended:
		return err
	case <-time.After(5 * time.Second):
		s.t.Fatal("the program did not end")
	}
	return nil
}

// restored checks that the terminal is as it was before.
func (s *screenTest) restored() {
	s.t.Helper()
	s.waitFor(noAltScreen, showCursor, noMouse, noPaste)
	after, err := term.GetState(s.tty.Fd())
	require.NoError(s.t, err)
	assert.Equal(s.t, s.before, after, "echo and line editing")
	for _, pair := range [][2]string{{altScreen, noAltScreen}, {hideCursor, showCursor}, {mouse, noMouse}, {paste, noPaste}} {
		assert.Greater(s.t, lastOf(s.text(), pair[1]), lastOf(s.text(), pair[0]), "%q comes after %q", pair[1], pair[0])
	}
}

func lastOf(s, what string) int { return bytes.LastIndex([]byte(s), []byte(what)) }

// ringFolder is a folder with a course, a plan and a team that tests may write to.
func ringFolder(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.CopyFS(dir, os.DirFS(ring)))
	return dir
}

func TestScreenEnds(t *testing.T) {
	for name, end := range map[string]func(s *screenTest){
		"with q":       func(s *screenTest) { s.typeKeys("q") },
		"with ctrl-c":  func(s *screenTest) { s.typeKeys("\x03") },
		"when told to": func(s *screenTest) { require.NoError(t, s.cmd.Process.Signal(syscall.SIGTERM)) },
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			s := onTerminal(t, ringFolder(t), "cuewalk", "--runs", "0", "course.toml", "plan.toml", "team.toml")
			s.waitFor(altScreen, "clean run")
			end(s)
			assert.NoError(t, s.wait())
			s.restored()
		})
	}
}

// Told to end while a plan is altered, it keeps the alteration in a new file and says where.
func TestScreenKeepsWhatWasAltered(t *testing.T) {
	for _, told := range []syscall.Signal{syscall.SIGTERM, syscall.SIGHUP} {
		t.Run(told.String(), func(t *testing.T) {
			t.Parallel()
			dir := ringFolder(t)
			before, err := os.ReadFile(filepath.Join(dir, "plan.toml"))
			require.NoError(t, err)
			s := onTerminal(t, dir, "cuewalk", "--runs", "0", "course.toml", "plan.toml", "team.toml")
			s.waitFor(altScreen, "clean run")
			s.typeKeys("a")
			s.waitFor("Alter cue")
			s.typeKeys("\x1b[B\x1b[C")                // the shift, half a stride later
			s.waitFor("Inside all the way *", "was ") // altered: the ring has stars of its own
			require.NoError(t, s.cmd.Process.Signal(told))
			assert.Error(t, s.wait())
			s.restored()
			s.waitFor("plan-2.toml")
			kept, err := os.ReadFile(filepath.Join(dir, "plan-2.toml"))
			require.NoError(t, err)
			assert.NotEqual(t, string(before), string(kept))
			now, err := os.ReadFile(filepath.Join(dir, "plan.toml"))
			require.NoError(t, err)
			assert.Equal(t, string(before), string(now))
		})
	}
}

// What would help on the leg is tried without holding up the keys, listed, and taken with one key.
func TestScreenAdvises(t *testing.T) {
	t.Parallel()
	dir := ringFolder(t)
	file := filepath.Join(dir, "plan.toml")
	good, err := os.ReadFile(file)
	require.NoError(t, err)
	inTheWay := strings.Replace(string(good), "stand = [12, 14]", "stand = [4, 16]", 1)
	require.NotEqual(t, string(good), inTheWay)
	require.NoError(t, os.WriteFile(file, []byte(inTheWay), 0o644))
	s := onTerminal(t, dir, "cuewalk", "--runs", "200", "course.toml", "plan.toml", "team.toml")
	s.waitFor(altScreen, "clean run")
	s.typeKeys("l")
	s.waitFor("what would help here")
	s.typeKeys("o")
	s.waitFor("what would help in the model")
	s.typeKeys("1")
	s.waitFor("taken: cue")
	s.typeKeys("s")
	s.waitFor("saved to plan.toml")
	s.typeKeys("q")
	assert.NoError(t, s.wait())
	s.restored()
}

// A course alone is read, and a first plan can be started from there.
func TestScreenReadsACourse(t *testing.T) {
	t.Parallel()
	dir := ringFolder(t)
	s := onTerminal(t, dir, "cuewalk", "--runs", "0", "course.toml", "team.toml")
	s.waitFor("no plan", "Before its eyes")
	s.typeKeys("s")
	s.waitFor("to which new file?")
	s.typeKeys("\r")
	s.waitFor("a first plan was written")
	s.typeKeys("q")
	assert.NoError(t, s.wait())
	s.restored()
	check := exec.Command("cuewalk", "check", "course.toml", "team.toml", "course-plan.toml")
	check.Dir = dir
	out, err := check.CombinedOutput()
	assert.NoError(t, err, "%s", out)
}

// Ctrl-Z gives the terminal back to the shell, and fg takes it again.
func TestScreenStopsAndGoesOn(t *testing.T) {
	t.Parallel()
	sh, err := exec.LookPath("sh")
	if err != nil {
		t.Skip("no shell with job control here")
	}
	s := onTerminal(t, ringFolder(t), sh, "-i")
	s.waitFor("$ ")
	s.typeKeys("cuewalk --runs 0 course.toml plan.toml team.toml\n")
	s.waitFor(altScreen, "clean run")
	s.typeKeys("\x1a")
	s.waitFor(noAltScreen, showCursor, noMouse)
	s.waitFor("topped") // "Stopped" or "[1] + Stopped", as the shell says it
	s.forget()
	s.typeKeys("fg\n")
	s.waitFor(altScreen, hideCursor, mouse, "clean run")
	s.typeKeys("q")
	s.waitFor(noAltScreen, showCursor, noMouse, "$ ")
	s.typeKeys("exit\n")
	assert.NoError(t, s.wait())
}

func TestScreenPanics(t *testing.T) {
	t.Parallel()
	s := onTerminal(t, ringFolder(t), "cuewalk-panics")
	var failed *exec.ExitError
	require.ErrorAs(t, s.wait(), &failed)
	assert.Equal(t, wrongUse, failed.ExitCode())
	s.waitFor("made for a test")
	s.restored()
}

// A terminal that is closed ends the program instead of leaving it behind.
func TestScreenTerminalCloses(t *testing.T) {
	t.Parallel()
	// Tests started with hangups ignored would hand that on to the program.
	hangup := make(chan os.Signal, 1)
	signal.Notify(hangup, syscall.SIGHUP)
	t.Cleanup(func() { signal.Stop(hangup) })
	s := onTerminal(t, ringFolder(t), "cuewalk", "--runs", "0", "course.toml", "plan.toml", "team.toml")
	s.waitFor(altScreen, "clean run")
	require.NoError(t, s.tty.Close())
	require.NoError(t, s.pty.Close())
	_ = s.wait()
}

// On a terminal that answers no question, a command that draws nothing must not
// wait for an answer; the screen library alone would wait 5 s.
func TestMuteTerminal(t *testing.T) {
	cmd := exec.Command("cuewalk", "--version")
	cmd.Env = append(os.Environ(), "TERM=xterm-256color")
	start := time.Now()
	f, err := pty.StartWithSize(cmd, &pty.Winsize{Rows: 24, Cols: 80})
	require.NoError(t, err)
	defer f.Close()
	said := make(chan string, 1)
	go func() {
		var b bytes.Buffer
		_, _ = b.ReadFrom(f) // ends with an error when the program does
		said <- b.String()
	}()
	require.NoError(t, cmd.Wait())
	assert.Less(t, time.Since(start), 3*time.Second)
	got := <-said
	assert.Contains(t, got, "cuewalk ")
	assert.NotContains(t, got, "\x1b", "a question to the terminal")
}
