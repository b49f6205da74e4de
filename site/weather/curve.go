package weather

import (
	"math"
	"sync"

	"swardwright/internal/calendar"
)

// dailyCurve draws a smooth yearly curve through twelve monthly means so that
// the mean of each month's days is exactly the value given: the harmonic method
// of Epstein, J. Climate 4:365 (1991), with the harmonics solved on the true
// lengths of the months instead of twelfths of a year.
func dailyCurve(months [12]float64) (days [365]float64) {
	basis, inverse := harmonics()
	var coefficient [12]float64
	for k := range coefficient {
		for m, v := range months {
			coefficient[k] += inverse[k][m] * v
		}
	}
	for d := range days {
		for k, c := range coefficient {
			days[d] += c * basis[d][k]
		}
	}
	return days
}

// harmonics returns the values of the twelve basis functions (constant, five
// cosine and sine pairs, sixth cosine) on each day, and the matrix that turns
// monthly means into their coefficients.
var harmonics = sync.OnceValues(func() (basis [365][12]float64, inverse [12][12]float64) {
	for d := range basis {
		t := 2 * math.Pi * (float64(d) + 0.5) / 365
		basis[d][0] = 1
		for j := 1; j <= 5; j++ {
			basis[d][2*j-1] = math.Cos(float64(j) * t)
			basis[d][2*j] = math.Sin(float64(j) * t)
		}
		// Months are centred near odd multiples of a 24th of the year, where
		// the sixth sine peaks and the sixth cosine vanishes.
		basis[d][11] = math.Sin(6 * t)
	}
	var means [12][12]float64
	for d := range basis {
		m := calendar.MonthOf(d)
		for k := range basis[d] {
			means[m][k] += basis[d][k] / float64(calendar.MonthDays[m])
		}
	}
	return basis, invert(means)
})

// invert solves by Gauss-Jordan elimination with partial pivoting.
func invert(a [12][12]float64) (inv [12][12]float64) {
	for i := range inv {
		inv[i][i] = 1
	}
	for c := range a {
		pivot := c
		for r := c + 1; r < 12; r++ {
			if math.Abs(a[r][c]) > math.Abs(a[pivot][c]) {
				pivot = r
			}
		}
		a[c], a[pivot] = a[pivot], a[c]
		inv[c], inv[pivot] = inv[pivot], inv[c]
		f := 1 / a[c][c]
		for k := range a[c] {
			a[c][k] *= f
			inv[c][k] *= f
		}
		for r := range a {
			if r == c {
				continue
			}
			g := a[r][c]
			for k := range a[r] {
				a[r][k] -= g * a[c][k]
				inv[r][k] -= g * inv[c][k]
			}
		}
	}
	return inv
}

// linear draws straight lines between the middles of the months, for
// quantities that need not keep their monthly means.
func linear(months [12]float64) (days [365]float64) {
	start := 0
	for m, n := range calendar.MonthDays {
		next := (m + 1) % 12
		from := float64(start) + float64(n)/2
		gap := float64(n+calendar.MonthDays[next]) / 2
		for d := range int(gap) + 2 {
			day := int(math.Ceil(from-0.5)) + d
			at := (float64(day) + 0.5 - from) / gap
			if at > 1 {
				break
			}
			days[day%365] = months[m] + at*(months[next]-months[m])
		}
		start += n
	}
	return days
}
