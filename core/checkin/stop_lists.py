"""Word lists that several rules of the stop-sign scan share. Common practice, no source."""

PAIN = (
    "pain, pains, painful, hurt, hurts, hurting, ache, aches, aching, sharp, stabbing, burning, "
    "discomfort, cramp, cramping, agony, splitting, killing, burns, stings, stinging, throbbing, throbs, "
    "stabs"
)
SWOLLEN = "swollen, swelling, swelled, swells, swell, swole up, puffy, puffed up, blown up, blew up, ballooned, balloon"
CANT = (
    "cant, cannot, can not, couldnt, could not, unable to, not able to, wasnt able to, "
    "impossible to, havent been able to, not been able to, have not been able to, dont can, "
    "can no, do not can, not can, barely, hardly, scarcely, struggle to"
)
AT_WORK = (
    "when i push, every time i push, when i row, when i run, when i walk, when i lift, when i climb, "
    "when i exert, "
    "when i train, exertion, effort, on stairs, upstairs, uphill, the hill, hills, sled, had to stop, "
    "when i rest, "
    "when i stop"
)
"""What comes with effort and goes with rest."""
PEE = "pee, peeing, wee, weeing, urine, urinate, urinating, piss, bladder, pass water, passing water, waterworks"
PULSES = (120, 220)
"""What a pulse at rest never is; a rate that is told of a session stands beside no word of rest. [beats/min] Our
proposal."""
SUGARS = (10, 39)
"""Low blood sugar as people read it off, in tenths of mmol/l: under 4 is called low in everyday use. From memory."""
HIGH_PULSE = ", ".join(str(each) for each in range(PULSES[0], PULSES[1] + 1))
LOW_SUGAR = ", ".join(f"{each // 10}.{each % 10}" for each in range(SUGARS[0], SUGARS[1] + 1))
