package drill

import (
	"errors"
	"fmt"

	"cuewalk/course/tomlfile"
)

// writeTiming puts a spread of the handler's moments, in seconds, into a team's file; every
// other byte stays.
func writeTiming(file string, spread float64) error {
	if file == "" {
		return errors.New("this team is in no file")
	}
	src, err := tomlfile.ReadFile(file)
	if err != nil {
		return err
	}
	out, err := tomlfile.Set(src, tomlfile.Path{"handler", "timing"}, fmt.Sprintf("%.2f", min(max(spread, 0), 1)))
	if err != nil {
		return err
	}
	return tomlfile.Save(file, out)
}
