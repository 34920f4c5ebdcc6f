"""The words of a short reply, as tables: a second language is a second `Language`.

Words are written as `core.checkin.tokens.folded` leaves them: lower case, no accents, no apostrophes.
What people type between sets is common practice, no source.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum


class Mark(StrEnum):
    """What a word or a sign stands for."""

    NUMBER = "number"
    CLOCK = "clock"
    WORD = "word"
    SITE = "site"
    TIMES = "times"
    SLASH = "slash"
    AT = "at"
    PLUS = "plus"
    MINUS = "minus"
    SPLIT = "split"
    STOP = "stop"
    QUESTION = "question"
    KG = "kg"
    LB = "lb"
    SECOND = "second"
    MINUTE = "minute"
    BODYWEIGHT = "bodyweight"
    LEFT = "left"
    RIGHT = "right"
    BOTH = "both"
    RIR = "rir"
    RPE = "rpe"
    RESERVE = "reserve"
    REPS = "reps"
    SETS = "sets"
    EVERY = "every"
    A_SIDE = "a side"
    A_HAND = "a hand"
    TOTAL = "total"
    FAILURE = "failure"
    HUNDRED = "hundred"
    POINT = "point"
    HALF = "half"
    CORRECTION = "correction"
    DONE = "done"
    SKIP = "skip"
    UNDO = "undo"
    LOG = "log"
    PAIN = "pain"
    SORE = "sore"
    NOT = "not"
    PAINLESS = "painless"
    FILLER = "filler"
    BODY_FILLER = "body filler"


@dataclass(frozen=True, slots=True)
class Language:
    """The words of one language.

    Attributes:
        words: What each word, or words with single spaces, stands for.
        numbers: Numbers written out.
        not_typos: Common words that are never taken for a mistyped word of ours.
    """

    words: Mapping[Mark, str]
    numbers: Mapping[str, int] = field(default_factory=dict)
    not_typos: frozenset[str] = frozenset()


_TENS = {
    "twenty": 20,
    "thirty": 30,
    "forty": 40,
    "fifty": 50,
    "sixty": 60,
    "seventy": 70,
    "eighty": 80,
    "ninety": 90,
}


def listed(words: str) -> tuple[str, ...]:
    """Return words set apart by spaces."""
    return tuple(words.split())


_ONES = listed(
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
    "seventeen eighteen nineteen"
)
_DIGITS = _ONES[1:10]

ENGLISH = Language(
    # Alternatives are set apart by commas.
    words={
        Mark.TIMES: "x, by, times",
        Mark.PLUS: "plus",
        Mark.MINUS: "minus",
        Mark.HUNDRED: "hundred",
        Mark.POINT: "point",
        Mark.HALF: "and a half, and half",
        Mark.CORRECTION: (
            "sorry, no wait, wait no, oops, whoops, i mean, i meant, correction, scratch that, make that, "
            "actually, no sorry, sorry no, wait, no actually, sorry i mean, sorry i meant, sorry make that, oops sorry"
        ),
        Mark.AT: "at, with, w",
        Mark.KG: "kg, kgs, k, kilo, kilos, kilogram, kilograms, kilogramme, kilogrammes, kgm",
        Mark.LB: "lb, lbs, pound, pounds, #, lbm",
        Mark.SECOND: "s, sec, secs, second, seconds",
        Mark.MINUTE: "min, mins, minute, minutes",
        Mark.BODYWEIGHT: "bw, bodyweight, body weight",
        Mark.LEFT: "left, l, lt, lhs, left side, left hand side",
        Mark.RIGHT: "right, r, rt, rhs, right side, right hand side",
        Mark.BOTH: "both, both sides",
        Mark.RIR: "rir, reps in reserve, reps left, left in the tank, left in tank, more in me, more in the tank",
        Mark.RPE: "rpe",
        Mark.RESERVE: "in reserve, in the tank, in tank, reps in the tank, rep in the tank, rep left, rep in reserve",
        Mark.REPS: "reps, rep, repetitions",
        Mark.SETS: "sets, set, series, rounds",
        Mark.EVERY: "all",
        Mark.A_SIDE: "a side, each side, per side, every side, a leg, each leg, per leg, an arm, each arm, per arm, es",
        Mark.A_HAND: "a hand, each hand, per hand, each dumbbell, per dumbbell, each db, per db, each",
        Mark.TOTAL: "total, in total, altogether",
        Mark.FAILURE: "to failure, nothing left, none left, nothing left in the tank, no reps left",
        Mark.DONE: (
            "done, all done, finish, finished, completed, complete, as written, all as written, as planned, "
            "as prescribed, done as written, all done as written, done as planned, all sets done, "
            "did it all, did them all"
        ),
        Mark.SKIP: "skip, skipped, skipping, skip it, skip this, skip that, skip this one, skipped it, skipped this",
        Mark.UNDO: (
            "undo, undo that, undo last, undo the last, undo it, undo last set, take that back, take it back, "
            "take back the last"
        ),
        Mark.LOG: "log",
        Mark.PAIN: (
            "pain, pains, painful, hurt, hurts, hurting, ouch, twinge, twinges, niggle, niggles, niggling, sharp pain, "
            "stabbing, throbbing, killing me, in pain, swollen, swelling, pinching, pinchy, pinches"
        ),
        Mark.SORE: "sore, soreness, tight, tightness, stiff, stiffness, ache, aches, achy, aching, doms, tender",
        Mark.NOT: (
            "no, no more, no real, not, without, never, isnt, doesnt, "
            "didnt, arent, wasnt, dont, wont, nothing, none"
        ),
        Mark.PAINLESS: (
            "pain free, painfree, painless, pain gone, pain is gone, no pain, zero pain, no soreness, no longer sore"
        ),
        Mark.SPLIT: "and, then",
        Mark.FILLER: (
            "did, got, i, of, for, was, today, log, managed, made, make, pls, please, only, just, held, i had, weight, "
            "weights, load, thanks, thank you, thx, cheers, instead, used, using, it was, down to, up to, went to, "
            "went down to, went up to, dropped to, dropped down to, moved to, moved up to, increased to, all sets"
        ),
        Mark.BODY_FILLER: (
            "in, my, the, is, are, a, an, on, bit, a bit, a little, little, level, about, around, still, really, very, "
            "slight, slightly, feels, feel, feeling, felt, out of 10, out of ten, has, have, had, got, now, i, with, "
            "some, today, its, it, was, were, at, of, say, maybe, again, quite, pretty, mild, bad, also, score, "
            "like a, me, outer, inner, front, back of, front of, side of, inside of, outside of, of my, muscle, "
            "muscles, joint"
        ),
    },
    numbers={
        **{word: number for number, word in enumerate(_ONES)},
        **_TENS,
        **{
            f"{ten} {one}": _TENS[ten] + number
            for ten in _TENS
            for number, one in enumerate(_DIGITS, start=1)
        },
    },
    not_typos=frozenset(
        listed(
            "none gone one don done skin ship slip skit pair paid main rain plain paint gain again some store"
            " shore sure score more sort soon son sour core bore tore wore keen kneel need hit hid hop him "
            "his whip lip chip tip hips think though thing tough light night might right fight eight height "
            "weight wait ban pan pun run last list rest reset upset best test chess cheat chef hand band land"
            " sand hard heard harm farm warm form from head beck bank pack rack lack black bad bag bar bat "
            "under until unto half call calm hall ball wall ankles dine dune tone tune dome lone zone bone "
            "phone dose stick stuff start stop still style short shot shout hurst hunt host house hour hours "
            "parking training there their them they then seen line ever even never fire give live night sight sever "
            "your four good great easy heavy long late legs foots feet food fool mood today tomorrow session "
            "gym home work week time tired sleep slept slow fast felt feel fine okay yes"
        )
    ),
)

LANGUAGES: tuple[Language, ...] = (ENGLISH,)


def _table() -> dict[str, Mark]:
    found: dict[str, Mark] = {}
    for language in LANGUAGES:
        for mark, listed in language.words.items():
            for words in listed.split(","):
                # The first meaning listed wins: a word that fills a body phrase may fill a line of sets too.
                found.setdefault(words.strip(), mark)
    return found


MARKS: Mapping[str, Mark] = _table()
"""What each word or phrase stands for, over all languages."""
NUMBERS: Mapping[str, int] = {
    word: value for language in LANGUAGES for word, value in language.numbers.items()
}
"""Numbers written out, over all languages."""
NOT_TYPOS: frozenset[str] = frozenset().union(*(language.not_typos for language in LANGUAGES))
"""Words that are never taken for a mistyped one."""
LONGEST_PHRASE = 5
"""Most words of a phrase."""
