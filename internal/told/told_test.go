package told

import (
	"reflect"
	"testing"
)

func TestSay(t *testing.T) {
	if !(Sentence{}).Silent() || Say("room.name").Silent() {
		t.Error("a sentence is silent if and only if it has no name")
	}
	s := Say("room.name", All(Grass("a"), Grass("b")), Between(DepthMM(12), DepthMM(25)))
	want := Sentence{"room.name", []Figure{
		List{[]Figure{Grass("a"), Grass("b")}, And},
		Range{DepthMM(12), DepthMM(25)},
	}}
	if !reflect.DeepEqual(s, want) {
		t.Errorf("got %v, want %v", s, want)
	}
}
