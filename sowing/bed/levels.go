package bed

// Finished levels beside what does not give way, mm.
const (
	BelowPavingLeastMM = 12  // under paving that is mown over: City of Regina, as in the notes …
	BelowPavingMostMM  = 25  // … to this
	BelowDampProofMM   = 150 // under the damp-proof course of a wall, at least: as in the notes
)
