"""What people write otherwise than the tables of words know it: fractions, clocks, `could have done 2 more`.

Each row is a pattern over folded text and what stands for it. Common practice, no source.
"""

import re
from collections.abc import Callable
from decimal import Decimal

from core.checkin.words import NUMBERS
from core.units import Mass, Unit

_ONES = "|".join(word for word in NUMBERS if NUMBERS[word] <= 12)
_FEW = rf"\d{{1,2}}|{_ONES}"
_PLURALS = {
    f"{word}{'es' if word.endswith('x') else 's'}": word for word in NUMBERS if 1 <= NUMBERS[word] <= 20
}
_MANY = "|".join(_PLURALS)
_START, _END = r"(?<![^\W_])", r"(?![^\W_])"
_HALVES = {"1/2": "5", "1/4": "25", "3/4": "75"}
_UNITS = {"k": Unit.KG, "l": Unit.LB}
_SAME = Decimal("0.02")
"""Two units of one load differ by no more than this, as people round. [fraction] Our proposal."""
_MASS = r"(\d{1,4}(?:[.,]\d{1,3})?) ?(kg|lb)s?"

_PAIR = re.compile(r"(\d+s?)/(\d+s?)")

_Row = tuple[re.Pattern[str], str | Callable[[re.Match[str]], str]]


def _same_load(found: re.Match[str]) -> str:
    """Return a load that was written in both units once; as it was where the two differ."""
    first, second = (Mass(Decimal(found[at].replace(",", ".")), _UNITS[found[at + 1][0]]).kg for at in (1, 3))
    is_same = found[2] != found[4] and abs(first - second) <= _SAME * first
    return f"{found[1]} {found[2]} " if is_same else found[0]


_ROWS: tuple[_Row, ...] = (
    (re.compile(r"(?<!\d)24/7(?!\d)"), "always"),
    (
        re.compile(r"(?<![\d/.,:])(\d{1,3}) (1/2|1/4|3/4)(?![\d/])"),
        lambda found: f"{found[1]}.{_HALVES[found[2]]}",
    ),
    (
        re.compile(r"(?<![\d.,])(\d{1,2})m(\d{1,2})s?(?![^\W_])"),
        lambda found: f"{found[1]}:{int(found[2]):02d}",
    ),
    (re.compile(rf"{_START}instead of \d{{1,4}}(?:[.,]\d{{1,3}})? ?(?:kg|lb)?s?{_END}"), ""),
    (re.compile(rf"(?<=[^\W_]),? ({_FEW}) times{_END}(?! ?(?:a|per|this|in|\d|{_ONES}){_END})"), r" x \1"),
    (
        re.compile(rf"((?:\d+s?/\d+s?,? )+)\(?(?:left|l) ?/ ?(?:right|r){_END}\)?"),
        lambda found: _PAIR.sub(r"left \1 right \2", found[1]).strip(),
    ),
    (re.compile(rf"{_START}half a minute{_END}"), "30 s"),
    (re.compile(r"^(?:(?:ok|okay|so|hi|hey|hello|well|yes|yep|yeah)[,.!]? )+(?=\S)"), ""),
    (
        re.compile(rf"{_START}(?:maybe|about|around|roughly|probably|i think)(?= (?:\d|{_ONES}))"),
        "",
    ),
    (re.compile(rf"(?<={_START}left) (?:maybe|i think|probably|or so){_END}"), ""),
    (
        re.compile(rf"((?:left|(?:rir|rpe) \d{{1,2}})) (?:on|in|for) (?:the|my) last(?: set| one)?{_END}"),
        r"\1",
    ),
    (
        re.compile(
            rf"{_START}(?:pulled|tweaked|strained|sprained|twisted|jarred)(?= (?:my|left|right|a muscle){_END})"
        ),
        "pain in",
    ),
    (re.compile(rf"{_START}sharp(?= in (?:my|the)?)"), "pain"),
    (re.compile(rf"{_START}(?:it is |its )?paining{_END}"), "hurts"),
    (re.compile(r"(\d{1,2}) sets?[,;] (?=\d{1,2} reps)"), r"\1 sets of "),
    (
        re.compile(
            rf"{_START}sets?[:=] ?(\d{{1,2}})[,;]? reps?[:=] ?(\d{{1,2}})[,;]?"
            r"(?: (?:weight|load)[:=]? ?(?=\d))?"
        ),
        r"\1 sets of \2 at ",
    ),
    (
        re.compile(
            rf"{_START}(?:weight|load)[:=]? ?(\d{{1,4}}(?:[.,]\d{{1,3}})?(?: ?(?:kg|lb)s?)?)[,;]?"
            r" reps?[:=]? ?(?=\d)"
        ),
        r"\1; ",
    ),
    (re.compile(r"^reps?[:=]? ?(?=\d|left |right )"), ""),
    (
        re.compile(
            rf"{_START}(?:i )?(?:could|couldve|can)(?: have)?(?: (?:done|do|got|get|managed))? "
            rf"({_FEW})(?: (?:or|to) ({_FEW}))? more(?: reps?)?{_END}"
        ),
        lambda found: f"rir {found[1]}-{found[2]}" if found[2] else f"rir {found[1]}",
    ),
    (
        re.compile(rf"{_START}({_FEW}) or ({_FEW})(?= (?:reps? )?(?:left|in reserve|in the tank|rir){_END})"),
        r"\1-\2",
    ),
    (re.compile(rf"(?<={_START}kg) plates?(?= (?:a|per|each) side{_END})"), ""),
    (re.compile(rf"(?<=\d) ?/ ?(side|leg|arm|hand){_END}"), r" per \1"),
    (re.compile(rf"(?<=\d) (?:on )?both (?:sides|legs|arms){_END}"), " each side"),
    (re.compile(rf"{_START}and an?(?= (?:\d|{_ONES}|{_MANY}))"), "and"),
    (re.compile(rf"{_MASS} ?[(/] ?{_MASS} ?\)?"), _same_load),
)
_GROUP = re.compile(rf"(?<![^\W_]|[/.,@])({_FEW}) ({_MANY}){_END}")
_DIGIT_GROUP = re.compile(rf"(?<![^\W_]|[/.,@])([2-5]) (\d{{1,2}})s{_END}(?! ?\d{{1,3}}s)")
_PLURAL = re.compile(rf"{_START}({_MANY}){_END}")


def rewritten(text: str, *, timed: bool) -> str:
    """Return folded text in the words that the tables know.

    Args:
        text: Folded.
        timed: True where sets are counted in seconds, so that `3 45s` are no three sets of 45 reps.
    """
    for pattern, instead in _ROWS:
        text = pattern.sub(instead, text)
    text = _GROUP.sub(lambda found: f"{found[1]} sets of {_PLURALS[found[2]]}", text)
    if not timed:
        text = _DIGIT_GROUP.sub(r"\1 sets of \2", text)
    return _PLURAL.sub(lambda found: _PLURALS[found[1]], text)
