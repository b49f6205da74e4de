package practice

import (
	"bytes"
	"maps"

	"github.com/BurntSushi/toml"
)

// Brief is the lawn of a row as the text of a brief, at the latitude of its station.
func (r *Row) Brief(latitudeDeg float64) ([]byte, error) {
	place := map[string]any{"latitude": latitudeDeg, "station": r.Station}
	if r.AltitudeM != nil {
		place["altitude_m"] = *r.AltitudeM
	}
	doc := map[string]any{"title": r.ID, "place": place, "lawn": map[string]any{"area_m2": 100.0}, "light": r.Light, "use": r.Use}
	if len(r.Ground) > 0 {
		doc["ground"] = maps.Clone(r.Ground)
	}
	if len(r.Job) > 0 {
		doc["job"] = maps.Clone(r.Job)
	}
	var text bytes.Buffer
	err := toml.NewEncoder(&text).Encode(doc)
	return text.Bytes(), err
}
