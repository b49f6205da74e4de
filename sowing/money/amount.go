// Package money prices a plan: a bill of quantities for each way of making the
// lawn, its uncertainty, and the choice between them.
package money

import "github.com/shopspring/decimal"

// Amount is a sum of money: whole minor units of one currency, never a float.
type Amount struct {
	Minor    int64
	Currency string // ISO 4217
}

// Rate is a price per unit, exact.
type Rate struct {
	decimal.Decimal
	Currency string
}
