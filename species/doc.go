// Package species holds the turfgrasses, their traits with sources, and the
// suitability matrix that rates each against a site.
//
// # The table
//
// [Load] reads the grasses from species.toml. Every figure of every grass is a
// [Value]: the figure used, the range of the sources, how well it is founded, and
// where it comes from. Only the bases [Read] and [Near] are evidence; a page that
// shows a figure shows its basis with it.
//
// # The responses
//
// The response functions say what one stress does to one grass: [LightCover],
// [WinterSurvival] (LT50 after that autumn's hardening and the thaws before the
// coldest night, against the coldest crown), [MouldSurvival], [IceSurvival],
// [DroughtSurvival], [HeatSurvival], [WarmthFit], [WetSurvival], [AirFit],
// [MowingFit], [NitrogenFit], [WearLoss], [PHFit] (Burrough 1989) and [SaltFit]
// (Maas & Hoffman 1977). Each lies in [0, 1], falls with the stress and rises with
// the trait that withstands it. Their constants stand together at the head of
// response.go with what they were fitted to. They take years as the sward of a
// zone feels them: see [YearInZone].
//
// # The matrix
//
// Each [Criterion] rates one grass in one zone from 0 to 1. Losses that come year
// by year are averaged over the synthetic years and rated by what a summer's
// growth makes good. To add a criterion, write one file with its value and name it
// in Criteria.
//
// Ratings become a land index in two steps. Criteria that act through the same
// weakness, such as frost and snow mould, form one land quality (FAO Framework
// for Land Evaluation 1976), and the worst of them rates it: counted apart they
// would punish one weakness twice. The qualities combine by the square root
// method of Khiddir (1986), in which the worst dominates: see [SquareRoot]. The
// index is named by the FAO classes with the limits of Sys, Van Ranst & Debaveye
// (1991).
//
// # Uncertainty
//
// rate draws the traits within their ranges, and the site's light, crown
// temperature, pH and wetness within what their models may be wrong by, and counts
// how often each class comes out and how often each grass is among the leading
// five of its zone. Traits are drawn triangularly, for the sources give a range
// and a likely figure and no more. The draws are judged by a few quantile years of
// each stress, which stand for all of them to within about a tenth of a rating.
package species
