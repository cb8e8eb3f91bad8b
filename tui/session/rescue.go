package session

import (
	"errors"
	"fmt"
	"strings"
)

// Rescue keeps what would be lost when the program ends without having asked, because it was
// told to or broke: every plan with unsaved changes goes into a new file beside its own, once.
// The error says where, and what could not be kept.
func (s *Session) Rescue() error {
	var kept []string
	var failed []error
	for _, d := range s.docs {
		if !d.Unsaved() {
			continue
		}
		path := newName(d.file, func(name string) bool {
			_, err := s.c.Read(name)
			return err == nil || s.taken(name)
		})
		data, err := d.contents(d.Plan(), s.course)
		if err == nil {
			err = s.c.Create(path, data)
		}
		if err != nil {
			failed = append(failed, fmt.Errorf("changes to %q are lost: %w", d.Plan().Name, err))
			continue
		}
		d.Drop() // it is kept: a second rescue has nothing to do
		kept = append(kept, path)
	}
	if len(kept) > 0 {
		failed = append(failed, errors.New("ended before changes were saved; they are kept in "+strings.Join(kept, ", ")))
	}
	return errors.Join(failed...)
}
