"""Tokens of a line of sets put together to its parts: `92.5 kg`, `3x8`, `10/9`, `@8`, `2 left`."""

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from core.checkin.set_atoms import AtNumber, Atom, Cross, Every, Num, Pair, Per, Role, Said, SideMark
from core.checkin.set_lines import is_no_row
from core.checkin.tokens import Token, first_number, split_number
from core.checkin.words import Mark
from core.programme.exercises import Side
from core.units import Unit

_UNITS = {Mark.KG: Unit.KG, Mark.LB: Unit.LB}
_PASSED = frozenset({Mark.SPLIT, Mark.STOP, Mark.FILLER, Mark.LOG})
_PER = {Mark.A_SIDE: Per.SIDE, Mark.A_HAND: Per.HAND, Mark.TOTAL: Per.TOTAL}
_SIDES = {Mark.LEFT: Side.LEFT, Mark.RIGHT: Side.RIGHT}
_SCALES = frozenset({Mark.RIR, Mark.RPE})


class UnusableError(Exception):
    """A word or sign that no line of sets holds."""


class _Reader:
    """Walks over tokens once."""

    def __init__(self, tokens: Sequence[Token], flipped: bool, sided: bool) -> None:
        self.tokens = tokens
        self.flipped = flipped
        self.sided = sided
        self.two_sides = any(token.mark is Mark.RIGHT for token in tokens)
        self.at = 0
        self.atoms: list[Atom] = []

    def mark(self, ahead: int = 0) -> Mark | None:
        """Return the mark of a token ahead; None after the last."""
        place = self.at + ahead
        return self.tokens[place].mark if place < len(self.tokens) else None

    def read(self) -> tuple[Atom, ...]:
        """Return all atoms."""
        while self.at < len(self.tokens):
            self._next()
        return tuple(self.atoms)

    def _next(self) -> None:
        mark = self.mark()
        after = self.mark(1)
        slashed = mark is Mark.SLASH and bool(self.atoms) and after in (Mark.NUMBER, *_SIDES)
        slashed = slashed or (mark is Mark.TIMES and after in _SIDES)
        if mark in _PASSED or slashed or (mark is Mark.MINUS and self._is_dash(after)):
            self.at += 1
        elif self._is_label():
            self.at += 2
        elif mark is Mark.FAILURE:
            self.at += 1
            self.atoms.append(Said(Mark.RIR, Decimal(0)))
        elif mark in _SCALES or (mark is Mark.AT and after in _SCALES):
            self._effort_first()
        elif mark is Mark.BODYWEIGHT:
            self._bodyweight()
        elif mark in (Mark.PLUS, Mark.MINUS) and after is Mark.NUMBER:
            self._added()
        elif mark is Mark.LEFT and after is Mark.NUMBER and self._may_be_left():
            self.at += 1
            self.atoms.append(Said(Mark.RIR, self._value(), None, unsure=True))
        elif mark in _SIDES:
            self.at += 1
            self.atoms.append(SideMark(_SIDES[mark]))
        elif mark in _PER and self.atoms:
            self._counted_by(_PER[mark])
        else:
            self._numbers(mark, after)

    def _may_be_left(self) -> bool:
        """Return whether `8 8 7 left 2` ends here: reps left, or a set of the left side."""
        return bool(self.atoms) and not self.sided and not self.two_sides and self.at + 2 == len(self.tokens)

    def _is_dash(self, after: Mark | None) -> bool:
        """Return whether a minus only sets things apart; in `-10` it stands close to what follows alone."""
        if after is not Mark.NUMBER:
            return True
        signed = self.tokens[self.at].spaced and not self.tokens[self.at + 1].spaced
        return bool(self.atoms) and not signed

    def _is_label(self) -> bool:
        """Return whether `set 2:` stands here."""
        return (
            self.mark() is Mark.SETS
            and self.mark(1) is Mark.NUMBER
            and self.at + 2 < len(self.tokens)
            and self.tokens[self.at + 2].text == ":"
        )

    def _numbers(self, mark: Mark | None, after: Mark | None) -> None:
        if mark in (Mark.NUMBER, Mark.CLOCK):
            if not self._effort_last():
                self._number()
        elif mark is Mark.AT and after in (Mark.NUMBER, Mark.BODYWEIGHT):
            self.at += 1
            if after is Mark.NUMBER:
                self._at_number()
        elif mark is Mark.TIMES and after is Mark.NUMBER:
            self.at += 1
            self.atoms.extend(Cross((replace(num, role=Role.COUNT),)) for num in self._nums())
        elif mark is Mark.EVERY and after is Mark.NUMBER:
            self.at += 1
            num = self._nums()[-1]
            self.atoms.append(Every(replace(num, role=Role.COUNT)))
        else:
            raise UnusableError

    def _value(self) -> Decimal:
        token = self.tokens[self.at]
        self.at += 1
        return first_number(token)

    def _effort_first(self) -> None:
        """Read `rpe 8`, `rir: 2`, `@rpe 8.5`, `rir 1-2`."""
        self.at += 1 if self.mark() in _SCALES else 2
        scale = self.tokens[self.at - 1].mark
        while self.mark() is Mark.FILLER:
            self.at += 1
        if self.mark() is not Mark.NUMBER:
            raise UnusableError
        value = self._value()
        self._said(scale, value)

    def _said(self, scale: Mark, value: Decimal) -> None:
        upto = None
        is_share = self.mark() is Mark.SLASH
        if self.mark() in (Mark.MINUS, Mark.SLASH) and self.mark(1) is Mark.NUMBER:
            self.at += 1
            upto = self._value()
        elif self.mark() is Mark.PLUS:
            self.at += 1
        self.atoms.append(Said(scale, value, None if is_share and upto == 10 else upto))

    def _effort_last(self) -> bool:
        """Read `2 rir`, `2 left`, `2+ in the tank`, `8 rpe`; False when it is none of them."""
        ranged = self.mark(1) is Mark.MINUS and self.mark(2) is Mark.NUMBER and self._rises()
        ahead = 3 if ranged else 2 if self.mark(1) is Mark.PLUS else 1
        mark = self.mark(ahead)
        if self.mark() is not Mark.NUMBER or "," in self.tokens[self.at].text:
            return False
        scale = Mark.RPE if mark is Mark.RPE else Mark.RIR
        unsure = mark is Mark.LEFT and self.sided
        colon = self.mark(ahead + 1) is Mark.FILLER
        numbered = self.mark(ahead + 1 + colon) is Mark.NUMBER
        if mark in _SCALES and numbered:
            return False
        if mark is Mark.LEFT and numbered and self.at + ahead + 2 == len(self.tokens):
            return False
        if mark is Mark.LEFT and (self.two_sides or (unsure and numbered)):
            return False
        if mark not in (*_SCALES, Mark.RESERVE, Mark.LEFT):
            return False
        value = self._value()
        upto = first_number(self.tokens[self.at + 1]) if ranged else None
        self.at += ahead
        self.atoms.append(Said(scale, value, upto, unsure))
        return True

    def _rises(self) -> bool:
        """Return whether two numbers are a range: `2-3`."""
        return first_number(self.tokens[self.at]) < first_number(self.tokens[self.at + 2])

    def _bodyweight(self) -> None:
        """Read `bw`, `bw+5`, `bw - 10 kg`."""
        self.at += 1
        if self.mark() in (Mark.PLUS, Mark.MINUS) and self.mark(1) is Mark.NUMBER:
            self._added()
        else:
            self.atoms.append(Cross((Num(Decimal(0), Role.LOAD, bodyweight=True),)))
            if self.mark() is Mark.TIMES:
                self._joined(())

    def _added(self) -> None:
        less = self.mark() is Mark.MINUS
        self.at += 1
        first, *rest = self._nums()
        value = -first.value if less else first.value
        added = Num(value, Role.LOAD, first.unit, bodyweight=True)
        self.atoms.append(Cross((added,)))
        self.atoms.extend(Cross((num,)) for num in rest)
        if self.mark() is Mark.TIMES:
            self._joined(())

    def _at_number(self) -> None:
        nums = self._nums()
        if self.mark() is Mark.TIMES or nums[0].role is not None or len(nums) > 1:
            self.atoms.append(Cross((replace(nums[0], role=nums[0].role or Role.LOAD),)))
            self.atoms.extend(Cross((num,)) for num in nums[1:])
            if self.mark() is Mark.TIMES:
                self._joined(())
        else:
            self.atoms.append(AtNumber(nums[0]))

    def _counted_by(self, per: Per) -> None:
        self.at += 1
        last = self.atoms[-1]
        if isinstance(last, Cross):
            changed = replace(last.nums[-1], per=per)
            repeated = self.mark() is Mark.TIMES and self.sided and per is not Per.TOTAL
            if repeated and changed.role is None:
                changed = replace(changed, role=Role.COUNT)
            self.atoms[-1] = Cross((*last.nums[:-1], changed))
            if repeated:
                self._joined(())
        elif per is Per.TOTAL:
            raise UnusableError

    def _nums(self) -> list[Num]:
        """Read a number with the unit or word that follows it."""
        token = self.tokens[self.at]
        self.at += 1
        if token.mark is Mark.CLOCK:
            return [Num(token.value or Decimal(0), Role.SECONDS)]
        mark = self.mark()
        # "eighty eight kilos" does not come apart.
        is_whole = token.apart is not None and mark in (*_UNITS, Mark.SECOND, Mark.MINUTE, Mark.REPS)
        *firsts, last = split_number(token, flipped=self.flipped and not is_whole)
        nums = [Num(value) for value in firsts]
        if mark in _UNITS:
            self.at += 1
            return [*nums, Num(last, Role.LOAD, _UNITS[mark])]
        role = (
            {Mark.SECOND: Role.SECONDS, Mark.REPS: Role.REPS, Mark.SETS: Role.SETS}.get(mark)
            if mark
            else None
        )
        if mark is Mark.MINUTE:
            return [*nums, self._minutes(last)]
        if role is Role.SETS and self._is_label():
            role = None
        self.at += role is not None
        return [*nums, Num(last, role)]

    def _minutes(self, minutes: Decimal) -> Num:
        self.at += 1
        seconds = minutes * 60
        if not self.flipped and self.mark() is Mark.NUMBER and self.mark(1) in (Mark.SECOND, None):
            seconds += self._value()
            self.at += 1
        return Num(seconds, Role.SECONDS)

    def _number(self) -> None:
        in_row = self.mark(-1) is Mark.SLASH and self.at > 0
        nums = self._nums()
        self.atoms.extend(Cross((num,)) for num in nums[:-1])
        if not in_row and self.mark() is Mark.SLASH and self.mark(1) in (Mark.NUMBER, Mark.CLOCK):
            self._slashed(nums[-1])
        else:
            self._joined((nums[-1],))

    def _slashed(self, first: Num) -> None:
        nums = [first]
        while self.mark() is Mark.SLASH and self.mark(1) in (Mark.NUMBER, Mark.CLOCK):
            self.at += 1
            nums += self._nums()
        if len(nums) == 2:
            self.atoms.append(Pair(nums[0], nums[1]))
        else:
            self.atoms.extend(Cross((num,)) for num in nums)

    def _joined(self, nums: tuple[Num, ...]) -> None:
        """Read on over `x 8 x 3`; `3 sets of 8` is joined too. With no number before, join to the last atom."""
        last = self.atoms.pop() if not nums else None
        joined = list(last.nums if isinstance(last, Cross) else nums)
        while True:
            gap = 0
            sets_said = joined[-1].role is Role.SETS
            while self.mark(gap) is Mark.TIMES or (sets_said and self.mark(gap) in (Mark.FILLER, Mark.AT)):
                gap += 1
            if (not gap and not sets_said) or self.mark(gap) not in (Mark.NUMBER, Mark.CLOCK):
                break
            if sets_said and self.mark(gap - 1) is Mark.AT:
                break
            self.at += gap
            joined += self._nums()
        self.atoms.append(Cross(tuple(joined)))


def atoms_of(tokens: Sequence[Token], *, flipped: bool, sided: bool) -> tuple[Atom, ...] | None:
    """Return the atoms of a line of sets; None when a word or sign in it has no place there.

    Args:
        tokens: What is left of a reply when pain and the like are taken out.
        flipped: True to read commas, numbers in words and minutes before seconds the less likely way.
        sided: True when the exercise is done a side at a time.
    """
    if is_no_row(tokens):
        return None
    try:
        return _Reader(tokens, flipped, sided).read()
    except UnusableError:
        return None
