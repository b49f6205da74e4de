package light

const wholeLawn = "the whole lawn"

// divide gathers the cells into zones.
func (f *Field) divide(s Scene) {
	var z Zone
	for _, c := range f.Cells {
		z.AreaM2 += c.AreaM2
	}
	z.Letter, z.Name, z.Share = "A", wholeLawn, 1
	f.Zones = []Zone{z}
}
