package drill

import tea "github.com/charmbracelet/bubbletea"

// Run opens the screen on the terminal and returns when it is left.
func Run(o Options) error {
	m, err := New(o)
	if err != nil {
		return err
	}
	p := tea.NewProgram(m, tea.WithAltScreen(), tea.WithMouseCellMotion(), tea.WithFPS(120))
	_, err = p.Run()
	return err
}
