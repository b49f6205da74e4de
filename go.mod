module swardwright

go 1.26.0

require (
	github.com/BurntSushi/toml v1.6.0
	github.com/samber/lo v1.53.0
	github.com/shopspring/decimal v1.6.0
	golang.org/x/text v0.44.0
)
