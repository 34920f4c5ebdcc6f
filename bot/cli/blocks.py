"""`plimsoll block check`, `plimsoll block template` and `plimsoll block copy`."""

import html
import re
from pathlib import Path

from rich.console import Console

from bot.files.block_file import block_in, opened_sheets
from bot.files.kinds import Kind
from bot.files.template import template
from bot.files.written import WRITERS
from bot.render.blocks import block_preview
from bot.render.own_exercises import exercise_line
from bot.render.problems import problem_line
from core.programme.catalogue import CATALOGUE
from core.programme.exercise_writing import exercise_sheet
from core.programme.own_exercises import OwnExercisesFile, own_exercises_in, with_own
from core.programme.problems import Severity
from core.programme.rows import BlockFile
from core.programme.writing import sheets_of


def check_block(file: Path, console: Console, errors: Console) -> int:
    """Print what is in a block, or every problem."""
    result = opened_block(file, errors)
    if isinstance(result, int):
        return result
    for one in result.exercises:
        console.print(_plain(exercise_line(one)), markup=False)
    if result.block is not None:
        preview = block_preview(result.block.block, with_own(result.exercises, CATALOGUE), whole=True)
        console.print(_plain(preview), markup=False)
    for warning in (*result.warnings, *(result.block.warnings if result.block is not None else ())):
        console.print(problem_line(warning), markup=False)
    return 0


def read_file(file: Path, errors: Console) -> BlockFile | int:
    """Return the block of a file with our exercises alone; or print what is wrong, and return how to end."""
    result = opened_block(file, errors)
    if isinstance(result, int):
        return result
    if result.exercises:
        return _refused(
            errors, f"{file.name} has exercises of your own; only block check and block copy read them."
        )
    return result.block or _refused(errors, f"There is no block in {file.name}.")


def opened_block(file: Path, errors: Console) -> OwnExercisesFile | int:
    """Return the block of a file and the exercises of its coach's own; or print what is wrong."""
    try:
        content = file.read_bytes()
    except OSError as error:
        errors.print(f"Cannot read {file}: {error.strerror}.", markup=False)
        return 2
    sheets = opened_sheets(content, file.name)
    own = own_exercises_in(sheets) if isinstance(sheets, tuple) else None
    result = own if own is not None else block_in(sheets, content, CATALOGUE)
    if isinstance(result, BlockFile):
        return OwnExercisesFile(exercises=(), block=result)
    if isinstance(result, OwnExercisesFile):
        return result
    for problem in sorted(result, key=lambda found: found.severity is Severity.WARNING):
        errors.print(problem_line(problem), markup=False)
    wrong = sum(problem.severity is Severity.ERROR for problem in result)
    errors.print(f"{wrong} to mend. Nothing is stored.", markup=False)
    return 1


def _plain(text: str) -> str:
    return html.unescape(re.sub(r"<[^>]+>", "", text))


def write_template(file: Path, console: Console, errors: Console) -> int:
    """Write the empty form; what is there already is never written over."""
    if file.suffix.casefold() != ".xlsx":
        return _refused(errors, f"Give the file a name that ends in .xlsx: {file.name}.xlsx")
    status = _kept(file, template(), errors)
    if status == 0:
        console.print(
            f"{file} is written. Open it, write over the examples, and look at it with: "
            f"plimsoll block check {file}",
            markup=False,
            highlight=False,
            soft_wrap=True,
        )
    return status


def copy_block(file: Path, to: Path, console: Console, errors: Console) -> int:
    """Write a block once more as a file of the kind that its new name ends in."""
    kind = next((each for each in Kind if to.suffix.casefold() == f".{each}"), None)
    if kind is None:
        return _refused(errors, f"Give the copy a name that ends in .xlsx, .csv or .yaml, not {to.name}.")
    result = opened_block(file, errors)
    if isinstance(result, int):
        return result
    if result.block is None:
        return _refused(errors, f"There is no block in {file.name}.")
    if result.exercises and kind is not Kind.XLSX:
        return _refused(errors, "A block with exercises of your own beside it is copied as .xlsx alone.")
    catalogue = with_own(result.exercises, CATALOGUE)
    own = (exercise_sheet(result.exercises, catalogue),) if result.exercises else ()
    status = _kept(to, WRITERS[kind]((*sheets_of(result.block.block, catalogue), *own)), errors)
    if status == 0:
        console.print(f"{to} says the same as {file}.", markup=False, highlight=False, soft_wrap=True)
    return status


def _kept(file: Path, content: bytes, errors: Console) -> int:
    """Write a new file; what is there already is never written over."""
    try:
        with file.open("xb") as target:
            target.write(content)
    except FileExistsError:
        return _refused(errors, f"{file} is there already, and is left as it is. Give another name.")
    except OSError as error:
        return _refused(errors, f"Cannot write {file}: {error.strerror}.")
    return 0


def _refused(errors: Console, words: str) -> int:
    errors.print(words, markup=False, highlight=False, soft_wrap=True)
    return 2
