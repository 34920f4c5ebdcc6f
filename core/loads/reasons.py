"""Codes of every reason that a decision can give, with the facts each carries.

Facts are short strings: a load as `92.5 kg` or `bw+5 kg`, whole numbers as `8`, percentages as `90`, a date as
`2026-04-14`, a site as `left knee`. A score that was not given is left out. The words are written elsewhere.
"""

from enum import StrEnum


class ReasonCode(StrEnum):
    """Why a load is what it is; in order of authority."""

    FROZEN = "frozen"
    """A stop sign or a health question holds the whole plan until the coach releases it. (PAUSE)"""

    ILL_CLINICIAN = "ill clinician"
    """Chest symptoms that stay, hospital, an operation, a concussion: held until the coach takes it up. (PAUSE)"""
    ILL = "ill"
    """Ill: no training until free of symptoms, and some days more without fever medicine. days (how many more); date
    (from which, once the day free of symptoms is known). (PAUSE)"""
    BIRTH_HELD = "birth held"
    """A birth in the last 12 months: a clinician first, held until the coach takes it up. (PAUSE)"""
    PREGNANT = "pregnant"
    """In a pregnancy nothing rises by itself."""
    TAKEN_UP = "taken up"
    """The first session of an exercise after a stop sign was released: nothing rises."""
    ILL_COLD = "ill cold"
    """A head cold: nothing rises."""
    ILL_EASY = "ill easy"
    """An easy day with a head cold: lighter, half the sets. percent (of fall), sets; load (the ceiling; left out where
    there is only bodyweight)."""
    ILL_BACK = "ill back"
    """The first session after an illness: lighter, half the sets. percent (of fall), sets; load (the ceiling; left out
    where there is only bodyweight)."""
    ILL_OVER = "ill over"
    """After the lighter session that followed an illness: the load from before it again. load."""
    LIMIT_FORBIDS = "limit forbids"
    """A clinician's limit leaves nothing of this exercise. by; until (last day) if there is one; review (the day it was
    to be looked at) once that has come. (PAUSE)"""
    LIMIT_LOAD = "limit load"
    """A clinician's most load. by, load; until and review as above."""

    PAIN_LOCKED = "pain locked"
    """Pain of 7 and over: nothing that loads the site until the coach releases it. site, date; score if given.
    (PAUSE)"""
    PAIN_SUDDEN = "pain sudden"
    """Sudden pain or a pop: the same. site, date; score if given. (PAUSE)"""
    PAIN_SPREADING = "pain spreading"
    """Down a leg or arm, numb or tingling: no loaded hinge, nothing that presses on the spine or loads the site,
    until the coach releases it. site, date; score if given. (PAUSE)"""
    PAIN_NO_FINDING = "pain no finding"
    """No load is looked for while a site it loads hurts 4 or more, or without a number. site, date; score if
    given. (PAUSE)"""
    PAIN_DROP = "pain drop"
    """Pain of 4-6, or without a number, on this exercise: lighter until two sessions at 2 or less.
    site, date, percent (of fall), load (the ceiling; left out where there is only bodyweight); reps (the target,
    only where the load itself cannot fall); score if given."""
    PAIN_RELEASED = "pain released"
    """The coach released what was locked: not over a share of the last pain-free load until two sessions at 2
    or less.
    site, date (of the report), percent (of that load), load (the ceiling, left out with bodyweight); score if
    given."""
    PAIN_NO_RAISE = "pain no raise"
    """Pain of 4-6, or without a number, at a site that this exercise loads: not heavier. site, date; score if
    given."""
    PAIN_WAY_BACK = "pain way back"
    """Two calm sessions behind: not over a share of the last pain-free load, raises at half speed.
    site, percent, load (the ceiling; left out with bodyweight), until (date)."""
    PAIN_HOLD = "pain hold"
    """Pain of 1-3 at a site that this exercise loads: held for two sessions. site, date, score, sessions
    (still to come)."""

    COACH_PAUSED = "coach paused"
    """The coach paused this exercise until she takes it up again. (PAUSE)"""
    COACH_EASED = "coach eased"
    """The coach eased this session. sets (how many fewer); percent (of fall) and load (the ceiling), only where the
    load falls."""
    COACH_LIGHTER = "coach lighter"
    """A lighter week by the coach's order. sets; percent (of the usual load) and load (the usual one), only where a
    load is known."""
    COACH_LOAD = "coach load"
    """The coach has ordered this load; it goes no higher. load (hers, or the next lighter that can be made)."""
    COACH_HELD = "coach held"
    """The coach wants nothing to rise. load (now); until (last day) if there is one."""
    COACH_FULL = "coach full"
    """The coach has taken a planned lighter week out: not over the load now. load, where one is known."""
    RAISE_WAITS = "raise waits"
    """A raise over the size that the coach wants to see first: the load stays until she agrees. load (now), next,
    percent (of the raise)."""
    EASE_OVER = "ease over"
    """After a session that the coach had eased: the load from before it again. load."""
    LIGHTER_OVER = "lighter over"
    """A lighter week that the coach had written is over: it goes on from the load before it. load (that one), date."""
    OWN_REPS = "own reps"
    """The exercise comes with other reps in turn, and these go on from their own last time. load, date, count (the
    reps or seconds, as `8-10`)."""
    COACH_LOWER = "coach lower"
    """The coach newly wrote a lower load than the log gives: hers wins. load (hers), log (what the log gives)."""

    COMEBACK_HOLD = "comeback hold"
    """8-13 days away: the last load again, one more rep left. days, load."""
    COMEBACK = "comeback"
    """14-55 days away: a share of the last good load, rising by session; raises wait until the old load is back.
    days, percent, load (last good load), step (1..), steps (how many)."""
    COMEBACK_COACH = "comeback coach"
    """56 days away or more: the coach sets the way back; not over 80 % until she has. days, percent, load
    (last good load)."""

    DELOAD = "deload"
    """A planned lighter week. percent (of the usual load), sets; load (the usual one, if there is one)."""

    NO_LIMIT = "no limit"
    """Sets without an end in the first three months, after a break, with pain, in a pregnancy, with untreated blood
    pressure, from 60 on or alone under a bar: never fewer left than this. left."""
    PREGNANT_LEFT = "pregnant left"
    """In a pregnancy: never fewer left than this. left."""
    PRESSURE = "pressure"
    """High blood pressure that is not treated: no set to the limit, never fewer left than this. left."""
    ALONE_UNDER_BAR = "alone under a bar"
    """No safeties and usually alone: never fewer left than this. left."""
    AGE = "age"
    """60 and over: half the caps, never fewer left than this. left."""

    MERGED = "merged"
    """The session takes in a lift of another day: nothing rises in it, and nothing rises from it. load (now)."""

    CAP = "cap"
    """The next step of the kit is over the most that a load may rise at once. load (now), cap (the most now), next and
    percent (of the jump to the first step over the cap; left out at the top of the kit), reps (in every set that
    earn it; only where reps rise towards it)."""
    CAP_WEEK = "cap week"
    """Enough rise for a week. load (now), percent, cap (the most now), date (from which it is counted)."""
    CAP_FOUR_WEEKS = "cap four weeks"
    """Enough rise for four weeks. load (now), percent, cap (the most now), date (from which it is counted)."""

    SETS_WEEK = "sets week"
    """A muscle has had enough more sets this week than before. sets (of this exercise today), muscle, before (a week),
    most (this week)."""

    START_ANEW = "start anew"
    """After a birth, released by the coach: a load is looked for as by somebody new. load (written, not over it)."""
    START_WRITTEN = "start written"
    """First time: the load as the coach wrote it. load."""
    START_FIND = "start find"
    """First time: find the load in the session. reps, left (stop there), sets (at most), low and high (rise
    from set to
    set, percent), first (where it begins); sister (the lift that says so), if one does."""
    START_BODYWEIGHT = "start bodyweight"
    """First time: bodyweight. reps or seconds."""
    START_NO_LOAD = "start no load"
    """First time, and it has no load. reps or seconds."""

    RAISE_DONE_TWICE = "raise done twice"
    """Fixed reps: every set done in two sessions running at the same load. load (before), next, sets,
    reps or seconds, sessions."""
    RAISE_TOP = "raise top"
    """A range: every set at the top. load (before), next, sets, reps or seconds (the top)."""
    RAISE_EARNED = "raise earned"
    """A step over the cap was earned with reps. load (before), next, percent (of the jump), reps (done in every set),
    earned (reps that it took)."""
    RAISE_WRITTEN = "raise written"
    """The coach wrote a heavier load for this week, and the last session was done. load (before), next, written."""
    REPS_CHANGED = "reps changed"
    """The block asks for other reps than last time: the load follows. load (before), next, before, now
    (each as `8` or `8-12`), percent (signed, `+5.0`)."""
    WORK_CHANGED = "work changed"
    """The block counts seconds where it counted reps, or the other way: the load stays. load."""
    RAISE_STEP = "raise step"
    """A step up from last time that the coach wrote. load (before), next, sets, reps or seconds or metres."""
    RAISE_WEEK = "raise each week"
    """The next load once a week, every set done. load (before), next, sets, reps or seconds or metres."""
    RAISE_LEFT = "raise by reps left"
    """More reps were left than asked. load (before), next, sets, reps, left (said), asked."""
    RAISE_LAST_SET = "raise by the last set"
    """The open last set had two reps over in two sessions running. load (before), next, sets, reps, done (in it)."""
    RAISE_TOTAL = "raise total"
    """The reps of all sets together reached the top. load (before), next, sets, done and goal (in all)."""
    TABLE_RAISE = "table raise"
    """By the table of the way up. table (its name), reps (of the last set), load (of that set), next."""
    TABLE_SAME = "table same"
    """By the table, what was given last time again. table, reps, load (of the last set), next."""
    TABLE_LOWER = "table lower"
    """By the table, lighter. table, reps, load, next."""
    TABLE_BELOW = "table below"
    """Fewer reps than the table has: lighter, and the coach decides. table, reps, load, next."""
    AS_WRITTEN = "as written"
    """The load of the row and no other."""
    PERCENT = "percent"
    """A share of a maximum that the log has. percent, of (`estimate` or `max`), maximum."""
    NO_MAXIMUM = "no maximum"
    """A share of a maximum that the log does not have: the load stays. percent, of (`estimate` or `max`)."""
    UNCHANGED = "unchanged"
    """The coach wants the same again. load."""
    WEEK_HOLD = "week hold"
    """It rises once a week, and this load is new this week. load, date (from which)."""
    LEFT_UNKNOWN = "left unknown"
    """It rises by reps left, and no number was given. load."""
    LEFT_HOLD = "left hold"
    """It rises by reps left, and no more were left than asked. load, left (said), asked."""
    LAST_SET_HOLD = "last set hold"
    """It rises by the open last set, which is not there yet. load, done (in it), goal (twice running)."""
    VARIANT_NEXT = "variant next"
    """Every set at the top: a harder exercise is next, and the coach writes it. load, next (it), reps or seconds or
    metres (the top)."""
    VARIANT_LAST = "variant last"
    """Every set at the top in the hardest exercise of the path. load, reps or seconds or metres (the top)."""

    ADD_REP = "add a rep"
    """Same load, more reps in every set. reps (the target); load."""
    ADD_SECONDS = "add seconds"
    """Same load, longer sets. seconds (the target); load."""
    DONE_ONCE = "done once"
    """Fixed reps: every set done once at this load; once more and it rises. load; reps or seconds."""
    BRIDGE = "bridge"
    """Reps are past the long range, or there is no heavier step that fits: first set heavier, slow lowering or
    a harder
    variant; a talk with the coach. reps or seconds (done in every set); next and percent where there is a
    step; load."""
    TOP_OF_KIT = "top of the kit"
    """Nothing heavier can be loaded here. load; reps or seconds."""

    FEW_LEFT = "few left"
    """All done, but with fewer reps left than asked: the same again. left (said), asked."""
    HARD_SESSION = "hard session"
    """All done, but the session was very hard: the same again. effort."""
    TAPS_ALONE = "taps alone"
    """The last raise and this one would rest on taps alone: one number of reps left is needed first. load."""
    NOT_ALL_DONE = "not all done"
    """Not every set was done, and nothing was missed by strength: the same again. load; done and sets (how
    many of how
    many); cause if said (`time`, `kit`, `grip`, `pain`, `ill`)."""
    LIGHTER_CHOSEN = "lighter chosen"
    """Every set was done at a lighter load than asked: that load again. load, asked."""
    FOUND = "found"
    """The load that was found last time. load; reps or seconds."""

    MISS_FIRST = "miss first"
    """Fewer reps than asked, once: the same again. load; reps or seconds (fewest done), asked."""
    MISS_SECOND = "miss second"
    """Fewer reps than asked, twice running: lighter. load (before), next, percent (of fall)."""
    MISS_THIRD = "miss third"
    """Fewer reps than asked, three times running: the coach decides; held. load, times."""

    SIDES_APART = "sides apart"
    """One side was behind the other in two sessions running: it goes first, the other matches it. side (the weaker:
    `left` or `right`), reps (at least so many behind)."""

    ROUNDED_DOWN = "rounded down"
    """What was meant cannot be loaded here; the next lighter can. wanted, load."""
    NOTHING_LIGHT_ENOUGH = "nothing light enough"
    """The lightest that can be loaded is over the load line: something else instead. lightest, line. (SWAP)"""
    NO_KIT = "no kit"
    """There is nothing here to load this exercise with: something else instead. place. (SWAP)"""
