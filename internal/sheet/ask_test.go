package sheet

import (
	"fmt"
	"strings"
	"testing"
)

func TestAsks(t *testing.T) {
	var got []string
	for _, a := range Asks(func(s *Sheet) {
		s.Text("name")
		s.Price("price", 5)
		Choice(s, "kind", "tree", "wall")
		for _, x := range s.Tables("thing") {
			x.Pair("at", -1, 1)
			if x.Given("inner") {
				x.Table("inner").Flag("on")
			}
		}
		s.Table("parts").Keys()
	}) {
		got = append(got, strings.TrimSpace(fmt.Sprint(a.Path, " ", a.Kind, " ", a.Hi[0], a.Words)))
	}
	want := []string{"name text 0 []", "price number 5 []", "kind choice 0 [tree wall]", "thing tables 0 []",
		"thing.at pair 1 []", "thing.inner table 0 []", "thing.inner.on flag 0 []", "parts table 0 []", "parts keys 0 []"}
	if strings.Join(got, "; ") != strings.Join(want, "; ") {
		t.Errorf("got  %s\nwant %s", strings.Join(got, "; "), strings.Join(want, "; "))
	}
}
