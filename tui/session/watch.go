package session

import (
	"context"
	"os"
	"path/filepath"
	"time"

	"github.com/fsnotify/fsnotify"
)

// settle is how long a file must be quiet before it is read: editors write in several steps.
const settle = 80 * time.Millisecond

// WatchFolders calls changed with each of the files that is written, until ctx ends. It watches
// the folders they are in, because many editors save by putting another file in the place.
func WatchFolders(ctx context.Context, paths []string, changed func(path string)) error {
	w, err := fsnotify.NewWatcher()
	if err != nil {
		return err
	}
	for _, p := range paths {
		if err := w.Add(filepath.Dir(p)); err != nil && !os.IsNotExist(err) {
			w.Close()
			return err
		}
	}
	go pass(ctx, w, paths, changed)
	return nil
}

func pass(ctx context.Context, w *fsnotify.Watcher, paths []string, changed func(path string)) {
	defer w.Close()
	waiting := map[string]bool{}
	timer := time.NewTimer(time.Hour)
	defer timer.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case e, ok := <-w.Events:
			if !ok {
				return
			}
			for _, p := range paths {
				if filepath.Clean(p) == filepath.Clean(e.Name) && e.Op != fsnotify.Chmod {
					waiting[p] = true
					timer.Reset(settle)
				}
			}
		case <-timer.C:
			for _, p := range paths {
				if waiting[p] {
					delete(waiting, p)
					changed(p)
				}
			}
		case <-w.Errors:
		}
	}
}
