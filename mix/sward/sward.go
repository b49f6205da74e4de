// Package sward follows a lawn of several grasses through its first five
// growing seasons.
package sward

// Seasons is how many growing seasons are followed.
const Seasons = 5

// Season is the sward at the end of one growing season, mean over synthetic
// years and zones.
type Season struct {
	Year     int                // 1 to Seasons
	Cover    float64            // living cover, 0 to 1
	BadCover float64            // the same in the worst tenth of the years
	Shares   map[string]float64 // percent of the living sward by species id, invaders included
}
