"""A coach's block from a file of hers, of whatever kind: a block with warnings, or every problem at once."""

from collections.abc import Mapping

from bot.files.from_csv import sheets_in_csv
from bot.files.from_xlsx import sheets_in_xlsx
from bot.files.from_yaml import block_in_yaml
from bot.files.kinds import MOST_BYTES, OPENED, Kind, is_old_or_locked, kind_named, kind_of
from core.policy import Policy
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise
from core.programme.problems import Code, Place, Problem, problem
from core.programme.rows import BlockFile, block_from_sheets
from core.programme.sheets import Sheet

_POLICY = Policy()


def read_block(
    content: bytes, name: str, catalogue: Mapping[str, Exercise] = CATALOGUE
) -> BlockFile | list[Problem]:
    """Return the block in a file, or every problem of it.

    Args:
        content: The file.
        name: What its sender calls it.
        catalogue: Exercises that may be named.
    """
    return block_in(opened_sheets(content, name), content, catalogue)


def opened_sheets(content: bytes, name: str) -> tuple[Sheet, ...] | Problem | None:
    """Return the sheets of a file, what is wrong with the file, or None where it is yaml, which has no sheets."""
    if len(content) > MOST_BYTES:
        return too_big(len(content))
    if is_old_or_locked(content):
        return problem(Code.FILE_OLD_OR_LOCKED, Place(), name=name)
    kind = kind_of(content, name)
    if kind is Kind.YAML:
        return None
    if kind not in set(Kind):
        return not_read(name, kind)
    return sheets_in_xlsx(content, name) if kind is Kind.XLSX else sheets_in_csv(content)


def block_in(
    sheets: tuple[Sheet, ...] | Problem | None,
    content: bytes,
    catalogue: Mapping[str, Exercise],
    policy: Policy = _POLICY,
) -> BlockFile | list[Problem]:
    """Return the block in opened sheets, or in yaml where there are none; or every problem."""
    if sheets is None:
        return block_in_yaml(content, catalogue, policy)
    return [sheets] if isinstance(sheets, Problem) else block_from_sheets(sheets, catalogue, policy)


def may_hold_block(name: str) -> bool:
    """True when a file is worth opening, by its name; the reader then says what it is."""
    return name.casefold().endswith(OPENED) or "." not in name


def not_read(name: str, kind: str | None = None) -> Problem:
    """Return the problem of a file of a kind that is not read; `kind` says which where that is known."""
    kind = kind or kind_named(name)
    if kind is None:
        return problem(Code.FILE_NOT_XLSX, Place(), name=name)
    return problem(Code.FILE_OTHER_KIND, Place(), name=name, kind=kind)


def too_big(size: int) -> Problem:
    """Return the problem of a file of `size` bytes."""
    facts = {"size_kb": -(-size // 1024), "limit_kb": MOST_BYTES // 1024}
    return problem(Code.FILE_TOO_BIG, Place(), **facts)
