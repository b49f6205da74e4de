package report

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/samber/lo"

	"swardwright"
	"swardwright/data"
	"swardwright/internal/constants"
	"swardwright/internal/sheet"
	"swardwright/species"
)

// Below the figures of a plan lie the traits of the grasses and the numbers that the
// models hold in their source. They are asked for like a figure, under two names that
// the JSON doesn't use.
const (
	numbersKey = "numbers" // numbers.ROOM or numbers.ROOM.NAME
	traitsKey  = "traits"  // traits.SPECIES or traits.SPECIES.TRAIT
)

// WhyKeys are where a question to Why may begin.
func WhyKeys() []string {
	keys := []string{numbersKey, traitsKey}
	for _, r := range reasons {
		keys = append(keys, r.path)
	}
	return keys
}

// basisMeans says how sure a trait is by what it rests on.
var basisMeans = map[species.Basis]string{
	species.Read:     "measured for this grass, the text was seen",
	species.Near:     "read for a near taxon, a class or a rank",
	species.Memory:   "recalled from the named publication",
	species.Practice: "common practice, no published source",
	species.Inferred: "inferred, not measured",
}

// whyBelow writes what is known of a number or trait; false when the path is of the
// JSON.
func whyBelow(w io.Writer, path string) (below bool, err error) {
	switch steps := strings.Split(path, "."); steps[0] {
	case numbersKey:
		table, err := constants.Read(swardwright.Core)
		if err != nil {
			return true, err
		}
		return true, whyNumbers(w, table, steps[1:])
	case traitsKey:
		table, err := species.Load(data.FS)
		if err != nil {
			return true, err
		}
		return true, whyTraits(w, table, steps[1:])
	}
	return false, nil
}

// whyNumbers writes the numbers of the models: which rooms have some, those of one
// room, or one.
func whyNumbers(w io.Writer, table constants.Table, steps []string) error {
	rooms := lo.Uniq(lo.Map(table.Groups, func(g constants.Group, _ int) string { return g.Room }))
	if len(steps) == 0 {
		for _, room := range rooms {
			fmt.Fprintf(w, "%s.%-14s %3d\n", numbersKey, room, len(inRoom(table, room)))
		}
		return nil
	}
	room := steps[0]
	if !slices.Contains(rooms, room) {
		return unknown("no model is called", "", room, rooms)
	}
	if len(steps) == 1 {
		roomNumbers(w, table, room)
		return nil
	}
	for _, g := range table.Groups {
		for _, c := range g.Constants {
			if g.Room == room && c.Name == steps[1] {
				fmt.Fprintf(w, "%s.%s.%s = %s\n", numbersKey, room, c.Name, c.Value)
				line(w, "what", c.Why)
				line(w, "with", g.About)
				return nil
			}
		}
	}
	return unknown(room+" has no number", "", steps[1], inRoom(table, room))
}

// roomNumbers writes all numbers of a room.
func roomNumbers(w io.Writer, table constants.Table, room string) {
	for _, g := range table.Groups {
		if g.Room != room {
			continue
		}
		fmt.Fprintln(w)
		if g.About != "" {
			fmt.Fprintln(w, g.About)
		}
		for _, c := range g.Constants {
			fmt.Fprintf(w, "  %s = %s\n", c.Name, c.Value)
			if c.Why != "" {
				fmt.Fprintf(w, "      %s\n", c.Why)
			}
		}
	}
}

// inRoom are the names of a room's numbers.
func inRoom(t constants.Table, room string) (names []string) {
	for _, g := range t.Groups {
		if g.Room == room {
			for _, c := range g.Constants {
				names = append(names, c.Name)
			}
		}
	}
	return names
}

// whyTraits writes the traits of one grass, or one of them.
func whyTraits(w io.Writer, table *species.Table, steps []string) error {
	var ids []string
	for _, s := range table.All() {
		ids = append(ids, s.ID)
	}
	if len(steps) == 0 {
		for _, id := range ids {
			fmt.Fprintf(w, "%s.%s\n", traitsKey, id)
		}
		return nil
	}
	s, ok := table.Find(steps[0])
	if !ok {
		return unknown("no grass is called", "", steps[0], ids)
	}
	var keys []string
	for t := range species.Trait(species.TraitCount) {
		v := s.Values[t]
		keys = append(keys, t.String())
		figure := fmt.Sprintf("%s.%s.%s = %g (%g to %g) %s\n", traitsKey, s.ID, t, v.Best, v.Low, v.High, strings.Replace(t.Unit(), "0 to 1", "of 1", 1))
		switch {
		case len(steps) == 1:
			fmt.Fprint(w, figure)
		case steps[1] == t.String():
			fmt.Fprint(w, figure)
			line(w, "what", t.Means())
			line(w, "from", v.Source)
			line(w, "sure", basisMeans[v.Basis])
			return nil
		}
	}
	if len(steps) == 1 {
		return nil
	}
	return unknown(s.ID+" has no trait", "", steps[1], keys)
}

// unknown is an error about a name that isn't among some, with the nearest of them;
// before is what stands before each of them in a path.
func unknown(what, before, name string, known []string) error {
	if near := sheet.Nearest(name, known); near != "" {
		return fmt.Errorf("%s %s%s; did you mean %[2]s%[4]s?", what, before, name, near)
	}
	return fmt.Errorf("%s %s%s; there is: %s", what, before, name, strings.Join(known, ", "))
}

// restsOn says where the numbers of some rooms are to be seen.
func restsOn(rooms []string) string {
	keys := make([]string, len(rooms))
	for i, room := range rooms {
		keys[i] = numbersKey + "." + room
	}
	return strings.Join(keys, ", ")
}

// line writes one headed line, nothing for an empty one.
func line(w io.Writer, head, s string) {
	if s != "" {
		fmt.Fprintf(w, "%-8s %s\n", head, s)
	}
}
