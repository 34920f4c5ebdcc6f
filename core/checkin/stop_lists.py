"""Word lists that several rules of the stop-sign scan share. Common practice, no source."""

PAIN = (
    "pain, pains, painful, hurt, hurts, hurting, ache, aches, aching, sharp, stabbing, burning, "
    "discomfort, cramp, cramping, agony, killing, burns, stings, stinging, throbbing, throbs, stabs"
)
SWOLLEN = "swollen, swelling, swelled, swells, swell, swole up, puffy, puffed up, blown up, ballooned"
CANT = (
    "cant, cannot, can not, couldnt, could not, unable to, not able to, wasnt able to, "
    "impossible to, havent been able to, not been able to, have not been able to, dont can, "
    "can no, do not can, not can, barely, hardly, scarcely, struggle to"
)
PEE = "pee, peeing, wee, weeing, urine, urinate, urinating, piss, bladder, pass water, passing water"
