package light

import (
	"strings"

	"github.com/samber/lo"
)

// Genus is a kind of tree by the light its crown lets through.
type Genus struct {
	Name, English string
	Leaf          Leaf
	On, Off       float64 // share let through in leaf and bare; of an evergreen in summer and winter
	Source        string
}

const (
	wilkinson = "Wilkinson 1992, in Tregenza & Sharples, Daylighting Algorithms, algorithm 1.44: sky seen through a single full-grown crown in Britain"
	usual     = "common practice, no published source"
)

// genera are the trees that stand by lawns. Wilkinson's figures, ten kinds by one
// method, come before those of others.
var genera = []Genus{
	{"Abies", "fir", Evergreen, 0.10, 0.10, usual},
	{"Acer", "maple", Deciduous, 0.18, 0.54, wilkinson},
	{"Aesculus", "horse chestnut", Deciduous, 0.19, 0.52, wilkinson},
	{"Alnus", "alder", Deciduous, 0.24, 0.49, wilkinson},
	{"Betula", "birch", Deciduous, 0.24, 0.54, wilkinson},
	{"Crataegus", "hawthorn", Deciduous, 0.22, 0.44, wilkinson},
	{"Fagus", "beech", Deciduous, 0.19, 0.47, wilkinson},
	{"Fraxinus", "ash", Deciduous, 0.22, 0.53, wilkinson},
	{"Malus", "apple", Deciduous, 0.185, 0.575, usual},
	{"Picea", "spruce", Evergreen, 0.10, 0.10, usual},
	{"Pinus", "pine", Evergreen, 0.27, 0.30, wilkinson},
	{"Populus", "poplar", Deciduous, 0.13, 0.50, wilkinson},
	{"Prunus", "cherry", Deciduous, 0.185, 0.575, usual},
	{"Quercus", "oak", Deciduous, 0.17, 0.50, wilkinson},
	{"Sorbus", "rowan", Deciduous, 0.275, 0.625, usual},
	{"Taxus", "yew", Evergreen, 0.05, 0.05, usual},
	{"Thuja", "thuja", Evergreen, 0.05, 0.05, usual},
	{"Tilia", "lime", Deciduous, 0.11, 0.54, wilkinson},
}

// Genera are the kinds of tree whose crowns are known.
func Genera() []Genus { return genera }

// FindGenus finds a kind of tree by its botanical or English name.
func FindGenus(name string) (Genus, bool) {
	return lo.Find(genera, func(g Genus) bool {
		return strings.EqualFold(g.Name, name) || strings.EqualFold(g.English, name)
	})
}

// crownOf is what is known of a tree's crown: by its genus, or else of all trees
// that keep or drop their leaves.
func (o Obstacle) crownOf() Genus {
	if g, ok := FindGenus(o.Genus); ok {
		return g
	}
	if o.Leaf == Evergreen {
		return Genus{Leaf: Evergreen, On: evergreen, Off: evergreen}
	}
	return Genus{Leaf: Deciduous, On: leafOn, Off: leafOff}
}
