package dates

// Own constants, all of them. Those of a sowing's fate were set so that the
// windows of the published recommendations in the test of published windows
// come out; their forms follow the reasons those recommendations give.
const (
	// defaultSuccess is the share of years a sowing day must succeed in.
	defaultSuccess = 0.8

	// standShare is the share of a sowing's seedlings that must come through
	// for the year to count as a success.
	standShare = 0.33

	// How two sowings in like weather differ (tilth, depth, seed, care): standard
	// deviation of the logarithm of the stand. National trials of one grass sown in
	// one autumn, well cared for, were 37, 51, 60, 74 and 92 % established the next
	// year at five sites (2017 smooth meadow-grass test: Iowa, Nebraska, Michigan, New
	// Jersey, Maryland), which is 0.35 with the weather of the sites in it.
	luckSpread = 0.35

	// Ground that can be worked, on some day of the week.
	workC    = 0.5
	workWet  = 0.9 // of the day above field capacity
	workDays = 7

	// Seed in the ground is lost day by day to birds, wash and rot while it is
	// warm and moist enough for it to stir, less while it lies dry and least in
	// the cold.
	stirC        = 4.4  // below it a sowing lies dormant: University of Minnesota, dormant planting 2022
	wasteFullC   = 12.0 // from which loss is at its full rate
	freeDays     = 14   // of full loss that do not matter
	lossPerD     = 0.02
	seedDays     = 45.0 // of stirring: not up by then, the sowing is lost,
	seedRange    = 15   // and it suffers for so many before
	sleepDays    = 45   // of cold that make a sowing a dormant one,
	bedded       = 15   // which frost has worked in, so that it stands so many days more
	coldLossPerD = 0.001
	// Cold wet ground in which seed stirs and rots: below the 8 °C from which DIN 18917
	// lets lawns be sown (second-hand), so much a day at the coldest of it.
	chillC        = 8.0
	springSoilC   = 8.0 // from which lawns are sown in spring, and to which in autumn: the same; ryegrass and bents sown earlier came up at 10 (HortTechnology 31(1):42)
	coldBedC      = 6.0 // in a colder bed no window of spring is open: grass grows from about there (common practice, no published source)
	chillLossPerD = 0.03
	dryLossPerD   = 0.005
	// Seed that has gone this share of the way to emergence when the deep frost
	// comes is safe, or lost.
	sproutSafe   = 0.2
	sproutLost   = 0.5
	sproutFrostC = -3.0 // coldest crown that is deep frost

	// What a young plant needs beyond the first mowing. hardyShare and idleShare were set by
	// the autumn days that publications of cold places end with: North Dakota, Saskatchewan,
	// New Brunswick, Umeå, interior Alaska and Minnesota's roadsides.
	hardyShare  = 0.95 // of the growth to first mowing makes it as hardy as it gets
	hardySpread = 0.25
	idleFree    = 120.0 // days without growth in a winter that ask for no reserves,
	idleFull    = 230.0 // and so many more that ask for those of a plant that has
	idleShare   = 0.5   // this share of the growth to first mowing
	tenderC     = -5.0  // LT50 of a grass that has not hardened
	useShare    = 2.0   // of the growth to first mowing until a grass has closed over its ground
	useCover    = 0.75  // of the ground covered, at which it bears use: cover that DIN 18917 asks of a sown lawn handed over
	realPart    = 0.10  // by weight, of a grass that is mown for as soon as it is tall enough
	sproutC     = -8.0  // a crown that cold in the month after emergence kills half the seedlings
	sproutDays  = 30
	sproutRange = 3.0

	// A stand not mown after so many days, a winter included, and so many more,
	// never makes a lawn.
	slowestDays = 300.0
	slowRange   = 60.0

	// Annual weeds that come up with the grass and grow until the frost:
	// summed warm-season growth still ahead that halves the stand.
	weedHalf   = 130.0
	weedFrostC = -1.0 // minimum that kills them
	// Heat in the first month, degree-days of the mean above heatFromC.
	heatFromC = 24.0
	heatDays  = 30
	heatHalf  = 60.0
	// Drought: days without water, at the surface while the seedling lives on it
	// and in the rootzone after that, that halve the stand.
	dryHalf       = 30.0
	dryBelow      = 0.4  // of the available water
	dryFromC      = 5.0  // cooler days ask for no water
	soakDays      = 5    // before emergence, when seed has taken up water
	rootDays      = 14   // after it, until roots are below the surface
	dryDays       = 75   // after it; older grass has roots
	youngDraws    = 0.5  // of the water that the standing sward draws, for which the balance is kept
	wateringLapse = 0.15 // share of dry days that watering lets through
	parchHalf     = 14.0 // days without water that halve seedlings on their first roots
	// chance that somebody who means to water lets the bed dry at the wrong time, as
	// most sowings that fail do for want of water (University of Minnesota, roadside
	// turf; no rate is given there).
	missedWatering = 0.12

	// The seedbed. Evaporation dries 0.10 to 0.15 m of bare ground (FAO-56 table 19),
	// the top of it first. capillaryRiseMMD, what a wet layer sends up to a dry top in a day,
	// was set so that the top of a bed wetted through stays moist enough for seed a
	// day where the air takes 5 mm, three at 2.5 mm and a week at 1 mm (common
	// practice, no published source). Mulch takes off 5 % of the evaporation for each
	// 10 % of the ground that it covers (FAO-56 chapter 11), here four fifths.
	bedDepthMM       = 20.0
	lowDepthMM       = 80.0
	bedSteps         = 4
	capillaryRiseMMD = 6.0
	mulchedKc        = 0.6
	sownDepthMM      = 5.0 // raked in
	wiltSpread       = 0.24
	// Water potential at field capacity and at the wilting point, and the one below
	// which seed stands still: tall fescue, Sharifiamina, Moot and Bloomberg 2016.
	capacityMPa = 0.033
	wiltingMPa  = 1.5
	germBaseMPa = 0.95
	germLidC    = 27.5 // soil from which warmth brings no more: the same

	// Rain that runs off: more than so much in a day, so much of which halves the
	// stand on level ground and half as much on a slope of washSlopeDeg, until
	// seedlings have held the ground for holdDays.
	washFromMM   = 25.0
	washHalfMM   = 250.0
	washSlopeDeg = 5.0
	holdDays     = 20

	// Bare ground going into winter: what wash, moss and winter weeds leave
	// where nothing has grown, were the ground open all winter.
	bareWinter  = 0.7
	livingSpare = 0.5 // of that a living sward spares the gaps that it closes, as far as it covers the ground: wash, not moss and weeds; our own
	deepWinter  = 75  // days before and after its middle
	coverShare  = 0.6 // of the growth to first mowing covers it
	leafShare   = 0.5 // left of young grass that leaves fall on before its second mowing

	// A window opens on a day within windowShare of its best and closes on one on which
	// closeShare of the best day's seedlings still come through, or sooner, where days succeed
	// less often than is asked. It was set as high as costs none of the published windows; it
	// bears on mild winters alone. The day to sow is the first within bestShare, since each
	// week of delay costs growth.
	windowShare = 0.88
	closeShare  = 0.6
	bestShare   = 0.985
	hardlyAny   = 0.02 // share of the years below which something is said never to come
	surerBy     = 0.05 // of the years by which autumn's being surer than spring is worth a word: our choice
	secondShare = 0.5  // of the asked chance that a second choice has at least
	tieShare    = 0.87 // windows within this share of the best score are ranked by date
	springSlack = 0.06 // the first day of spring so near the best is taken,
	springShare = 0.85 // on which no more of the seedlings than this are lost; both set by the days that published springs are about
	mownSlack   = 0.03 // an autumn day is taken for being mown before winter at the cost of so much of its chance
	mownShare   = 0.9  // and of no more of its stand than this leaves
	growthEnds  = 100  // days before the coldest of the year, where winters are hard
	shortestRun = 5
	joinDays    = 7
	smoothDays  = 5    // to either side
	ripple      = 1.03 // a rise above the trough between two windows that makes them two
	edgeDays    = 10   // how far outside a window its reason is looked for
	sampleYears = 40   // in which reasons are looked for
	// Summer, in days before and after the warmest of the mean year.
	summerBefore = 30
	summerAfter  = 20

	// Turf: thermal time above [species.GrowthBaseC] to rooting and to use.
	turfRootDegDays = 120.0
	turfUseDegDays  = 320.0
	turfSoilC       = 2.0
	turfRootDays    = 45
	fortnight       = 14
	turfSlack       = 0.03 // a later day must be so much surer than an earlier one
	turfNearHotK    = 2.0
	turfHotRange    = 4.0 // K about it in which turf goes from safe to lost
	turfThirstDays  = 21  // after laying in which drought takes it, if it has not rooted before
	turfParchHalf   = 5.0 // days without water that take half of it
	// Turf that does not root before the winter: laid in early December it was ready by
	// May in both winters of a trial (Henderson, University of Connecticut, 2007).
	turfWinter = 0.75
	turfHotC   = 30.0 // mean daily maximum of the fortnight after laying at which half of turf fails even if watered

	// watering until the sward bears use: what roots reach is filled up when
	// half of it has gone.
	surfaceLeast = 0.5
	bedDepthM    = 0.02
	rootingMD    = 0.0025 // roots of seedlings grow deeper a day (from memory: 2 to 3 mm)
	soilBelow    = 0.7    // share of its available water that the soil they reach holds
	mostWeeks    = 12
	leastWeekMM  = 0.5 // not worth a watering
	turfKc       = 0.95
	bareKc       = 1.05
	drySeason    = 0.9 // the dry year in ten
)
