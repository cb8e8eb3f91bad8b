package rulebook

import (
	"fmt"
	"strconv"
	"strings"

	"cuewalk/course/tomlfile"
)

// all lists the sets in the order they are shown: the FCI's oldest first, then the others.
var all = join(fci(), kennelClub(), national(), others())

func join(lists ...[]*Rules) []*Rules {
	var sets []*Rules
	for _, l := range lists {
		sets = append(sets, l...)
	}
	return sets
}

// Known lists the names Find takes, in the order they should be shown.
func Known() []string {
	names := make([]string, len(all))
	for i, r := range all {
		names[i] = r.Name
	}
	return names
}

// Find returns the rules with this name. Case and spacing do not matter. An
// unknown name is an error that suggests the nearest and lists the known.
func Find(name string) (*Rules, error) {
	for _, r := range all {
		if plain(r.Name) == plain(name) {
			return r, nil
		}
	}
	known := strings.Join(Known(), ", ")
	if near := nearest(name); near != "" {
		return nil, fmt.Errorf("unknown rules %q; did you mean %q? known are %s", name, near, known)
	}
	return nil, fmt.Errorf("unknown rules %q; known are %s", name, known)
}

func plain(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), " ")) }

// nearest is the known name that name was probably meant to be, "" for none. An
// edition that is not known gives the newest edition of that organisation that is
// not younger, or else its oldest; else it is the one with the fewest slips of the finger.
func nearest(name string) string {
	if near := nearestEdition(name); near != "" {
		return near
	}
	return tomlfile.Nearest(plain(name), Known())
}

func nearestEdition(name string) string {
	org, year := split(name)
	oldest, newest := "", ""
	for _, r := range all {
		if o, y := split(r.Name); o == org && org != "" {
			if oldest == "" {
				oldest = r.Name
			}
			if year == 0 || y <= year {
				newest = r.Name
			}
		}
	}
	if newest != "" {
		return newest
	}
	return oldest
}

// split returns the organisation and the year of a name; year 0 where it has none.
func split(name string) (org string, year int) {
	words := strings.Fields(plain(name))
	for len(words) > 0 {
		last := words[len(words)-1]
		if y, err := strconv.Atoi(last); err == nil {
			year = y
		} else if last != "before" && last != "after" {
			break
		} else if last == "before" {
			year--
		}
		words = words[:len(words)-1]
	}
	return strings.Join(words, " "), year
}
